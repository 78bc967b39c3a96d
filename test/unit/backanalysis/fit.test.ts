import {expect, test} from "vitest";
import {symmetricEigen} from "../../../src/engine/backanalysis/eigen.ts";
import {leastSquares} from "../../../src/engine/backanalysis/leastSquares.ts";
import {loadTrend, measuredBowl} from "../../../src/engine/backanalysis/measured.ts";
import {profileEnd} from "../../../src/engine/backanalysis/profile.ts";
import {startingPoints} from "../../../src/engine/backanalysis/starts.ts";
import {bowlOf, PRESSURE, ROAD, testOf} from "./fixture.ts";

const vector = (...v: number[]): Float64Array => Float64Array.from(v);
const free = {low: vector(-10, -10), high: vector(10, 10)};

test("eigenvalues of a matrix whose own are known, and A·v = λ·v", () => {
  // Second difference of order 3: 2 − 2·cos(kπ/4)
  const A = vector(2, -1, 0, -1, 2, -1, 0, -1, 2);
  const {values, vectors} = symmetricEigen(A, 3);
  [1, 2, 3].forEach((k, i) => {
    expect(values[i]).toBeCloseTo(2 - 2 * Math.cos((k * Math.PI) / 4), 14);
    const v = vectors[i];
    for (let r = 0; r < 3; r++)
      expect(A.subarray(3 * r, 3 * r + 3).reduce((sum, a, j) => sum + a * v[j], 0)).toBeCloseTo(values[i] * v[r], 14);
  });
});

test("Rosenbrock's valley ends at (1, 1)", () => {
  const residuals = (x: Float64Array): Float64Array => vector(10 * (x[1] - x[0] ** 2), 1 - x[0]);
  const fit = leastSquares({residuals, ...free}, vector(-1.2, 1));
  expect([...fit.at].map(v => Math.round(v * 1e6) / 1e6)).toEqual([1, 1]);
  expect(fit.converged).toBe(true);
});

test("a variable that wants to go beyond its bound is held there, the other takes its best value", () => {
  // (x − 3)² + (x + y − 4)² with x ≤ 2: x = 2, y = 2
  const residuals = (x: Float64Array): Float64Array => vector(x[0] - 3, x[0] + x[1] - 4);
  const fit = leastSquares({residuals, low: vector(-10, -10), high: vector(2, 10)}, vector(0, 0));
  expect(fit.at[0]).toBe(2);
  expect(fit.at[1]).toBeCloseTo(2, 6);
  expect(fit.held).toEqual([true, false]);
});

test("the profile of a straight line ends where its standard error times t says", () => {
  // y = a + b·x at x = 0, 1, 2, 3 with residuals; var b = σ²/Sxx, Sxx = 5
  const y = [0.1, 1.9, 4.2, 5.8];
  const residuals = (x: Float64Array): Float64Array => Float64Array.from(y, (v, i) => x[0] + x[1] * i - v);
  const problem = {residuals, ...free};
  const best = leastSquares(problem, vector(0, 0));
  const rise = 0.5;
  const exact = Math.sqrt(rise / 5); // S rises by Sxx·(b − b̂)²
  for (const distance of [exact, exact / 3, Number.NaN]) {
    const limit = best.value + rise;
    const {at} = profileEnd(problem, best, {variable: 1, side: 1, distance, limit});
    expect(Math.abs(at! - best.at[1] - exact) / exact).toBeLessThan(0.02);
  }
  const bounded = {residuals, low: free.low, high: vector(10, best.at[1] + exact / 2)};
  const end = profileEnd(bounded, best, {variable: 1, side: 1, distance: exact, limit: best.value + rise});
  expect(end.at).toBeNull();
  expect(end.fit.at[1]).toBe(best.at[1] + exact / 2);
});

test("starts: the one given, then Halton's points of the box", () => {
  const points = startingPoints(vector(5, 5), vector(0, 0), vector(1, 2));
  expect([...points[0]]).toEqual([5, 5]);
  // Bases 2 and 3: 1/2, 1/4, 3/4; 1/3, 2/3, 1/9
  expect(points.slice(1, 4).map(p => p[0])).toEqual([0.5, 0.25, 0.75]);
  expect(points[3][1]).toBeCloseTo(2 / 9, 14);
});

test("drops are brought to their mean pressure; repeating does not sharpen the sensors themselves", () => {
  const d = bowlOf(ROAD.layers, ROAD.moduli);
  const drops = [0.9, 1, 1.1].map((f, i) => ({
    pressure: f * PRESSURE,
    deflections: d.map(v => v * f * (1 + 0.01 * (i - 1))),
  }));
  const {pressure, sensors} = measuredBowl(testOf(ROAD.layers, d, {drops}));
  expect(pressure).toBeCloseTo(PRESSURE, 6);
  expect(sensors[0].measured).toBeCloseTo(d[0], 12);
  expect(sensors[0].repeatError! / d[0]).toBeCloseTo(0.01 / Math.sqrt(3), 10); // s = 1 %, of three
  expect(sensors[0].deviation / d[0]).toBeCloseTo(Math.hypot(0.02, 0.01 / Math.sqrt(3)), 10);
  const far = measuredBowl(testOf(ROAD.layers, [...d.slice(0, 8), 50e-6])).sensors[8];
  expect(far.deviation).toBe(2e-6); // 2 % of 50 µm is less
});

test("deflection in proportion to the load or not", () => {
  const at = (load: number, factor: number) => ({pressure: load, deflections: [load * factor, 2 * load * factor]});
  expect(loadTrend([at(500e3, 1), at(560e3, 1)])).toBeNull(); // one level
  expect(loadTrend([at(500e3, 1), at(900e3, 1.1)])?.ratio).toBeCloseTo(1.1, 12);
});
