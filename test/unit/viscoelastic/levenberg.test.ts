import {expect, test} from "vitest";
import {levenbergMarquardt} from "../../../src/engine/viscoelastic/levenberg.ts";

const valley = (u: Float64Array): Float64Array => Float64Array.of(10 * (u[1] - u[0] ** 2), 1 - u[0]);

// Rosenbrock 1960 (textbook): a curved valley that ends at (1, 1).
test("down a curved valley", () => {
  const fit = levenbergMarquardt(valley, Float64Array.of(-1.2, 1), {limit: 100, path: "valley"});
  expect(fit.at[0]).toBeCloseTo(1, 9);
  expect(fit.at[1]).toBeCloseTo(1, 9);
  expect(fit.iterations).toBeLessThan(60);
});

test("the limit is an error with the residual, unless a trial may stop there", () => {
  const start = Float64Array.of(-1.2, 1);
  expect(() => levenbergMarquardt(valley, start, {limit: 3, path: "valley"})).toThrow(
    /valley: got a root mean square residual of \d.*that still falls, need an end within 3 iterations/,
  );
  expect(levenbergMarquardt(valley, start, {limit: 3, mayStop: true, path: "valley"}).squares).toBeLessThan(24.2);
});

// NIST StRD "Misra1a", y = b₁·(1 − e^(−b₂·x)); data and certified values from memory: b₁ 238.94212918, b₂ 5.5015643181e-4,
// residual sum of squares 0.12455138894. Sums agree to all certified digits, which no wrong digit of the data would leave.
test("a certified fit", () => {
  const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
  const y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];
  const residualsAt = ([a, b]: Float64Array): Float64Array =>
    Float64Array.from(x, (value, i) => 100 * a * (1 - Math.exp(-1e-3 * b * value)) - y[i]);
  const fit = levenbergMarquardt(residualsAt, Float64Array.of(5, 0.1), {limit: 200, path: "misra"});
  expect(fit.squares).toBeCloseTo(0.12455138894, 9);
  expect(100 * fit.at[0]).toBeCloseTo(238.94212918, 3);
  expect(1e-3 * fit.at[1]).toBeCloseTo(5.5015643181e-4, 8);
});
