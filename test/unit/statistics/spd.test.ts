import {expect, test} from "vitest";
import {factored, randomStream} from "../../../src/engine/statistics/index.ts";

/** B·Bᵀ + I of a random B. */
function matrix(n: number): Float64Array {
  const {normal} = randomStream(n);
  const B = Float64Array.from({length: n * n}, normal);
  return Float64Array.from({length: n * n}, (_, k) => {
    const [i, j] = [Math.floor(k / n), k % n];
    return B.subarray(i * n, (i + 1) * n).reduce((sum, b, m) => sum + b * B[j * n + m], i === j ? 1 : 0);
  });
}

const times = (A: Float64Array, x: ArrayLike<number>, n: number): number[] =>
  Array.from({length: n}, (_, i) => A.subarray(i * n, (i + 1) * n).reduce((sum, a, j) => sum + a * x[j], 0));

// By hand: [4 2; 2 5] = [2 0; 1 2]·[2 1; 0 2], determinant 16.
test("a matrix factored by hand", () => {
  const {logDeterminant, solve, inverse, spread} = factored([4, 2, 2, 5], 2);
  expect(logDeterminant).toBeCloseTo(Math.log(16), 14);
  expect([...solve(Float64Array.of(8, 12))]).toEqual([1, 2]);
  expect([...inverse()]).toEqual([5 / 16, -1 / 8, -1 / 8, 1 / 4]);
  expect([...spread(Float64Array.of(1, 1))]).toEqual([2, 3]);
});

test("A·(A⁻¹·b) is b, and the inverse's columns are those of the unit vectors", () => {
  const n = 7;
  const A = matrix(n);
  const {solve, inverse} = factored(A, n);
  const b = Float64Array.from({length: n}, (_, k) => k - 2);
  const kept = b.slice();
  times(A, solve(b), n).forEach((v, k) => {
    expect(v).toBeCloseTo(b[k], 10);
  });
  expect(b).toEqual(kept);
  const I = inverse();
  for (let j = 0; j < n; j++)
    times(A, I.subarray(j * n, (j + 1) * n), n).forEach((v, i) => {
      expect(v).toBeCloseTo(i === j ? 1 : 0, 10);
    });
});

test("L·Lᵀ is A, and the determinant that of its pivots", () => {
  const n = 5;
  const A = matrix(n);
  const {spread, logDeterminant} = factored(A, n);
  const columns = Array.from({length: n}, (_, j) =>
    spread(Float64Array.from({length: n}, (_, k) => (k === j ? 1 : 0))),
  );
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) expect(columns.reduce((sum, c) => sum + c[i] * c[j], 0)).toBeCloseTo(A[i * n + j], 10);
  expect(logDeterminant).toBeCloseTo(
    columns.reduce((sum, c, j) => sum + 2 * Math.log(c[j]), 0),
    12,
  );
});

test("a matrix without an inverse is refused", () => {
  expect(() => factored([1, 1, 1, 1], 2)).toThrow(/pivot 1 of 2/);
  expect(() => factored([1, 1, 1, 1 + 1e-9], 2)).not.toThrow();
  expect(() => factored([1, 1, 1, 1 + 1e-9], 2, 1e-8)).toThrow(/pivot 1 of 2/);
  expect(() => factored([0], 1)).toThrow(/positive definite/);
  expect(() => factored([Number.NaN], 1)).toThrow(/positive definite/);
});
