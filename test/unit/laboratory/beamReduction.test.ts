import {expect, test} from "vitest";
import {neverFalling, reduceBeam} from "../../../src/engine/laboratory/beamReduction.ts";
import {beamTest, faces} from "./fixture.ts";

// By hand: 3, 2 pool to 2.5, 2.5; 6, 4, 5 to 5, 5, 5; and the 1 at the end draws 7 and the pool of 5 with it:
// (6 + 4 + 5 + 7 + 1)/5 = 4.6.
test("neighbours that go down are pooled, as far back as it takes", () => {
  expect([...neverFalling(Float64Array.of(1, 3, 2, 6, 4, 5, 7))]).toEqual([1, 2.5, 2.5, 5, 5, 5, 7]);
  expect([...neverFalling(Float64Array.of(1, 3, 2, 6, 4, 5, 7, 1))]).toEqual([1, 2.5, 2.5, 4.6, 4.6, 4.6, 4.6, 4.6]);
  expect([...neverFalling(Float64Array.of(4, 3, 2, 1))]).toEqual([2.5, 2.5, 2.5, 2.5]);
  expect([...neverFalling(Float64Array.of())]).toEqual([]);
});

const beam = (lower: readonly number[], upper: readonly number[] = []) =>
  beamTest({
    readings: lower.map((mm, k) => ({
      passes: 1000 * (k + 1),
      lower: faces(mm, mm),
      upper: upper.length ? faces(upper[k], upper[k]) : [],
      stopped: false,
    })),
  });

// 5 mm a thousand passes from below, 2 mm from above: 7 mm a thousand, 50 mm at 50/7 thousand passes.
test("fronts that go on as they did meet where their straight lines say", () => {
  const {meeting} = reduceBeam(beam([5, 10, 15, 20], [2, 4, 6, 8]), 0.9);
  expect(meeting?.passes).toBeCloseTo(50_000 / 7, 6);
  expect(meeting?.from).toBe(4000);
  expect(meeting?.low).toBeLessThan(50_000 / 7);
  expect(meeting?.high).toBeGreaterThan(50_000 / 7);
});

// Fieller by hand for 10, 20, 30, 40 mm at 1 … 4 thousand passes: slope 10 mm, no residual, deviation = 1 mm/√2,
// t(0.95; 2) = 2.919986 (Student's table), Sxx = 5: g = (2.919986·0.0707107)²/5, x = 2.5, N = 5.
test("the meeting's interval is Fieller's", () => {
  const tq = 2.919985580355516;
  const g = (tq * Math.SQRT1_2 * 0.1) ** 2 / 5;
  const half = tq * Math.SQRT1_2 * 0.1 * Math.sqrt((1 - g) / 4 + 2.5 ** 2 / 5);
  const {meeting} = reduceBeam(beam([10, 20, 30, 40]), 0.9);
  expect(meeting?.passes).toBeCloseTo(5000, 6);
  expect(meeting?.low).toBeCloseTo(1000 * (2.5 + (2.5 - half) / (1 - g)), 3);
  expect(meeting?.high).toBeCloseTo(1000 * (2.5 + (2.5 + half) / (1 - g)), 3);
});

test("no meeting is told that the readings do not tell", () => {
  expect(reduceBeam(beam([5, 10, 15]), 0.9).meeting).toBeNull(); // three readings
  expect(reduceBeam(beam([10, 10, 10, 10]), 0.9).meeting).toBeNull(); // a crack at rest
  expect(reduceBeam(beam([2, 3, 4, 5]), 0.9).meeting).toBeNull(); // more than twice as far
  expect(reduceBeam(beam([10, 18, 11, 17]), 0.9).meeting).toBeNull(); // no slope to speak of
});

test("a beam is shown as it was read", () => {
  const {lower, upper, name} = reduceBeam(beam([5, 4, 15]), 0.9);
  expect(name).toBe("B1");
  expect([...lower.length].map(l => Number((l * 1e3).toFixed(9)))).toEqual([5, 4, 15]);
  expect([...lower.smooth].map(l => Number((l * 1e3).toFixed(9)))).toEqual([4.5, 4.5, 15]);
  expect([...lower.difference]).toEqual([0, 0, 0]);
  expect(upper.passes.length).toBe(0);
});
