/** The sweep over all crack states against each state solved by itself. */
import {expect, test} from "vitest";
import {plainKernel} from "../../../src/engine/numeric/index.ts";
import {contactPressures} from "../../../src/engine/response/contact.ts";
import {solveDirect} from "../../../src/engine/response/direct.ts";
import {condense, type LineModel, lineModel} from "../../../src/engine/response/line.ts";
import {wheelLoads} from "../../../src/engine/response/loads.ts";
import {stiffnesses} from "../../../src/engine/response/model.ts";
import {antisymmetricPart, contactSegments, symmetricPart} from "../../../src/engine/response/parts.ts";
import {crackLengths, type StateSpace, stateSpace, tipDepths} from "../../../src/engine/response/states.ts";
import {type Combination, sweepStates} from "../../../src/engine/response/sweep.ts";
import {buildMesh} from "../../../src/engine/section/index.ts";
import {section} from "../section/fixture.ts";

const TRANSFER = 5e9;
const INTERLOCK = 2e10;
const ROAD = section({}, {facesTouch: true});
const CRACKS = crackLengths({overlayThickness: 0.08, interlayerThickness: 0.01, changes: [], clear: 0}, 0.01);
const LENGTH = 0.24;
const CENTRES = [0, 0.1, 0.5]; // over the joint, partly over it, clear of it
const TOLERANCE = 1e-9; // of the largest value of a state

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
const other: LineModel = {...model, kernel: plainKernel()}; // while a sweep goes on, its kernel is not free
const space = stateSpace(model, CRACKS);

/** Whether a node of the path is whole, written from the states' description and not from the sweep. */
function isTied(state: number, {path}: LineModel, s: StateSpace): (node: number) => boolean {
  const {interlayer, underside, surface} = s.states[state];
  const near = 1e-9;
  const depth = (node: number): number => path[node].z;
  const top = s.surfaceLength[surface];
  const mouth = 0.09;
  const lower = mouth - s.interlayerLength[interlayer];
  const upper = 0.08 - s.undersideLength[underside];
  const through = s.interlayerLength[interlayer] > 0.01 - near;
  return node => {
    const z = depth(node);
    if (z < top - near) return false; // surface crack
    if (z > lower + near) return false; // crack from the joint
    if (z <= upper + near) return true; // ahead of the underside's tip
    return through ? z <= Math.min(upper, lower) + near : z >= 0.08 - near; // a restarted crack leaves the interface whole
  };
}

const CHOSEN = (() => {
  const last = space.interlayer.length - 1;
  const index = (a: number, b: number, c: number) => space.index(a, b, c);
  return [
    {name: "whole", state: index(0, 0, 0)},
    {name: "half through the interlayer", state: index(2, 0, 0)},
    {name: "restarted above a whole interlayer", state: index(0, 3, 0)},
    {name: "restarted, all three cracks", state: index(1, 2, 2)},
    {name: "just through the interlayer", state: index(last, 0, 0)},
    {name: "through and up", state: index(last, 4, 0)},
    {name: "through and up, and from the surface", state: index(last, 2, 4)},
    {name: "last of all", state: space.states.length - 1},
  ];
})();

/** For the chosen states the force of every tie by itself. */
function eachTie(perNode: 1 | 2): (state: number) => (Combination | null)[] {
  return state => {
    if (CHOSEN.every(c => c.state !== state)) return [];
    const tied = isTied(state, model, space);
    return Array.from({length: perNode * model.path.length}, (_, k) =>
      tied(Math.floor(k / perNode)) ? {unknowns: Int32Array.of(k), weights: Float64Array.of(1)} : null,
    );
  };
}

test("the chosen states are different and exist", () => {
  expect(CHOSEN.every(c => c.state >= 0)).toBe(true);
  expect(new Set(CHOSEN.map(c => c.state)).size).toBe(CHOSEN.length);
});

for (const beta of [0, 3, 40]) {
  test(`sweep and direct solution agree, β = ${beta}/m`, () => {
    const moduli = ROAD.layers.map(l => l.material.modulus[0].modulus);
    const S = condense(model, stiffnesses(ROAD, {moduli, transfer: TRANSFER}), beta);
    compareOpening(S);
    compareShear(S);
  });
}

function compareOpening(S: Float64Array): void {
  const loads = wheelLoads(model.mesh, LENGTH, CENTRES, "symmetric");
  const segments = contactSegments(model, true);
  expect(segments.length).toBe(3);
  let visited = 0;
  const tableau = symmetricPart(model, S, loads, segments);
  const wheels = CENTRES.length;
  const n = model.path.length;
  // Path forces and mean openings of the segments, then every contact pattern.
  sweepStates(model.kernel, space, tableau, 1, eachTie(1), (state, values) => {
    const chosen = CHOSEN.find(c => c.state === state);
    if (!chosen) return;
    visited++;
    const tied = isTied(state, model, space);
    const columns = wheels + segments.length;
    const rows = Array.from({length: n + segments.length}, (_, r) => r);
    const part = (from: number, end: number): Float64Array =>
      Float64Array.from(rows.flatMap(r => [...values.subarray(r * columns + from, r * columns + end)]));
    const [open, unit] = [part(0, wheels), part(wheels, columns)];
    const settled = new Float64Array(open.length);
    for (let closed = 0; closed < 8; closed++) {
      contactPressures({open, unit, systems: 1, tips: n, segments: segments.length, loads: wheels}, closed, settled);
      const contact = segments.filter((_, s) => closed & (1 << s));
      const direct = solveDirect(other, S, {part: "symmetric", tied, transfer: 0, interlock: 0, contact}, loads);
      for (let p = 0; p < wheels; p++) {
        const pairs: [number, number][] = [];
        for (let k = 0; k < n; k++) if (tied(k)) pairs.push([settled[k * wheels + p], direct.force[(p * n + k) * 3]]);
        segments.forEach((segment, s) => {
          let mean = 0;
          segment.unknowns.forEach((place, i) => {
            mean += (segment.shares[i] / segment.length) * direct.displacement[p * model.size + place];
          });
          const shut = closed & (1 << s);
          // To the size of a force; shut segments have no mean opening left.
          pairs.push([shut ? 0 : 1e9 * settled[(n + s) * wheels + p], 1e9 * mean]);
        });
        expectClose(pairs, `${chosen.name}, closed ${closed}, wheel ${p}`);
      }
    }
  });
  expect(visited).toBe(CHOSEN.length);
}

function compareShear(S: Float64Array): void {
  const loads = wheelLoads(model.mesh, LENGTH, CENTRES, "antisymmetric");
  const tableau = antisymmetricPart(model, S, loads, TRANSFER, INTERLOCK);
  const n = model.path.length;
  const wheels = CENTRES.length;
  let visited = 0;
  sweepStates(model.kernel, space, tableau, 2, eachTie(2), (state, values) => {
    const chosen = CHOSEN.find(c => c.state === state);
    if (!chosen) return;
    visited++;
    const tied = isTied(state, model, space);
    const request = {part: "antisymmetric", tied, transfer: TRANSFER, interlock: INTERLOCK, contact: []} as const;
    const direct = solveDirect(other, S, request, loads);
    CENTRES.forEach((_, p) => {
      const pairs: [number, number][] = [];
      for (let k = 0; k < n; k++) {
        if (!tied(k)) continue;
        for (const c of [0, 1]) pairs.push([values[(2 * k + c) * wheels + p], direct.force[(p * n + k) * 3 + 1 + c]]);
      }
      expectClose(pairs, `${chosen.name}, shear, wheel ${p}`);
    });
  });
  expect(visited).toBe(CHOSEN.length);
}

function expectClose(pairs: readonly (readonly [number, number])[], name: string): void {
  const largest = Math.max(...pairs.map(([, d]) => Math.abs(d)), 1e-9);
  const worst = Math.max(...pairs.map(([s, d]) => Math.abs(s - d)));
  expect(pairs.length).toBeGreaterThan(0);
  expect(worst / largest, name).toBeLessThan(TOLERANCE);
}

test("a wheel clear of the joint plane and its mirror: the two parts are equal loads, opposite where they overlap", () => {
  // Over the joint the antisymmetric load vanishes, so all its forces do.
  const even = wheelLoads(model.mesh, LENGTH, [0], "symmetric");
  const odd = wheelLoads(model.mesh, LENGTH, [0], "antisymmetric");
  expect(even.values.reduce((sum, f) => sum + f, 0)).toBeCloseTo(LENGTH / 2, 12);
  expect(Math.max(...odd.values.map(Math.abs))).toBeLessThan(1e-15);
});

test.each([0, 0.001])("joint of %d m: its faces touch in two equal halves, wherever the mesh has its nodes", width => {
  const options = {rowSize: 0.03, finest: 2e-3, tips: tipDepths(CRACKS), reach: 0.7, extent: {spacings: 1.5}};
  const half = ROAD.layers.find(l => l.role === "jointed")!.thickness / 2;
  for (const halved of [false, true]) {
    const pair = lineModel(buildMesh({...ROAD, joint: {...ROAD.joint, width}}, {...options, halved}));
    const [upper, lower] = contactSegments(pair, true);
    expect(lower.length).toBeCloseTo(half, 12);
    // In a joint without width the uppermost node is the path's, and a sixth of an element no part of the face.
    const first = 2 * (pair.face[0].z - pair.path[pair.path.length - 1].z);
    expect(upper.length).toBeCloseTo(width ? half : half - first / 6, 12);
  }
});
