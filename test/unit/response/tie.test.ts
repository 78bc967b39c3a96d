/** Reinforcement across the crack plane. */
import {expect, test} from "vitest";
import {tiedIn} from "../../../src/engine/life/probeTips.ts";
import {plainKernel} from "../../../src/engine/numeric/index.ts";
import {type DirectSolution, solveDirect} from "../../../src/engine/response/direct.ts";
import {condense, type LineModel, lineModel} from "../../../src/engine/response/line.ts";
import {type SurfaceLoads, wheelLoads} from "../../../src/engine/response/loads.ts";
import {stiffnesses} from "../../../src/engine/response/model.ts";
import {contactSegments, symmetricPart} from "../../../src/engine/response/parts.ts";
import {crackLengths, stateSpace, tipDepths} from "../../../src/engine/response/states.ts";
import {sweepStates} from "../../../src/engine/response/sweep.ts";
import {type Tie, tieOf, tieStretch} from "../../../src/engine/response/tie.ts";
import {buildMesh, type Reinforcement, type Section} from "../../../src/engine/section/index.ts";
import {section} from "../section/fixture.ts";

const CRACKS = crackLengths({overlayThickness: 0.08, interlayerThickness: 0.01, changes: [], clear: 0}, 0.01);
const GRID: Reinforcement = {name: "grid", depth: 0.06, height: 0.012, stiffness: 4e6, bondLength: 0.05};
const LENGTH = 0.24;

function with_(reinforcement: Reinforcement, change: Partial<Section> = {}): Section {
  return section({...change, reinforcement}, {facesTouch: true});
}

const ROAD = with_(GRID);
const model = lineModel(
  buildMesh(ROAD, {
    rowSize: 0.01,
    finest: 2e-3,
    halved: false,
    tips: tipDepths(CRACKS),
    reach: 0.7,
    extent: {spacings: 1.5},
  }),
);
const space = stateSpace(model, CRACKS);
const other: LineModel = {...model, kernel: plainKernel()};
const LOADS = wheelLoads(model.mesh, LENGTH, [0, 0.4], "symmetric");
const matrix = (beta: number): Float64Array => {
  const moduli = ROAD.layers.map(l => l.material.modulus[0].modulus);
  return condense(model, stiffnesses(ROAD, {moduli, transfer: 0}), beta);
};

/** Both wheels lifted instead of pressed down: they pull the crack open from below. */
const LIFTED: SurfaceLoads = {count: LOADS.count, values: LOADS.values.map(v => -v)};

function solved(S: Float64Array, state: number, tie: Tie | null): DirectSolution {
  const request = {
    part: "symmetric",
    tied: tiedIn(space, state),
    transfer: 0,
    interlock: 0,
    contact: [],
    tie,
  } as const;
  return solveDirect(other, S, request, LIFTED);
}

/** Mean of U over the stretch, by wheel. */
function opening({displacement}: DirectSolution, {nodes, weights}: Tie): number[] {
  return [0, 1].map(load =>
    nodes.reduce((sum, node, k) => sum + weights[k] * displacement[load * model.size + model.path[node].U], 0),
  );
}

test.each([0, 5, 40])("the sweep over all states gives each state's own solution, β = %d/m", beta => {
  const S = matrix(beta);
  const tie = tieOf(model, ROAD)!;
  const segments = contactSegments(model, false);
  const tableau = symmetricPart(model, S, LIFTED, segments, tie);
  const ties = model.path.map((_, k) => ({unknowns: Int32Array.of(k), weights: Float64Array.of(1)}));
  const wanted = (state: number) => ties.map((t, k) => (tiedIn(space, state)(k) ? t : null));
  sweepStates(model.kernel, space, tableau, 1, wanted, (state, values) => {
    if (state % 5) return;
    const {force} = solved(S, state, tie);
    const columns = 2 + segments.length;
    for (let k = 0; k < model.path.length; k++)
      for (const load of [0, 1]) {
        const expected = force[(load * model.path.length + k) * 3];
        expect(Math.abs(values[k * columns + load] - expected)).toBeLessThan(1e-9 * LENGTH);
      }
  });
});

test("no stiffness is no reinforcement, to the bit; nor does one that no crack has reached do anything", () => {
  expect(tieOf(model, with_({...GRID, stiffness: 0}))).toBeNull();
  const S = matrix(5);
  const tie = tieOf(model, ROAD)!;
  const last = space.interlayer.length - 1;
  for (const [a, b, changes] of [
    [0, 0, false],
    [last, 0, false],
    [last, 1, false], // 10 mm into the overlay: to 70 mm depth, the grid pulls from 66 to 54 mm
    [last, 3, true],
  ] as const) {
    const state = space.index(a, b, 0);
    const [plain, tied] = [solved(S, state, null), solved(S, state, tie)];
    expect(plain.displacement.every((u, k) => u === tied.displacement[k])).toBe(!changes);
  }
});

test("the stiffer, the less it opens: down to nothing", () => {
  const S = matrix(5);
  const state = space.index(space.interlayer.length - 1, 4, 0);
  const tie = tieOf(model, ROAD)!;
  const openings = [0, 1e-2, 1, 1e2, 1e6].map(factor => {
    const own = {...tie, stiffness: tie.stiffness * factor};
    return opening(solved(S, state, own), tie)[0];
  });
  expect(openings[0]).toBeGreaterThan(0);
  for (let k = 1; k < openings.length; k++) expect(openings[k]).toBeLessThan(openings[k - 1]);
  expect(openings[4]).toBeLessThan(1e-4 * openings[0]);
});

test("one spring on one opening: solved by superposition it is the same", () => {
  const S = matrix(0);
  const state = space.index(space.interlayer.length - 1, 4, 0);
  const tie = tieOf(model, ROAD)!;
  // u = u₀ − c·N, N = k·u; c from a spring of another stiffness.
  const pull = unitPull(S, state, tie);
  const [free] = opening(solved(S, state, null), tie);
  const expected = (tie.stiffness * free) / (1 + tie.stiffness * pull);
  const [found] = opening(solved(S, state, tie), tie);
  expect(tie.stiffness * found).toBeCloseTo(expected, 9 - Math.round(Math.log10(Math.abs(expected))));
});

/** Mean opening of the stretch under a unit force spread over it, from two solutions with other springs. */
function unitPull(S: Float64Array, state: number, tie: Tie): number {
  const [free] = opening(solved(S, state, null), tie);
  const stiff = {...tie, stiffness: 10 * tie.stiffness};
  const [held] = opening(solved(S, state, stiff), tie);
  return (free / held - 1) / stiff.stiffness;
}

test("weights of the stretch sum to 1, on whatever mesh; the pull is the stiffness of half the opening", () => {
  for (const halved of [false, true] as const) {
    const own = lineModel(
      buildMesh(ROAD, {rowSize: 0.01, finest: 2e-3, halved, tips: [], reach: 0, extent: "mid-slab"}),
    );
    const tie = tieOf(own, ROAD)!;
    expect(tie.weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 12);
    const mean = tie.nodes.reduce((sum, node, k) => sum + tie.weights[k] * own.path[node].z, 0);
    expect(mean).toBeCloseTo(0.06, 12);
    expect(tie.stiffness).toBe(4e6 / 0.05);
  }
});

test.each([
  ["in the overlay", 0.06, Infinity, [0.054, 0.066]],
  ["on the interlayer", 0.08, Infinity, [0.074, 0.086]],
  ["on a sliding interlayer: in the overlay alone", 0.08, 0, [0.068, 0.08]],
  ["under the interlayer", 0.09, Infinity, [0.078, 0.09]],
  ["under the surface", 0.001, Infinity, [0, 0.012]],
])("it pulls over its height, %s", (_, depth, bond, expected) => {
  const layers = ROAD.layers.map((l, k) => (k === 0 ? {...l, bondBelow: bond} : l));
  const found = tieStretch({...ROAD, layers}, {...GRID, depth});
  found.forEach((z, k) => {
    expect(z).toBeCloseTo(expected[k], 12);
  });
});

test.each([
  [{depth: 0.1}, "reinforcement.depth"],
  [{depth: 0}, "reinforcement.depth"],
  [{height: 0.2}, "reinforcement.height"],
  [{stiffness: -1}, "reinforcement.stiffness"],
  [{bondLength: 0}, "reinforcement.bondLength"],
])("%o is refused", (change, need) => {
  expect(() => tieOf(model, with_({...GRID, ...change}))).toThrow(need);
});
