import {expect, test} from "vitest";
import {solve} from "../../../src/engine/numeric/dense.ts";
import {numbers} from "./numbers.ts";

/** Symmetric, and positive definite because its diagonal outweighs the rest of the row. */
function positiveDefinite(n: number, seed: number): Float64Array {
  const next = numbers(seed);
  const A = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) A[i * n + j] = A[j * n + i] = next();
    A[i * n + i] = n + next();
  }
  return A;
}

test.each([1, 5, 33, 70])(
  "order %i: solutions give back their right-hand sides, the upper triangle is never read",
  n => {
    const A = positiveDefinite(n, 7 * n);
    const next = numbers(3);
    const B = Float64Array.from({length: 3 * n}, next);
    const X = B.slice();
    const lower = A.map((value, k) => (k % n > Math.floor(k / n) ? Number.NaN : value));
    solve(lower, n, X, 3);
    for (let r = 0; r < 3; r++) {
      for (let i = 0; i < n; i++) {
        let sum = 0;
        for (let j = 0; j < n; j++) sum += A[i * n + j] * X[r * n + j];
        expect(Math.abs(sum - B[r * n + i])).toBeLessThan(1e-13 * n);
      }
    }
  },
);

test.each([0, 1, 33, 49])("an indefinite matrix is refused at pivot %i", at => {
  const n = 50;
  const A = positiveDefinite(n, 5);
  A[at * n + at] = -1;
  expect(() => solve(A, n, new Float64Array(0), 0)).toThrow(`pivot ${at}`);
  const B = positiveDefinite(n, 5);
  B[at * n + at] = Number.NaN;
  expect(() => solve(B, n, new Float64Array(0), 0)).toThrow("positive definite");
});
