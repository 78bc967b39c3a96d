import fc from "fast-check";
import {expect, test} from "vitest";
import {InputError} from "../../../src/engine/errors.ts";
import {type ElasticBase, halfSpaceDeflection, layeredModel, surfaceModel} from "../../../src/engine/layered/index.ts";

const offsets = [0, 0.2, 0.3, 0.6, 1.2, 1.8];
const stiffness = fc.double({min: 7, max: 10.5, noNaN: true}).map(lg => 10 ** lg);
const layer = fc.record({
  modulus: stiffness,
  poisson: fc.double({min: 0, max: 0.5, noNaN: true}),
  thickness: fc.double({min: 0.03, max: 1, noNaN: true}),
  shearSpringBelow: fc.constantFrom(Infinity, 0, 1e10),
});
const bases: ElasticBase[] = [{kind: "half-space"}, {kind: "rigid"}, {kind: "springs", stiffness: 1e8}];

test("the same deflections as the full solution, on any stack and base", () => {
  fc.assert(
    fc.property(fc.array(layer, {minLength: 1, maxLength: 4}), fc.constantFrom(...bases), (some, base) => {
      const layers = some.map((l, j) =>
        j === some.length - 1 && base.kind === "half-space" ? {...l, thickness: Infinity} : l,
      );
      const model = surfaceModel({layers, base, radius: 0.15, offsets});
      const moduli = layers.map(l => l.modulus);
      const points = offsets.map(x => ({x, y: 0, z: 0}));
      const full = layeredModel(layers, base).respond([{x: 0, y: 0, radius: 0.15, pressure: 1}], points);
      const w = model.deflections(moduli);
      const scale = Math.abs(w[0]);
      // Another split of the panels: rounding of sums of hundreds of terms, and of the stack's contrast.
      full.points.forEach((p, k) => {
        expect(Math.abs(p.displacement.z - w[k]) / scale).toBeLessThan(1e-9);
      });
      expect(model.residual(moduli)).toBeLessThan(1e-8);
    }),
    {numRuns: 40, seed: 1},
  );
});

test("half-space: the circle's closed forms at centre and edge (Terazawa 1916)", () => {
  expect(halfSpaceDeflection(0.15, 0, 0.35)).toBeCloseTo(2 * (1 - 0.35 ** 2) * 0.15, 14);
  expect(halfSpaceDeflection(0.15, 0.15, 0.35)).toBeCloseTo((4 / Math.PI) * (1 - 0.35 ** 2) * 0.15, 14);
});

test("bad geometry and moduli are told", () => {
  const layers = [{poisson: 0.4, thickness: Infinity}];
  const base = {kind: "half-space"} as const;
  expect(() => surfaceModel({layers, base, radius: 0, offsets})).toThrow(InputError);
  expect(() => surfaceModel({layers, base, radius: 0.15, offsets: [-1]})).toThrow("offsets[0]");
  expect(() => surfaceModel({layers, base, radius: 0.15, offsets: []})).toThrow("offsets.length");
  expect(() => surfaceModel({layers, base, radius: 0.15, offsets}).deflections([-1])).toThrow("layers[0].modulus");
});
