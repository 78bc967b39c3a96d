import {expect, test} from "vitest";
import {JOE_KUO} from "../../../src/engine/risk/directionNumbers.ts";
import {type Input, inputMap, MOST_SOBOL_DIMENSIONS, type PointKind, points} from "../../../src/engine/risk/index.ts";
import {bareDirections, sobol} from "../../../src/engine/risk/sampling.ts";

const rows = JOE_KUO.trim()
  .split("\n")
  .map(row => row.split(" ").map(Number))
  .map(([degree, inner, ...m]) => ({degree, polynomial: 2 ** degree + 2 * inner + 1, m}));

/** xᵏ modulo a polynomial over {0, 1}, bits of an integer. */
function power(k: number, {degree, polynomial}: {degree: number; polynomial: number}): number {
  const times = (a: number, b: number): number => {
    let product = 0;
    for (; b > 0; b >>= 1) {
      if (b & 1) product ^= a;
      a <<= 1;
      if (a >> degree) a ^= polynomial;
    }
    return product;
  };
  let [result, base] = [1, degree === 1 ? 2 ^ polynomial : 2];
  for (; k > 0; k = Math.floor(k / 2), base = times(base, base)) if (k % 2) result = times(result, base);
  return result;
}

const primeFactors = (n: number): number[] => {
  for (let p = 2; p * p <= n; p++) if (n % p === 0) return [p, ...primeFactors(n / p)];
  return n > 1 ? [n] : [];
};

test("direction numbers: primitive polynomials, no two alike, odd numbers below 2^i", () => {
  expect(rows.length).toBe(MOST_SOBOL_DIMENSIONS - 1);
  expect(new Set(rows.map(row => row.polynomial)).size).toBe(rows.length);
  for (const {degree, polynomial, m} of rows) {
    expect(m.length).toBe(degree);
    m.forEach((number, i) => {
      expect(number % 2 === 1 && number < 2 ** (i + 1)).toBe(true);
    });
    const order = 2 ** degree - 1; // of x, when the polynomial is primitive
    expect(power(order, {degree, polynomial})).toBe(1);
    for (const p of primeFactors(order)) expect(power(order / p, {degree, polynomial}) === 1 && order > 1).toBe(false);
  }
});

// Sobol's property A: the first 2^d points fall one into each of the halves' 2^d boxes. Joe & Kuo chose theirs to have it
// to 1111 dimensions (from memory). It holds when the leading bits of the first d direction numbers are independent.
test.each([2, 7, 40, MOST_SOBOL_DIMENSIONS])("direction numbers have Sobol's property A in %i dimensions", d => {
  const matrix = Array.from({length: d}, (_, j) => leadingBits(j, d));
  expect(rankOf(matrix)).toBe(d);
});

/** Leading bits of direction numbers 1 to n of dimension j, by the recurrence in whole numbers. */
function leadingBits(j: number, n: number): bigint {
  if (j === 0) return 1n; // m_k = 1: the leading bit of v_1 alone
  const {degree: s, polynomial, m} = rows[j - 1];
  const all = m.map(BigInt);
  for (let k = s; k < n; k++) {
    let next = all[k - s] ^ (all[k - s] << BigInt(s));
    for (let i = 1; i < s; i++) if ((polynomial >> (s - i)) & 1) next ^= all[k - i] << BigInt(i);
    all.push(next);
  }
  return all.slice(0, n).reduce((sum, number, k) => sum | (((number >> BigInt(k)) & 1n) << BigInt(k)), 0n);
}

function rankOf(matrix: readonly bigint[]): number {
  const left = [...matrix];
  let rank = 0;
  while (left.length > 0) {
    const row = left.pop()!;
    if (row === 0n) continue;
    rank++;
    const lowest = row & -row;
    for (let i = 0; i < left.length; i++) if (left[i] & lowest) left[i] ^= row;
  }
  return rank;
}

// SciPy 1.17.1, scipy.stats.qmc.Sobol(128, scramble=False, bits=32).random(1024): points 1, 5, 777 and 1000 in
// dimensions 1, 4, 12, 39, 63, 127, counted from 0.
test("unscrambled points are those of another program", () => {
  const at = [1, 4, 12, 39, 63, 127];
  const expected: readonly (readonly [number, readonly number[]])[] = [
    [1, [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]],
    [5, [0.875, 0.875, 0.875, 0.375, 0.625, 0.125]],
    [777, [0.9365234375, 0.6357421875, 0.3837890625, 0.3583984375, 0.4267578125, 0.1181640625]],
    [1000, [0.0966796875, 0.2802734375, 0.1611328125, 0.4794921875, 0.4462890625, 0.5439453125]],
  ];
  for (const [i, values] of expected) {
    const point = sobol({dimensions: 128, count: 1, skip: i}, bareDirections(128));
    expect(at.map(d => point[d] - 0.5 / 2 ** 32)).toEqual(values);
  }
});

const KINDS: readonly PointKind[] = ["sobol", "latin", "random"];
const plan = {dimensions: 5, count: 64, seed: 11, skip: 0};

test.each(KINDS)("%s: the same bits for the same seed, others for another, all within (0, 1)", kind => {
  const first = points(kind, plan);
  expect(first.length).toBe(320);
  expect(points(kind, plan)).toEqual(first);
  const other = points(kind, {...plan, seed: 12});
  expect(first.filter((x, i) => x === other[i]).length).toBe(0);
  for (const x of points(kind, {...plan, count: 4096})) expect(x > 0 && x < 1).toBe(true);
});

test.each(["sobol", "random"] as const)("%s: a longer set begins with the shorter, skip continues it", kind => {
  const long = points(kind, {...plan, count: 150});
  expect(long.slice(0, 320)).toEqual(points(kind, plan));
  for (const skip of [1, 64, 77])
    expect(long.slice(5 * skip)).toEqual(points(kind, {...plan, count: 150 - skip, skip}));
});

test("a Latin hypercube is not the beginning of a longer one, and says so", () => {
  expect(points("latin", {...plan, count: 128}).slice(0, 320)).not.toEqual(points("latin", plan));
  expect(() => points("latin", {...plan, skip: 64})).toThrow("skip: got 64, need 0: a Latin hypercube");
});

test.each([1, 2, 37, 1000])("a Latin hypercube of %i has one point in each stratum of each dimension", count => {
  const x = points("latin", {dimensions: 3, count, seed: 5, skip: 0});
  for (let d = 0; d < 3; d++) {
    const strata = new Set(Array.from({length: count}, (_, i) => Math.floor(x[3 * i + d] * count)));
    expect(strata.size).toBe(count);
  }
});

test("scrambled Sobol points stay a net: one in each of 2^k strata, in every dimension; boxes of the first two", () => {
  const count = 256;
  const d = MOST_SOBOL_DIMENSIONS;
  for (const skip of [0, count]) {
    const x = points("sobol", {dimensions: d, count, seed: 3, skip});
    for (let j = 0; j < d; j++)
      expect(new Set(Array.from({length: count}, (_, i) => Math.floor(x[i * d + j] * count))).size).toBe(count);
    for (const wide of [2, 16, 64]) {
      const boxes = new Set(
        Array.from(
          {length: count},
          (_, i) => Math.floor(x[i * d] * wide) + wide * Math.floor((x[i * d + 1] * count) / wide),
        ),
      );
      expect(boxes.size).toBe(count);
    }
  }
});

test("one scrambled point is uniform over seeds", () => {
  const n = 4000;
  const x = Array.from({length: n}, (_, seed) => points("sobol", {dimensions: 2, count: 1, seed, skip: 3}));
  for (const d of [0, 1]) {
    const mean = x.reduce((sum, point) => sum + point[d], 0) / n;
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 / Math.sqrt(12 * n)); // four standard deviations of a mean
  }
});

test("plans that cannot be are refused", () => {
  const of =
    (change: object, kind: PointKind = "sobol") =>
    () =>
      points(kind, {...plan, ...change});
  expect(of({dimensions: 129})).toThrow("dimensions: got 129, need a whole number from 1 to 128");
  expect(of({dimensions: 0})).toThrow("dimensions");
  expect(of({count: 0})).toThrow("count");
  expect(of({count: 2.5}, "random")).toThrow("count");
  expect(of({seed: Number.NaN})).toThrow("seed");
  expect(of({skip: -1})).toThrow("skip");
  expect(points("random", {dimensions: 300, count: 1, seed: 1, skip: 0}).length).toBe(300);
});

test("inputs turn points into values, those that vary together as one group", () => {
  const inputs: Input[] = [
    {name: "thickness", distribution: {kind: "uniform", low: 1, high: 3}},
    {
      name: "growth law",
      members: ["ln A", "n"],
      joint: {
        mean: [2, 4],
        covariance: [
          [1, 0],
          [0, 1],
        ],
      },
    },
  ];
  const map = inputMap(inputs);
  expect(map.dimensions).toBe(3);
  expect(map.names).toEqual(["thickness", "ln A", "n"]);
  expect(map.groups).toEqual([[0], [1, 2]]);
  expect(map.groupNames).toEqual(["thickness", "growth law"]);
  expect([...map.values([0.25, 0.5, 0.5])]).toEqual([1.5, 2, 4]);
  expect(() => map.values([0.5])).toThrow("point.length: got 1, need 3");
  expect(() => inputMap([])).toThrow("inputs.length");
  expect(() => inputMap([{...inputs[1], members: ["n"]} as Input])).toThrow("members.length: got 1, need 2");
});
