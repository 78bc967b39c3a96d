import fc from "fast-check";
import {expect, test} from "vitest";
import {crackPath, depthOf, drawnDepth, drawnLayers, spreadLabels} from "../../../src/web/views/pavement/geometry.ts";
import {layer, section} from "../section/fixture.ts";

const thick = section(); // 80 mm overlay, 10 mm interlayer, 200 mm slab, 1.2 m below

test("layers stand one on the other, whole but for the foundation, which is cut short", () => {
  const layers = drawnLayers(thick);
  expect(layers.map(l => l.role)).toEqual(["overlay", "interlayer", "jointed", "foundation"]);
  layers.slice(1).forEach((l, k) => void expect(l.top).toBe(layers[k].bottom));
  expect(layers.slice(0, 3).every(l => !l.isCut && Math.abs(l.bottom - l.top - l.thickness) < 1e-12)).toBe(true);
  expect(layers[3].isCut).toBe(true);
  // By hand: 0.29 m above, and 0.1 m below, which is more than three tenths of that.
  expect(layers[3].bottom).toBeCloseTo(0.39, 12);
  expect(drawnDepth(thick)).toBeCloseTo(0.39, 12);
});

test("a dragged layer is drawn with its new thickness, those below move with it", () => {
  const [, , slab] = drawnLayers(thick, {overlay: 0.1});
  expect(slab.top).toBeCloseTo(0.11, 12);
});

test("a thin foundation is drawn whole", () => {
  const shallow = {...thick, layers: [...thick.layers.slice(0, 3), layer("foundation", 0.05, 9e7)]};
  expect(drawnLayers(shallow).at(-1)).toMatchObject({isCut: false});
});

test("where a role lies", () => {
  expect(depthOf(drawnLayers(thick), "interlayer")?.top).toBeCloseTo(0.08, 12);
  expect(
    depthOf(drawnLayers({...thick, layers: thick.layers.filter(l => l.role !== "interlayer")}), "interlayer"),
  ).toBeNull();
});

test("a crack is drawn from its foot to its front", () => {
  expect(crackPath(0.08, 0.03, 1000)).toMatch(/^M0\.0 80\.0L.* 30\.0$/);
});

test("labels keep their order and their distance, and stay above the lower end where there is room", () => {
  fc.assert(
    fc.property(fc.array(fc.double({min: 0, max: 300, noNaN: true}), {maxLength: 8}), found => {
      const middles = found.toSorted((a, b) => a - b);
      const placed = spreadLabels(middles, 30, 300);
      placed.slice(1).forEach((y, k) => void expect(y - placed[k]).toBeGreaterThan(30 - 1e-9));
      if (30 * middles.length < 300 && placed.length > 0) expect(placed.at(-1)).toBeLessThan(300 + 1e-9);
    }),
  );
  expect(spreadLabels([10, 100, 200], 30, 300)).toEqual([10, 100, 200]); // nothing to do
});
