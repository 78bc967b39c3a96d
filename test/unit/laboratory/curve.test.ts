import {expect, test} from "vitest";
import {monotoneCurve} from "../../../src/engine/laboratory/curve.ts";

const x = Float64Array.of(0, 1, 3, 4, 7);

test("a straight line stays one, within and beyond its points", () => {
  const {value, slope} = monotoneCurve(
    x,
    x.map(v => 2 - 3 * v),
  );
  for (const at of [-5, 0, 0.4, 1, 2.2, 6.9, 7, 12]) {
    expect(value(at)).toBeCloseTo(2 - 3 * at, 12);
    expect(slope(at)).toBeCloseTo(-3, 12);
  }
});

// Fritsch & Butland at x = 1: secants 1 and 2 over lengths 1 and 2, α = (1 + 2·2)/(3·(1 + 2)) = 5/9,
// slope = 1·2/(α·2 + (1 − α)·1) = 2/(14/9) = 9/7.
test("the slope at a point is the weighted harmonic mean of the secants beside it", () => {
  const {slope} = monotoneCurve(Float64Array.of(0, 1, 3), Float64Array.of(0, 1, 5));
  expect(slope(1)).toBeCloseTo(9 / 7, 12);
  expect(slope(1 - 1e-9)).toBeCloseTo(9 / 7, 6);
});

test("no extremum between two points, and none beyond a plateau", () => {
  const y = Float64Array.of(0, 0.01, 5, 5, 5.1);
  const {value} = monotoneCurve(x, y);
  let before = value(0);
  for (let at = 0; at <= 7; at += 0.01) {
    const v = value(at);
    expect(v).toBeGreaterThanOrEqual(before - 1e-12);
    before = v;
  }
  expect(value(3.5)).toBe(5);
});

test("the slope is the derivative of the value", () => {
  const {value, slope} = monotoneCurve(x, Float64Array.of(1, 2, 2.5, 4, 9));
  const h = 1e-5;
  for (const at of [-1, 0.3, 0.9, 2, 3.7, 6.5, 8])
    expect(slope(at)).toBeCloseTo((value(at + h) - value(at - h)) / (2 * h), 6);
});

// y = x³ between its points with its own slopes: a cubic is met exactly.
test("known slopes are kept where they leave the curve monotone, and bounded by three secants where not", () => {
  const {value, slope} = monotoneCurve(
    x,
    x.map(v => v ** 3),
    x.map(v => 3 * v * v),
  );
  for (const at of [0.4, 1.7, 3.2, 6.5]) expect(value(at)).toBeCloseTo(at ** 3, 9);
  expect(slope(3)).toBeCloseTo(27, 9);
  const steep = monotoneCurve(Float64Array.of(0, 1, 2), Float64Array.of(0, 1, 3), Float64Array.of(9, 9, -1));
  expect([steep.slope(-1), steep.slope(1), steep.slope(3)]).toEqual([3, 3, 0]);
});

test("a kink is two points in one place", () => {
  const {value, slope} = monotoneCurve(
    Float64Array.of(0, 1, 1, 2),
    Float64Array.of(0, 1, 1, 1),
    Float64Array.of(1, 1, 0, 0),
  );
  for (const at of [0.3, 0.99, 1]) expect(value(at)).toBeCloseTo(at, 12);
  for (const at of [1, 1.4, 3]) expect(value(at)).toBe(1);
  expect(slope(0.999)).toBeCloseTo(1, 12);
  expect(slope(1.001)).toBe(0);
});

test("one point is no curve", () => {
  expect(() => monotoneCurve(Float64Array.of(1), Float64Array.of(1))).toThrow(/x\.length: got 1/);
});
