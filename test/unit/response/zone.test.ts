import {expect, test} from "vitest";
import type {NodePlaces} from "../../../src/engine/response/line.ts";
import {type ZoneRequest, zone} from "../../../src/engine/response/zone.ts";

/** A path of elements of the given lengths. */
function path(lengths: readonly number[]): NodePlaces[] {
  const z = [0];
  for (const l of lengths) z.push(z[z.length - 1] + l / 2, z[z.length - 1] + l);
  return z.map(depth => ({z: depth, share: 0, U: 0, V: 0, W: 0}));
}

/** Consistent nodal forces of tractions t(z), by element: Simpson's weights, exact for t linear in the element. */
function forces(
  lengths: readonly number[],
  t: (z: number, element: number) => number,
  whole: (element: number) => boolean,
) {
  const F = new Float64Array(2 * lengths.length + 1);
  let top = 0;
  lengths.forEach((l, e) => {
    if (whole(e)) {
      F[2 * e] += (l / 6) * t(top, e);
      F[2 * e + 1] += ((4 * l) / 6) * t(top + l / 2, e);
      F[2 * e + 2] += (l / 6) * t(top + l, e);
    }
    top += l;
  });
  return F;
}

const LENGTHS = [0.01, 0.005, 0.005, 0.01, 0.02, 0.01];
const EVEN = new Float64Array(6).fill(1);
const REQUEST: ZoneRequest = {
  tip: 2,
  direction: 1,
  length: 0.01,
  limit: 12,
  brokenBehind: true,
  brokenBeyond: true,
  modulus: EVEN,
};

function mean(request: ZoneRequest, F: Float64Array, lengths: readonly number[] = LENGTHS): number {
  const {nodes, weights} = zone(path(lengths), request);
  return nodes.reduce((sum, node, k) => sum + weights[k] * F[node], 0);
}

test.each([0.005, 0.01, 0.013, 0.02, 0.031, 0.05])("uniform traction over a zone of %d m, wherever it ends", length => {
  const F = forces(
    LENGTHS,
    () => 7,
    e => e >= 1,
  );
  expect(mean({...REQUEST, length}, F)).toBeCloseTo(7, 12);
});

test("direction up the path mirrors direction down", () => {
  const t = (z: number) => 3 + 100 * z + 4000 * z * z;
  const down = mean(
    {...REQUEST, length: 0.017},
    forces(LENGTHS, t, e => e >= 1),
  );
  const reversed = LENGTHS.toReversed();
  const up = {...REQUEST, tip: 10, direction: -1, limit: 0, length: 0.017} as const;
  const mirrored = forces(
    reversed,
    z => t(0.06 - z),
    e => e <= 4,
  );
  expect(mean(up, mirrored, reversed)).toBeCloseTo(down, 12);
});

test("linear traction on even elements: mean at the zone's middle", () => {
  const lengths = new Array<number>(6).fill(0.01);
  const t = (z: number) => 5 + 200 * z;
  const F = forces(lengths, t, () => true); // whole behind too: a zone without a crack
  // Inside a body each end node's force is shared; that of a linear traction then is exactly half on each side.
  for (const length of [0.01, 0.02, 0.03]) {
    expect(mean({...REQUEST, tip: 4, brokenBehind: false, length}, F, lengths)).toBeCloseTo(t(0.02 + length / 2), 12);
  }
  // Where it ends within an element, mean and slope of the elements give the part inside, here exactly as well.
  for (const length of [0.012, 0.025]) {
    expect(mean({...REQUEST, tip: 4, brokenBehind: false, length}, F, lengths)).toBeCloseTo(t(0.02 + length / 2), 12);
  }
});

test("the tip's node belongs to the zone when the other side is broken, else its force is shared by modulus × length", () => {
  const {nodes, weights} = zone(path(LENGTHS), {...REQUEST, length: 0.005});
  expect([...nodes]).toEqual([2, 3, 4]);
  expect(weights[0]).toBeCloseTo(1 / 0.005, 9);
  expect(weights[1]).toBeCloseTo(1 / 0.005, 9);
  expect(weights[2]).toBeCloseTo(0.5 / 0.005, 9);
  const shared = zone(path(LENGTHS), {...REQUEST, length: 0.005, brokenBehind: false});
  expect(shared.weights[0]).toBeCloseTo(0.005 / (0.01 + 0.005) / 0.005, 9);
});

test("an interface ahead: bonded layers strained alike share their node by modulus", () => {
  // Modulus 1 above z = 0.02, 9 below; strains alike, so tractions 1 and 9.
  const modulus = Float64Array.of(1, 1, 1, 9, 9, 9);
  const F = forces(
    LENGTHS,
    (_, e) => modulus[e],
    e => e >= 1,
  );
  expect(mean({...REQUEST, modulus, limit: 6, brokenBeyond: false}, F)).toBeCloseTo(1, 12);
  const below = {...REQUEST, modulus, tip: 6, limit: 10, length: 0.03, brokenBehind: false, brokenBeyond: false};
  expect(mean(below, F)).toBeCloseTo(9, 12);
});

test("a zone longer than the way to its limit ends there", () => {
  const request = {...REQUEST, limit: 6, length: 0.05, brokenBeyond: true};
  const z = zone(path(LENGTHS), request);
  expect(z.length).toBeCloseTo(0.01, 14);
  const F = forces(
    LENGTHS,
    () => 2,
    e => e === 1 || e === 2,
  ); // broken beyond: its end node is all the zone's
  expect(mean(request, F)).toBeCloseTo(2, 12);
});

test("up to the path's end the last node is wholly the zone's", () => {
  const F = forces(
    LENGTHS,
    () => 4,
    e => e >= 1,
  );
  expect(mean({...REQUEST, length: 1, brokenBeyond: false}, F)).toBeCloseTo(4, 12);
});
