import {expect, test} from "vitest";
import {minimize} from "../../../src/engine/statistics/index.ts";

// Rosenbrock 1960: minimum 0 at (1, 1), by construction; start (−1.2, 1) is his.
test("finds the end of Rosenbrock's valley", () => {
  const f = ([x, y]: Float64Array): number => 100 * (y - x * x) ** 2 + (1 - x) ** 2;
  const found = minimize(f, Float64Array.of(-1.2, 1), {tolerance: 1e-14});
  expect(found.converged).toBe(true);
  expect(found.at[0]).toBeCloseTo(1, 5);
  expect(found.at[1]).toBeCloseTo(1, 5);
  expect(found.value).toBe(f(found.at));
});

test("is content with four variables and a function that is not everywhere", () => {
  const f = (x: Float64Array): number =>
    x[0] < -1 ? Number.NaN : x.reduce((sum, v, k) => sum + (k + 1) * (v - k) ** 2, 0);
  const found = minimize(f, Float64Array.of(30, 2, 2, 2), {tolerance: 1e-12, longest: 100});
  found.at.forEach((v, k) => {
    expect(v).toBeCloseTo(k, 4);
  });
});

test("tells when it was stopped", () => {
  const found = minimize(([x]) => (x - 3) ** 2, Float64Array.of(-100), {limit: 10});
  expect(found.converged).toBe(false);
  expect(found.evaluations).toBeLessThanOrEqual(14);
});

test("keeps its arguments", () => {
  const start = Float64Array.of(5, 5);
  minimize(([x, y]) => x * x + y * y, start);
  expect([...start]).toEqual([5, 5]);
});
