/** The operations on packed matrices against the textbook's loops, and the two kernels against each other, bit by bit. */
import fc from "fast-check";
import {expect, test} from "vitest";
import {compileKernel} from "../../../scripts/compile.mjs";
import {eliminate, eliminateFront, plainKernel, simdKernel} from "../../../src/engine/numeric/kernel.ts";
import {PANEL, packedLength, packedRow} from "../../../src/engine/numeric/packed.ts";
import {COMPILED} from "../../../src/engine/wasm/compiled.ts";
import {numbers} from "./numbers.ts";

const plain = plainKernel();
const simd = simdKernel()!;

const at = (i: number, j: number): number => packedRow(i) + PANEL * j;

/** Packed, and positive definite because its diagonal outweighs the rest of the row. */
function positiveDefinite(n: number, seed: number): Float64Array {
  const next = numbers(seed);
  const A = new Float64Array(packedLength(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) A[at(i, j)] = next();
    A[at(i, i)] = n + next();
  }
  return A;
}

/** Gauss elimination of the first `count` unknowns, full and unsymmetric: the textbook's three loops. */
function schur(A: Float64Array, n: number, count: number): number[][] {
  const B = Array.from({length: n}, (_, i) => Array.from({length: n}, (_, j) => A[i >= j ? at(i, j) : at(j, i)]));
  for (let k = 0; k < count; k++) {
    for (let i = k + 1; i < n; i++) {
      const factor = B[i][k] / B[k][k];
      for (let j = k; j < n; j++) B[i][j] -= factor * B[k][j];
    }
  }
  return B;
}

test("entries have places of their own, within the length", () => {
  for (const n of [0, 1, 6, 7, 23]) {
    const places = new Set<number>();
    for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) places.add(at(i, j));
    expect(places.size).toBe((n * (n + 1)) / 2);
    expect(Math.max(-1, ...places)).toBeLessThan(packedLength(n));
  }
});

for (const kernel of [plain, simd]) {
  test(`${kernel.kind}: any part eliminated in any number of steps leaves the Schur complement`, () => {
    const sizes = fc.tuple(fc.integer({min: 1, max: 60}), fc.integer({min: 1, max: 1000}), fc.array(fc.nat(59)));
    fc.assert(
      fc.property(sizes, ([n, seed, cuts]) => {
        const steps = cuts.filter(c => c < n).sort((p, q) => p - q);
        const count = steps.at(-1) ?? 0;
        const A = positiveDefinite(n, seed);
        kernel.reserve(A.length);
        kernel.doubles.set(A);
        steps.forEach((end, k) => void eliminate(kernel, 0, n, steps[k - 1] ?? 0, end));
        const expected = schur(A, n, count);
        for (let i = count; i < n; i++)
          for (let j = count; j <= i; j++)
            expect(Math.abs(kernel.doubles[at(i, j)] - expected[i][j])).toBeLessThan(1e-12 * n);
      }),
      {seed: 7, numRuns: 200},
    );
  });

  test(`${kernel.kind}: an indefinite matrix is refused at its pivot`, () => {
    const n = 50;
    for (const k of [0, 1, 17, 33, 49]) {
      for (const value of [-1, Number.NaN]) {
        const A = positiveDefinite(n, 5);
        A[at(k, k)] = value;
        expect(() => eliminateFront(kernel, n, n, (M, front) => M.set(A, front))).toThrow(`pivot ${k}:`);
      }
    }
  });
}

/** The same operation on both kernels, from the same memory; returns both memories afterwards. */
function both(
  memory: Float64Array,
  integers: readonly number[],
  run: (kernel: typeof plain) => unknown,
): Float64Array[] {
  return [plain, simd].map(kernel => {
    kernel.reserve(memory.length + integers.length);
    kernel.doubles.set(memory);
    kernel.integers.set(integers, 2 * memory.length);
    run(kernel);
    return kernel.doubles.slice(0, memory.length);
  });
}

test("both kernels give the same bits", () => {
  const cases = fc.record({
    n: fc.integer({min: 1, max: 80}),
    seed: fc.integer({min: 1, max: 1000}),
    start: fc.nat(79),
    end: fc.nat(79),
    take: fc.array(fc.nat(79), {minLength: 1, maxLength: 24}),
  });
  fc.assert(
    fc.property(cases, ({n, seed, start, end, take}) => {
      const A = positiveDefinite(n, seed);
      const [first, last] = [Math.min(start, end, n), Math.min(Math.max(start, end), n)];
      const lower = (memory: Float64Array, from: number, order: number): number[] =>
        Array.from({length: order}, (_, i) => Array.from({length: i + 1}, (_, j) => memory[from + at(i, j)])).flat();

      const [one, two] = both(A, [], kernel => kernel.eliminate(0, n, first, last));
      expect(lower(two, 0, n)).toEqual(lower(one, 0, n));

      // A child of order m with `skip` dead rows into the front, an element over it, and some of it in another order.
      const places = [...new Set(take.map(k => k % n))].sort((p, q) => p - q);
      const skip = seed % 6;
      const m = places.length;
      const child = positiveDefinite(m + skip, seed + 1);
      const next = numbers(seed);
      const element = Float64Array.from({length: m * m}, next);
      const memory = Float64Array.of(...A, ...child, ...element);
      const map = 2 * memory.length;
      const [p, q] = both(memory, places, kernel => kernel.extendAdd(0, A.length, m + skip, skip, map));
      expect(lower(q, 0, n)).toEqual(lower(p, 0, n));
      expect(p[at(places[m - 1], places[0])]).toBe(A[at(places[m - 1], places[0])] + child[at(m - 1 + skip, skip)]);
      const mixed = places.map((place, k) => (k % 3 === 2 ? -1 : place)).reverse();
      const [r, s] = both(memory, mixed, kernel => kernel.addElement(0, A.length + child.length, m, map));
      expect(lower(s, 0, n)).toEqual(lower(r, 0, n));
      const order = places.toReversed();
      const [t, u] = both(memory, order, kernel => kernel.gather(A.length, 0, Math.min(m, m + skip), map));
      expect(lower(u, A.length, m)).toEqual(lower(t, A.length, m));
      expect(t[A.length + at(m - 1, 0)]).toBe(A[at(places[m - 1], places[0])]);
    }),
    {seed: 11, numRuns: 300},
  );
});

test("the embedded module is what its source compiles to", async () => {
  const bytes = await compileKernel();
  expect(Buffer.from(bytes).toString("base64")).toBe(COMPILED);
});
