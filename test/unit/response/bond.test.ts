/** Interfaces within the crack path that are not fully bonded. */
import {expect, test} from "vitest";
import {tiedIn} from "../../../src/engine/life/probeTips.ts";
import {plainKernel} from "../../../src/engine/numeric/index.ts";
import {type DirectSolution, solveDirect} from "../../../src/engine/response/direct.ts";
import {condense, type LineModel, lineModel} from "../../../src/engine/response/line.ts";
import {wheelLoads} from "../../../src/engine/response/loads.ts";
import {pathMaterial, stiffnesses} from "../../../src/engine/response/model.ts";
import {antisymmetricPart, contactSegments, symmetricPart} from "../../../src/engine/response/parts.ts";
import {crackLengths, type StateSpace, stateSpace, tipDepths} from "../../../src/engine/response/states.ts";
import {type Combination, sweepStates, zonesOf} from "../../../src/engine/response/sweep.ts";
import {buildMesh, type Section} from "../../../src/engine/section/index.ts";
import {layer, section} from "../section/fixture.ts";

const LENGTH = 0.24;
const CENTRES = [0.1, 0.5];
const CRACKS = crackLengths({overlayThickness: 0.08, interlayerThickness: 0.01, changes: [0.03], clear: 0.005}, 0.01);
const INTERLOCK = 2e10;

/** Courses of 30 and 50 mm, an interlayer, a base, soil; the bonds below the first three layers [Pa/m]. */
function road(bonds: readonly number[]): Section {
  const layers = [
    layer("overlay", 0.03, 5e9, 0.35),
    layer("overlay", 0.05, 3.5e9, 0.35),
    layer("interlayer", 0.01, 4e8, 0.4),
    layer("jointed", 0.2, 9e9, 0.2),
    layer("foundation", 1.2, 9e7, 0.4),
  ];
  return section({layers: layers.map((l, k) => (bonds[k] === undefined ? l : {...l, bondBelow: bonds[k]}))});
}

function solverOf(bonds: readonly number[], beta: number) {
  const own = road(bonds);
  const tips = tipDepths(CRACKS);
  const options = {rowSize: 0.01, finest: 2e-3, halved: false, tips, reach: 0.7, extent: {spacings: 1.5}} as const;
  const model = lineModel(buildMesh(own, options));
  const moduli = own.layers.map(l => l.material.modulus[0].modulus);
  const condition = {moduli, transfer: 5e9};
  const S = condense(model, stiffnesses(own, condition), beta);
  return {section: own, model, S, space: stateSpace(model, CRACKS), condition};
}

const PARTS = ["symmetric", "antisymmetric"] as const;

function direct(
  {model, S}: {readonly model: LineModel; readonly S: Float64Array},
  part: (typeof PARTS)[number],
  tied: (node: number) => boolean,
  transfer = 5e9,
): DirectSolution {
  const request = {part, tied, transfer, interlock: INTERLOCK, contact: []};
  return solveDirect({...model, kernel: plainKernel()}, S, request, wheelLoads(model.mesh, LENGTH, CENTRES, part));
}

const below = (model: LineModel, depth: number) => (node: number) => model.path[node].z > depth + 1e-9;

test("a node of the path has three places where a bond is not full, and its element has no length", () => {
  const whole = solverOf([], 0).model;
  const {path, mesh} = solverOf([0, 1e9, 0], 0).model;
  expect(path.length).toBe(whole.path.length + 4); // the third interface ends the path and has its second node in the face
  for (const depth of [0.03, 0.08]) {
    const at = path.findIndex(n => Math.abs(n.z - depth) < 1e-9);
    expect(at % 2).toBe(0);
    expect(path.slice(at, at + 3).map(n => [n.U < 0, n.V < 0, n.W < 0])).toEqual([
      [false, false, true],
      [true, true, false],
      [false, false, true],
    ]);
    expect(mesh.pathLayers[at / 2]).toBe(-1);
  }
  expect([...mesh.pathLayers].filter(l => l >= 0)).toEqual([...whole.mesh.pathLayers]);
});

test("springs stand on the interfaces with a partial bond only, along their whole length", () => {
  const {mesh} = solverOf([0, 1e9, Infinity], 0).model;
  const bonds = mesh.springs.filter(s => s.kind === "bond");
  expect(bonds.length).toBe(mesh.grid.x.length - 1);
  expect(new Set(bonds.map(s => s.layer))).toEqual(new Set([1]));
});

test("a strip without bond has none of the springs", () => {
  const own = road([Infinity, Infinity, 1e9]);
  const strip = {...own, joint: {...own.joint, unbondedStrip: 0.3}};
  const options = {rowSize: 0.01, finest: 2e-3, halved: false, tips: [], reach: 0.7, extent: {spacings: 1.5}} as const;
  const {grid, springs} = buildMesh(strip, options);
  const bonds = springs.filter(s => s.kind === "bond");
  expect(Math.min(...bonds.map(s => grid.x[s.column]))).toBeCloseTo(0.3, 9);
});

// The difference falls as 1/k, from 1.3e-4 at 1e14 Pa/m to 1.3e-6 at 1e16; beyond, rounding grows. No
// load transfer: its spring on the slab's corner is left out where that node is the path's, and not where the face has its own.
const [STIFF, TOLERANCE] = [1e16, 3e-6];

test.each([0, 3, 40])("a spring stiff beyond measure is full bond, β = %d/m", beta => {
  const whole = solverOf([], beta);
  const stiff = solverOf([STIFF, STIFF, STIFF], beta);
  for (const part of PARTS) {
    for (const depth of [0.02, 0.05, 0.09]) {
      const one = direct(whole, part, below(whole.model, -1));
      const tied = [whole, stiff].map(
        ({model}) =>
          (node: number) =>
            model.path[node].z <= depth + 1e-9,
      );
      const [a, b] = [direct(whole, part, tied[0], 0), direct(stiff, part, tied[1], 0)];
      const scale = Math.max(...one.displacement.map(Math.abs));
      whole.model.surface.forEach((place, s) => {
        for (const load of [0, 1]) {
          const other = b.displacement[load * stiff.model.size + stiff.model.surface[s]];
          expect(Math.abs(other - a.displacement[load * whole.model.size + place]) / scale).toBeLessThan(TOLERANCE);
        }
      });
      // The force across the ligament, all nodes together.
      const c = part === "symmetric" ? 0 : 2;
      const sum = ({force}: DirectSolution, {path}: LineModel): number =>
        path.reduce((total, _, k) => total + force[3 * k + c], 0);
      const [f, g] = [sum(a, whole.model), sum(b, stiff.model)];
      expect(Math.abs(f - g)).toBeLessThan(TOLERANCE * LENGTH);
    }
  }
});

test("deflection falls as a bond gets stiffer, from free slip to full bond", () => {
  const deflection = [0, 1e8, 1e9, 1e10, 1e11, 1e13, Infinity].map(bond => {
    const own = solverOf([bond, bond, bond], 3);
    const solved = direct(own, "symmetric", () => true);
    return solved.displacement[own.model.size + own.model.surface[0]];
  });
  for (let k = 1; k < deflection.length; k++) expect(deflection[k]).toBeLessThan(deflection[k - 1]);
});

/** Every tie by itself; the place of a shared W stands in for that of its two nodes, whose own W the tableau leaves out. */
function eachTie(model: LineModel, space: StateSpace, perNode: 1 | 2): (state: number) => (Combination | null)[] {
  return state =>
    Array.from({length: perNode * model.path.length}, (_, k) => {
      const node = Math.floor(k / perNode);
      const {U, V, W} = model.path[node];
      const there = (perNode === 1 ? U : k % 2 ? W : V) >= 0;
      return there && tiedIn(space, state)(node) ? {unknowns: Int32Array.of(k), weights: Float64Array.of(1)} : null;
    });
}

test.each([0, 30])("the sweep over all states gives each state's own solution, β = %d/m", beta => {
  const own = solverOf([1e9, 0, 1e8], beta);
  const {model, S, space} = own;
  for (const part of PARTS) {
    const loads = wheelLoads(model.mesh, LENGTH, CENTRES, part);
    const perNode = part === "symmetric" ? 1 : 2;
    const tableau =
      perNode === 1 ? symmetricPart(model, S, loads, []) : antisymmetricPart(model, S, loads, 5e9, INTERLOCK);
    sweepStates(model.kernel, space, tableau, perNode, eachTie(model, space, perNode), (state, values) => {
      if (state % 7) return;
      const {force} = direct(own, part, tiedIn(space, state));
      for (let k = 0; k < perNode * model.path.length; k++) {
        const [node, c] = perNode === 1 ? [k, 0] : [Math.floor(k / 2), 1 + (k % 2)];
        for (const load of [0, 1]) {
          const expected = force[(load * model.path.length + node) * 3 + c];
          expect(Math.abs(values[k * 2 + load] - expected)).toBeLessThan(1e-9 * LENGTH);
        }
      }
    });
  }
});

test("two jointed layers that slide on each other: load transfer on both, contact of each half of the face", () => {
  const layers = [
    layer("overlay", 0.08, 3.5e9, 0.35),
    {...layer("jointed", 0.08, 9e9, 0.2), bondBelow: 1e9},
    layer("jointed", 0.12, 9e9, 0.2),
    layer("foundation", 1.2, 9e7, 0.4),
  ];
  const own = section({layers}, {facesTouch: true});
  const options = {
    rowSize: 0.01,
    finest: 2e-3,
    halved: false,
    tips: [0.04],
    reach: 0.7,
    extent: {spacings: 1.5},
  } as const;
  const model = lineModel(buildMesh(own, options));
  const moduli = layers.map(l => l.material.modulus[0].modulus);
  const S = condense(model, stiffnesses(own, {moduli, transfer: 5e9}), 5);
  const [upper, lower] = model.face.flatMap((n, k) => (Math.abs(n.z - 0.16) < 1e-9 ? [k] : []));
  expect(model.face[upper].W).toBe(model.face[lower].W);
  expect(model.face[upper].U).not.toBe(model.face[lower].U);

  const cracks = crackLengths({overlayThickness: 0.08, interlayerThickness: 0, changes: [], clear: 0}, 0.04);
  const space = stateSpace(model, {...cracks, overlay: [0, 0.04]});
  const loads = wheelLoads(model.mesh, LENGTH, CENTRES, "antisymmetric");
  const tableau = antisymmetricPart(model, S, loads, 5e9, INTERLOCK);
  sweepStates(model.kernel, space, tableau, 2, eachTie(model, space, 2), (state, values) => {
    const {force} = direct({model, S}, "antisymmetric", tiedIn(space, state));
    for (let k = 0; k < 2 * model.path.length; k++) {
      const expected = force[3 * Math.floor(k / 2) + 1 + (k % 2)];
      expect(Math.abs(values[2 * k] - expected)).toBeLessThan(1e-9 * LENGTH);
    }
  });

  // A segment of the face is as long as it is, and pushes both layers.
  const segments = contactSegments(model, true);
  const missing = (model.face[0].z - 0.08) / 3; // the sixth of the first row that is the path's
  for (const [k, {unknowns, length}] of segments.slice(0, 2).entries()) {
    expect(length).toBeCloseTo(k === 0 ? 0.1 - missing : 0.1, 12);
    expect(new Set(unknowns).size).toBe(unknowns.length);
  }
  const first = segments[0];
  const share = (k: number) => first.shares[first.unknowns.indexOf(model.face[k].U)];
  expect(share(upper)).toBeCloseTo((model.face[upper].z - model.face[upper - 2].z) / 6, 12);
  expect(share(lower)).toBeGreaterThan(0); // its row goes on beyond the segment
});

test("a crack through the lower layer leaves the upper one's node whole, and the W of both", () => {
  const {model, space} = solverOf([1e9, 0], 0);
  const {path} = model;
  const last = space.interlayer.length - 1;
  const at = (depth: number) => path.findIndex(n => Math.abs(n.z - depth) < 1e-9);
  const tied = (a: number, b: number, c: number, depth: number) =>
    [0, 1, 2].map(k => tiedIn(space, space.index(a, b, c))(at(depth) + k));
  expect(tied(last, 0, 0, 0.08)).toEqual([true, true, false]); // through the interlayer
  expect(tied(0, 2, 0, 0.08)).toEqual([false, true, true]); // restarted above it
  expect(tied(last, 2, 0, 0.08)).toEqual([false, false, false]);
  const half = space.undersideLength.findIndex(l => Math.abs(l - 0.05) < 1e-9);
  const down = space.surfaceLength.findIndex(l => Math.abs(l - 0.03) < 1e-9);
  expect(tied(last, half, 0, 0.03)).toEqual([true, true, false]); // up to the upper course
  expect(tied(0, 0, down, 0.03)).toEqual([false, true, true]); // down to the lower one
  expect(space.index(last, half, down)).toBe(-1); // they have met
});

test("zones end where the bond is not full, and share one W there", () => {
  const {model, space, section: own, condition} = solverOf([1e9, 0], 0);
  const material = pathMaterial(own, model, condition);
  const zones = zonesOf(model, space, material);
  const last = space.interlayer.length - 1;
  const one = zones(space.states[space.index(0, 0, 0)])[1]!; // everything whole: both layers pull on the shared W
  const other = zones(space.states[space.index(last, 0, 0)])[1]!; // interlayer broken: the overlay alone
  const tip = model.path.findIndex(n => Math.abs(n.z - 0.08) < 1e-9);
  expect(one.opening.nodes).toContain(tip);
  expect(one.step.nodes).toContain(tip + 1);
  const weight = (z: typeof one.step, node: number) => z.weights[z.nodes.indexOf(node)];
  const [G1, G2] = [3.5e9 / 2.7, 4e8 / 2.8];
  expect(weight(one.step, tip + 1) / weight(other.step, tip + 1)).toBeCloseTo(G1 / (G1 + G2), 12);
  expect(weight(one.opening, tip)).toBe(weight(other.opening, tip));
  const top = zones(space.states[0])[2]!;
  expect(Math.max(...top.opening.nodes.map(k => model.path[k].z))).toBeLessThan(0.03 + 1e-9);
});

test.each([
  [4, "the lowest layer"],
  [3, "slabFriction"],
])("a bond below layer %d is refused", (k, need) => {
  expect(() =>
    solverOf(
      Array.from({length: k + 1}, (_, i) => (i === k ? 1e9 : Infinity)),
      0,
    ),
  ).toThrow(need);
});
