import {expect, test} from "vitest";
import {eliminate, release, solveFactored} from "../../../src/engine/numeric/dense.ts";

/** Repeatable numbers in (−1, 1): Park & Miller's minimal standard generator. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}

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

/** Gauss elimination of the first `count` unknowns, full and unsymmetric: the textbook's three loops. */
function schur(A: Float64Array, n: number, count: number): Float64Array {
  const B = A.slice();
  for (let k = 0; k < count; k++) {
    for (let i = k + 1; i < n; i++) {
      const factor = B[i * n + k] / B[k * n + k];
      for (let j = k; j < n; j++) B[i * n + j] -= factor * B[k * n + j];
    }
  }
  return B;
}

// Sizes around the panel of 32 columns and the blocks of 4.
const SIZES = [
  [1, 1],
  [5, 2],
  [31, 31],
  [33, 32],
  [64, 33],
  [67, 64],
  [70, 0],
  [101, 97],
];

test.each(SIZES)("order %i, %i eliminated: the rest is the Schur complement", (n, count) => {
  const A = positiveDefinite(n, n);
  const expected = schur(A, n, count);
  eliminate(A, n, count);
  for (let i = count; i < n; i++) {
    for (let j = count; j <= i; j++) expect(Math.abs(A[i * n + j] - expected[i * n + j])).toBeLessThan(1e-11 * n);
  }
});

test.each(SIZES)("order %i: solutions give back their right-hand sides", n => {
  const A = positiveDefinite(n, 7 * n);
  const L = A.slice();
  eliminate(L, n, n);
  const next = numbers(3);
  const B = Float64Array.from({length: 3 * n}, next);
  const X = B.slice();
  solveFactored(L, n, X, 3);
  for (let r = 0; r < 3; r++) {
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += A[i * n + j] * X[r * n + j];
      expect(Math.abs(sum - B[r * n + i])).toBeLessThan(1e-13 * n);
    }
  }
});

test("the upper triangle is never read", () => {
  const n = 40;
  const A = positiveDefinite(n, 1);
  const lower = A.slice();
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) lower[i * n + j] = Number.NaN;
  eliminate(A, n, 35);
  eliminate(lower, n, 35);
  for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) expect(lower[i * n + j]).toBe(A[i * n + j]);
});

test.each([0, 1, 33, 49])("an indefinite matrix is refused at pivot %i", at => {
  const n = 50;
  const A = positiveDefinite(n, 5);
  A[at * n + at] = -1;
  expect(() => eliminate(A, n, n)).toThrow(`pivot ${at}`);
  const B = positiveDefinite(n, 5);
  B[at * n + at] = Number.NaN;
  expect(() => eliminate(B, n, n)).toThrow("positive definite");
});

/**
 * Tableau [K | G] with a functional −w below. Releasing unknowns in any order must leave in the tied rows g − K·u, in the
 * functional's row wᵀ·u, and agree with solving for the released ones at once.
 */
test("release: forces of the tied and functionals of the released, in any order", () => {
  const n = 9;
  const loads = 2;
  const columns = n + loads;
  const K = positiveDefinite(n, 11);
  const next = numbers(2);
  const G = Float64Array.from({length: n * loads}, next);
  const w = Float64Array.from({length: n}, next);
  for (const order of [
    [3, 4, 5],
    [8, 0, 4, 2],
    [0, 1, 2, 3, 4, 5, 6, 7, 8],
  ]) {
    const T = new Float64Array((n + 1) * columns);
    for (let i = 0; i < n; i++) {
      T.set(K.subarray(i * n, (i + 1) * n), i * columns);
      T.set(G.subarray(i * loads, (i + 1) * loads), i * columns + n);
    }
    for (let j = 0; j < n; j++) T[n * columns + j] = -w[j];
    const tied = new Uint8Array(n).fill(1);
    for (const k of order) release(T, n + 1, n, columns, tied, k);
    expect([...tied.keys()].filter(k => !tied[k])).toEqual(order.toSorted((a, b) => a - b));

    for (let r = 0; r < loads; r++) {
      const u = solveFor(
        K,
        n,
        order,
        order.map(k => G[k * loads + r]),
      );
      const functional = order.reduce((sum, k, i) => sum + w[k] * u[i], 0);
      expect(Math.abs(T[n * columns + n + r] - functional)).toBeLessThan(1e-13);
      for (let k = 0; k < n; k++) {
        if (!tied[k]) continue;
        const force = order.reduce((sum, j, i) => sum - K[k * n + j] * u[i], G[k * loads + r]);
        expect(Math.abs(T[k * columns + n + r] - force)).toBeLessThan(1e-12);
      }
    }
  }
});

/** Solution of the rows and columns in `set` alone. */
function solveFor(K: Float64Array, n: number, set: readonly number[], g: readonly number[]): number[] {
  const m = set.length + 1;
  const A = new Float64Array(m * m);
  set.forEach((k, i) => {
    set.forEach((l, j) => {
      A[i * m + j] = K[k * n + l];
    });
    A[i * m + m - 1] = g[i];
  });
  const U = schur(A, m, set.length);
  const x = new Array<number>(set.length).fill(0);
  for (let i = set.length - 1; i >= 0; i--) {
    let sum = U[i * m + m - 1];
    for (let j = i + 1; j < set.length; j++) sum -= U[i * m + j] * x[j];
    x[i] = sum / U[i * m + i];
  }
  return x;
}
