import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {tridiagonalModes} from "../../../src/engine/numeric/index.ts";

describe("modes of a symmetric tridiagonal matrix", () => {
  test("of second differences are sines: λ = 2 − 2·cos(kπ/(n+1))", () => {
    const n = 12;
    const values = new Float64Array(n).fill(2);
    tridiagonalModes(values, new Float64Array(n).fill(-1));
    values.sort().forEach((value, k) => {
      expect(value).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 14); // derived
    });
  });

  test("are orthonormal and give the matrix back", () => {
    const entries = fc.array(fc.double({min: -10, max: 10, noNaN: true}), {minLength: 2, maxLength: 40});
    fc.assert(
      fc.property(entries, list => {
        const n = Math.floor(list.length / 2);
        const beside = Float64Array.from(list.slice(n, 2 * n));
        const diagonal = Float64Array.from({length: n}, (_, k) => {
          return 0.01 + Math.abs(list[k]) + Math.abs(beside[k]) + Math.abs(beside[k - 1] ?? 0); // positive definite
        });
        const values = diagonal.slice();
        const vectors = tridiagonalModes(values, beside.slice());
        const sum = (i: number, j: number, weight: (k: number) => number): number => {
          let total = 0;
          for (let k = 0; k < n; k++) total += weight(k) * vectors[k * n + i] * vectors[k * n + j];
          return total;
        };
        for (let i = 0; i < n; i++) {
          for (let j = 0; j <= i; j++) {
            const entry = i === j ? diagonal[i] : j === i - 1 ? beside[j] : 0;
            expect(Math.abs(sum(i, j, k => values[k]) - entry)).toBeLessThan(1e-12);
            expect(Math.abs(sum(i, j, () => 1) - (i === j ? 1 : 0))).toBeLessThan(1e-13);
          }
        }
      }),
    );
  });

  test("keep small values accurate when the small entries come first", () => {
    // Entries that grow tenfold: −e² from the ones before is all that couples them, λ₀ = d₀ − e₀²/d₁·(1 + …).
    const n = 12;
    const d = Float64Array.from({length: n}, (_, k) => 10 ** k);
    const e = Float64Array.from({length: n}, (_, k) => 0.1 * 10 ** k);
    // The product of the values is the determinant, by its recurrence in terms of one sign.
    let pivot = d[0];
    let logarithm = Math.log(pivot);
    for (let k = 1; k < n; k++) {
      pivot = d[k] - (e[k - 1] * e[k - 1]) / pivot;
      logarithm += Math.log(pivot);
    }
    tridiagonalModes(d, e);
    expect(d.reduce((sum, value) => sum + Math.log(value), 0)).toBeCloseTo(logarithm, 12);
  });
});
