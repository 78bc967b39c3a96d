import {expect, test} from "vitest";
import {
  buildMesh,
  interfaceDepths,
  isPath,
  type LineNode,
  type MeshOptions,
} from "../../../src/engine/section/index.ts";
import {layer, section} from "./fixture.ts";

const OPTIONS: MeshOptions = {
  rowSize: 0.01,
  finest: 1e-3,
  extent: {spacings: 2.5},
  reach: 1,
  tips: [0.03],
  halved: false,
};

const total = (nodes: readonly LineNode[]): number => nodes.reduce((sum, n) => sum + n.share, 0);

test("lines stand on every interface, at the cut's end, at tips and neighbouring joints", () => {
  const {grid, layerOfRow} = buildMesh(section(), OPTIONS);
  const has = (lines: Float64Array, v: number) => lines.some(x => Math.abs(x - v) < 1e-9);
  for (const z of [0, 0.03, 0.08, 0.09, 0.29, 0.59, 1.49]) expect(has(grid.z, z), `z = ${z}`).toBe(true);
  for (const x of [0, 4, 8, 10]) expect(has(grid.x, x), `x = ${x}`).toBe(true);
  expect([...new Set(layerOfRow)]).toEqual([0, 1, 2, 3]);
});

test("tight joint: path, face, cut and what is whole below follow one another down the line x = 0", () => {
  const mesh = buildMesh(section(), OPTIONS);
  expect(mesh.pathBottom).toBeCloseTo(0.09, 12);
  expect(mesh.path[0].z).toBe(0);
  expect(mesh.path.at(-1)!.z).toBeCloseTo(0.09, 12);
  expect(mesh.path.length % 2).toBe(1);
  expect(mesh.face[0].z).toBeGreaterThan(0.09);
  expect(mesh.face.at(-1)!.z).toBeCloseTo(0.29, 12);
  expect(mesh.cut.at(-1)!.z).toBeCloseTo(0.59, 12);
  // A node between two groups keeps the share above it, so path and face are as long as their layers; what the face lacks is
  // the sixth of its first element at the node that ends the path.
  expect(total(mesh.path)).toBeCloseTo(0.08, 12); // the overlay: springs between crack faces do not act in an interlayer
  expect(total(mesh.face)).toBeCloseTo(0.2 - (2 * (mesh.face[0].z - mesh.pathBottom)) / 6, 12);
  expect(total([...mesh.cut, ...mesh.below])).toBeLessThan(1.2);
  // Corner shares are a sixth of the elements beside them, midside shares two thirds.
  expect(mesh.path[1].share).toBeCloseTo((2 / 3) * mesh.path[2].z, 12);
});

test("wide joint: no jointed layer within the gap, the face beside it, its top corner apart from the path", () => {
  const mesh = buildMesh(section({}, {width: 0.02}), OPTIONS);
  const {grid, layerOfRow} = mesh;
  for (let row = 0; row < grid.z.length - 1; row++) {
    for (let column = 0; column < grid.x.length - 1; column++) {
      const gap = layerOfRow[row] === 2 && grid.x[column + 1] <= 0.01 + 1e-9;
      expect(grid.at(column, row) === null).toBe(gap);
    }
  }
  expect(mesh.path.at(-1)!.z).toBeCloseTo(0.09, 12);
  expect(mesh.face[0].z).toBeCloseTo(0.09, 12);
  expect(mesh.face[0].unknowns[0]).not.toBe(mesh.path.at(-1)!.unknowns[0]);
  expect(total(mesh.face)).toBeCloseTo(0.2, 12); // the foundation's line at x = 0 starts a new node
  expect(total(mesh.path)).toBeCloseTo(0.08, 12); // the overlay: springs between crack faces do not act in an interlayer
});

test("unbonded strip: overlay and jointed layer share W alone, as far as the strip goes", () => {
  const strip = 0.05;
  const {grid, layerOfRow} = buildMesh(section({}, {unbondedStrip: strip}), OPTIONS);
  const row = layerOfRow.indexOf(2);
  for (let column = 0; column < grid.x.length - 1; column++) {
    const above = grid.at(column, row - 1)!.unknowns;
    const below = grid.at(column, row)!.unknowns;
    const middle = [6, 4]; // bottom midside above, top midside below
    expect(above[3 * middle[0] + 2]).toBe(below[3 * middle[1] + 2]);
    for (const c of [0, 1]) {
      const shared = above[3 * middle[0] + c] === below[3 * middle[1] + c];
      expect(shared).toBe(grid.x[column + 1] > strip + 1e-9);
    }
  }
});

test("slab friction: full bond, a spring on each element, or free slip", () => {
  const count = (slabFriction: number) => {
    const mesh = buildMesh(section({slabFriction}), OPTIONS);
    const friction = mesh.springs.filter(s => s.kind === "bond");
    return {unknowns: mesh.grid.unknownCount, springs: friction.length, columns: mesh.grid.x.length - 1, friction};
  };
  const bonded = count(Infinity);
  const sprung = count(1e9);
  const free = count(0);
  expect(bonded.springs).toBe(0);
  expect(sprung.springs).toBe(sprung.columns);
  expect(free.springs).toBe(0);
  expect(sprung.unknowns).toBe(free.unknowns);
  expect(free.unknowns).toBeGreaterThan(bonded.unknowns);
  expect(sprung.friction[0].components).toEqual([0, 1]);
  expect(sprung.friction[0].unknowns.length).toBe(12);
});

test("no spring stands between a node and itself, as where two slabs meet under a bonded layer", () => {
  const {springs} = buildMesh(section(), OPTIONS);
  const transfer = springs.filter(s => s.kind === "load transfer");
  for (const {unknowns} of transfer) {
    const [one, two] = [unknowns.slice(0, 3), unknowns.slice(3)];
    one.forEach((own, k) => void expect(own === two[k] ? own : -1).toBe(-1));
  }
  // Of the uppermost on each joint the corner is held by the layer above: −1 on both sides.
  expect(transfer.filter(({unknowns}) => unknowns.includes(-1)).length).toBeGreaterThan(0);
});

test("load transfer springs stand on the neighbouring joints only, over the jointed depth", () => {
  const {springs, grid} = buildMesh(section(), OPTIONS);
  const transfer = springs.filter(s => s.kind === "load transfer");
  for (const x of [4, 8]) {
    const column = grid.x.findIndex(v => Math.abs(v - x) < 1e-9);
    const depth = transfer.filter(s => s.column === column).reduce((sum, s) => sum + s.length, 0);
    expect(depth).toBeCloseTo(0.2, 12);
  }
  expect(new Set(transfer.map(s => s.column)).size).toBe(2);
});

test("neighbouring joints are cut as deep as this one, and no deeper", () => {
  const {grid, layerOfRow} = buildMesh(section(), OPTIONS);
  const column = grid.x.findIndex(v => Math.abs(v - 4) < 1e-9);
  for (let row = 0; row < grid.z.length - 1; row++) {
    const left = grid.at(column - 1, row)!.unknowns[3 * 5]; // right midside
    const right = grid.at(column, row)!.unknowns[3 * 7]; // left midside
    const cut = layerOfRow[row] === 2 || (layerOfRow[row] === 3 && grid.z[row + 1] <= 0.59 + 1e-9);
    expect(left === right).toBe(!cut);
  }
});

test("base: rigid holds the bottom, springs lie under every element", () => {
  const rigid = buildMesh(section(), OPTIONS);
  const last = rigid.grid.at(0, rigid.grid.z.length - 2)!.unknowns;
  expect([9, 10, 11, 18, 19, 20].every(k => last[k] === -1)).toBe(true);
  const springs = buildMesh(section({base: {kind: "springs", stiffness: 5e7}}), OPTIONS);
  const base = springs.springs.filter(s => s.kind === "base");
  expect(base.reduce((sum, s) => sum + s.length, 0)).toBeCloseTo(10, 9);
  expect(springs.grid.at(0, springs.grid.z.length - 2)!.unknowns[11]).toBeGreaterThanOrEqual(0);
});

test("the halved mesh holds the lines of the coarse one, and the middles between", () => {
  const coarse = buildMesh(section(), OPTIONS).grid;
  const fine = buildMesh(section(), {...OPTIONS, halved: true}).grid;
  for (const axis of ["x", "z"] as const) {
    expect(fine[axis].length).toBe(2 * coarse[axis].length - 1);
    coarse[axis].forEach((v, k) => {
      expect(fine[axis][2 * k]).toBe(v);
    });
  }
});

test("mid-slab model ends half a spacing away; surface nodes only within reach", () => {
  const thermal = buildMesh(section(), {...OPTIONS, extent: "mid-slab", reach: 0});
  expect(thermal.grid.x.at(-1)).toBe(2);
  expect(thermal.surface).toEqual([]);
  const {surface} = buildMesh(section(), OPTIONS);
  expect(surface[0].x).toBe(0);
  expect(surface.at(-1)!.x).toBeGreaterThanOrEqual(1);
  expect(surface.length % 2).toBe(1);
});

test("layers out of order or without a jointed one are refused", () => {
  const {layers} = section();
  const swapped = [layers[1], layers[0], ...layers.slice(2)];
  expect(() => buildMesh(section({layers: swapped}), OPTIONS)).toThrow("layers[1].role");
  expect(() => buildMesh(section({layers: layers.filter(l => l.role !== "jointed")}), OPTIONS)).toThrow("jointed");
});

test("a bare jointed layer has a face from the top and no path", () => {
  const mesh = buildMesh(section({layers: [layer("jointed", 0.2, 9e9), layer("foundation", 1, 9e7)]}), OPTIONS);
  expect(mesh.path).toEqual([]);
  expect(mesh.face[0].z).toBe(0);
  expect(total(mesh.face)).toBeCloseTo(0.2, 12);
});

test("depths add up; cracks run in overlay and interlayer", () => {
  expect([...interfaceDepths(section().layers)].map(z => Math.round(1e6 * z))).toEqual([0, 80e3, 90e3, 290e3, 1490e3]);
  expect(["overlay", "interlayer", "jointed", "foundation"].map(r => isPath(r as "overlay"))).toEqual([
    true,
    true,
    false,
    false,
  ]);
});

test("columns at the first neighbouring joint are as small as asked for, on both sides; none near x = 0 moves", () => {
  const columns = (options: MeshOptions) => buildMesh(section(), options).grid.x;
  const beside = (x: Float64Array, at: number) => {
    const k = x.findIndex(v => Math.abs(v - at) < 1e-9);
    return [x[k] - x[k - 1], x[k + 1] - x[k]];
  };
  const plain = columns(OPTIONS);
  const refined = columns({...OPTIONS, neighbour: 1e-3});
  expect(Math.min(...beside(plain, 4))).toBeGreaterThan(0.5);
  // An element over which the size grows 30-fold is up to several times as long as the size where it begins.
  for (const h of beside(refined, 4)) expect(h).toBeLessThan(0.01);
  for (const h of beside(columns({...OPTIONS, neighbour: 1e-4}), 4)) expect(h).toBeLessThan(0.001);
  expect(Math.min(...beside(refined, 8))).toBeGreaterThan(0.5);
  expect(refined.length - plain.length).toBeLessThanOrEqual(8); // the time they may cost
  expect([...refined.slice(0, 4)].map((x, k) => Math.abs(x / plain[k] - 1) || 0).every(e => e < 0.3)).toBe(true);
});
