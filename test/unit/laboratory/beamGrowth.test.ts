import {expect, test} from "vitest";
import {solveBeam} from "../../../src/engine/laboratory/beam.ts";
import {type BeamCycles, beamCycles, beamHistory, REFERENCE_STRAIN} from "../../../src/engine/laboratory/beamGrowth.ts";
import {beamTest, evenSolution} from "./fixture.ts";

/** Ranges of one tip in the first state, in µε, with how often they come in one pass. */
function cyclesOf({first, range, count}: BeamCycles, tip: number): [number, number][] {
  const sums = new Map<number, number>();
  for (let k = first[tip]; k < first[tip + 1]; k++) {
    const microstrain = Number((range[k] * 1e6).toFixed(6));
    sums.set(microstrain, (sums.get(microstrain) ?? 0) + count[k]);
  }
  return [...sums].sort((p, q) => q[0] - p[0]);
}

const MPa = (...values: number[]): number[] => values.map(v => v * 1e6); // over E' = 1 GPa: 1000 µε

// Counted by hand: there 0 1000 400 800 0, back 800 400 1000 0. Twice 1000, twice 400 in two passes.
test("a pass with two peaks has a large cycle and the small one between the peaks", () => {
  expect(cyclesOf(beamCycles(evenSolution(MPa(0, 1, 0.4, 0.8, 0)), 1), 1)).toEqual([
    [1000, 1],
    [400, 1],
  ]);
});

// Hogging pulls at the surface at either end of the travel: to and fro it is one peak a pass, not two.
test("a peak at the wheel's turning point is shared by the passes before and after it", () => {
  const cycles = beamCycles(evenSolution(MPa(-1, 1, -1), MPa(1, -1, 0.6)), 1);
  expect(cyclesOf(cycles, 1)).toEqual([[1000, 1]]);
  expect(cyclesOf(cycles, 2)).toEqual([
    [1000, 0.5],
    [600, 0.5],
  ]);
});

test("strain that stays at the ends of the travel is not a cycle", () => {
  expect(cyclesOf(beamCycles(evenSolution(MPa(0.3, 1, 0.3)), 1), 1)).toEqual([[700, 1]]);
});

test("shear counts with the root of its weight, compression not at all", () => {
  const solution = evenSolution(MPa(0, -5, 0), MPa(0, 0, 0), MPa(0, 0.8, 0));
  expect(cyclesOf(beamCycles(solution, 1), 1)).toEqual([[800, 1]]);
  expect(cyclesOf(beamCycles(solution, 0.25), 1)).toEqual([[400, 1]]);
  expect(cyclesOf(beamCycles(solution, 0), 1)).toEqual([]);
});

// Both tips strained alike, whatever their lengths: dc/dN = A·(ε/ε₀)^n, they meet (0.5 % before the whole) in the middle.
test("fronts that are always strained alike grow in proportion to the passes", () => {
  const cycles = beamCycles(evenSolution(MPa(0, 1, 0), MPa(0, 1, 0)), 1);
  const law = {logRate: Math.log(1e-7), exponent: 3};
  const rate = 1e-7 * (1000e-6 / REFERENCE_STRAIN) ** 3;
  const solution = evenSolution(MPa(0, 1, 0), MPa(0, 1, 0));
  const alike = beamHistory(solution, cycles, {overlay: law, interlayer: null}, 1e9);
  expect(alike.broken).toBe(true);
  expect(alike.passes.at(-1)).toBeCloseTo((0.995 * 0.05) / (2 * rate), -1);
  const {passes, fronts} = beamHistory(solution, cycles, {overlay: law, interlayer: null}, 5000, 0.5);
  expect(passes.at(-1)).toBeCloseTo(5000, 6);
  expect(fronts[1].at(-1)! / (5000 * rate)).toBeCloseTo(1, 9);
  expect(fronts[2].at(-1)! / (2500 * rate)).toBeCloseTo(1, 9);
});

const choices = {plane: "stress", zoneLength: {mix: 0.008}, interlock: 0, accuracy: 0.04} as const;

test("over a travel as far to one side as to the other opening is even and shear odd", () => {
  const {positions, opening, shear} = solveBeam(beamTest(), 1e8, choices);
  const n = positions.length;
  expect(positions[0]).toBe(-0.25);
  for (let p = 0; p < n; p++) {
    expect(positions[p]).toBeCloseTo(-positions[n - 1 - p], 12);
    expect(opening[n + p]).toBe(opening[n + n - 1 - p]); // row 1: underside
    expect(shear[n + p] + shear[n + n - 1 - p]).toBeCloseTo(0, 3); // of kilopascals and more
  }
  expect(Math.max(...shear.subarray(n, 2 * n))).toBeGreaterThan(0);
});

test("a travel to one side is half of the whole one", () => {
  const whole = solveBeam(beamTest(), 1e8, choices);
  const right = solveBeam(beamTest({travel: {from: 0, to: 0.25}}), 1e8, choices);
  const left = solveBeam(beamTest({travel: {from: -0.25, to: 0}}), 1e8, choices);
  const n = right.positions.length;
  const skip = whole.positions.length - n;
  expect([...right.positions]).toEqual([...whole.positions.subarray(skip)]);
  for (let p = 0; p < n; p++) {
    expect(right.opening[n + p]).toBeCloseTo(whole.opening[whole.positions.length + skip + p], 3);
    expect(left.shear[n + n - 1 - p]).toBeCloseTo(-right.shear[n + p], 3);
  }
});

test("a wheel that leaves the beam is refused", () => {
  expect(() => solveBeam(beamTest({travel: {from: -0.25, to: 0.29}}), 1e8, choices)).toThrow(/B1: travel/);
  expect(() => solveBeam(beamTest({travel: {from: 0.1, to: 0.1}}), 1e8, choices)).toThrow(/travel\.to/);
});
