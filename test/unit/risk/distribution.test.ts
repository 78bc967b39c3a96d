import libraryQuantile from "@stdlib/stats-base-dists-normal-quantile";
import {expect, test} from "vitest";
import {
  type Distribution,
  faultsOf,
  jointNormal,
  LARGEST_CUT,
  massCut,
  momentsOf,
  quantileOf,
} from "../../../src/engine/risk/index.ts";
import {normalCdf} from "../../../src/engine/statistics/index.ts";

const EVERY: readonly Distribution[] = [
  {kind: "constant", value: 3},
  {kind: "normal", mean: 10, deviation: 2},
  {kind: "lognormal", median: 3, coefficientOfVariation: 0.5},
  {kind: "uniform", low: -1, high: 4},
  {kind: "triangular", low: 1, mode: 2.2, high: 5},
  {kind: "discrete", values: [5, 1, 2], weights: [1, 2, 1]},
  {kind: "sample", values: [4, 1, 1, 7]},
  {kind: "normal", mean: 10, deviation: 2, truncated: {low: 8, high: 13}},
  {kind: "lognormal", median: 3, coefficientOfVariation: 0.5, truncated: {low: 2, high: 6}},
  {kind: "lognormal", median: 3, coefficientOfVariation: 0.5, truncated: {low: -Infinity, high: 4}},
  {kind: "uniform", low: -1, high: 4, truncated: {low: 0, high: 3}},
  {kind: "triangular", low: 1, mode: 2.2, high: 5, truncated: {low: 1.5, high: 4}},
  {kind: "triangular", low: 1, mode: 2.2, high: 5, truncated: {low: 2.5, high: 4.5}},
  {kind: "discrete", values: [5, 1, 2], weights: [1, 2, 1], truncated: {low: 1, high: 2}},
  {kind: "sample", values: [4, 1, 1, 7], truncated: {low: 0, high: 5}},
];
const called = (one: Distribution): string => `${one.kind}${one.truncated ? " truncated" : ""}`;

test.each(EVERY.map(one => [called(one), one] as const))("moments of %s are those of its quantiles", (_, one) => {
  const quantile = quantileOf(one);
  const n = 200_000; // the midpoint rule; its error is that of the tails, below 1e-4 of a deviation
  const values = Float64Array.from({length: n}, (_, i) => quantile((i + 0.5) / n));
  const mean = values.reduce((sum, x) => sum + x, 0) / n;
  const deviation = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / n);
  const moments = momentsOf(one);
  expect(moments.mean).toBeCloseTo(mean, 4);
  expect(moments.deviation).toBeCloseTo(deviation, 3);
  expect(values.every((x, i) => i === 0 || x >= values[i - 1])).toBe(true);
  const {low, high} = one.truncated ?? {low: -Infinity, high: Infinity};
  expect(values[0]).toBeGreaterThanOrEqual(low);
  expect(values[n - 1]).toBeLessThanOrEqual(high);
});

test("quantiles far out keep their digits, on either side alike", () => {
  const quantile = quantileOf({kind: "normal", mean: 0, deviation: 1});
  for (const u of [2 ** -40, 1e-6, 0.3]) {
    expect(normalCdf(quantile(u)) / u - 1).toBeCloseTo(0, 10);
    if (u === 2 ** -40) expect(quantile(1 - u)).toBe(-quantile(u));
  }
  // Cut at the mean: the upper half of a normal, whose quantile at u is that of (1 + u)/2.
  const upper = quantileOf({kind: "normal", mean: 0, deviation: 1, truncated: {low: 0, high: Infinity}});
  expect(upper(0.9)).toBeCloseTo(1.6448536269514722, 12); // Abramowitz & Stegun 1964, table 26.1, from memory
});

test("quantiles of a normal are the library's", () => {
  const quantile = quantileOf({kind: "normal", mean: 10, deviation: 2});
  for (const u of [0.001, 0.1, 0.5, 0.77, 0.999]) expect(quantile(u)).toBeCloseTo(libraryQuantile(u, 10, 2), 10);
});

test("values without a density come by their cumulative probability", () => {
  const quantile = quantileOf({kind: "discrete", values: [5, 1, 2], weights: [1, 2, 1]});
  expect([0.01, 0.5, 0.501, 0.75, 0.76, 0.999].map(quantile)).toEqual([1, 1, 2, 2, 5, 5]);
  const one = quantileOf({kind: "sample", values: [7]});
  expect([1e-9, 0.5, 1 - 1e-9].map(one)).toEqual([7, 7, 7]);
  const never = quantileOf({kind: "discrete", values: [1, 2], weights: [0, 3]});
  expect(never(1e-300)).toBe(2);
});

test("without spread it is its one value", () => {
  const still: Distribution[] = [
    {kind: "normal", mean: 4, deviation: 0},
    {kind: "lognormal", median: 4, coefficientOfVariation: 0},
    {kind: "uniform", low: 4, high: 4},
    {kind: "triangular", low: 4, mode: 4, high: 4},
    {kind: "normal", mean: 4, deviation: 0, truncated: {low: 4, high: 9}},
  ];
  for (const one of still) {
    expect(quantileOf(one)(0.2)).toBe(4);
    expect(momentsOf(one)).toEqual({mean: 4, deviation: 0});
  }
  const beside: Distribution = {kind: "constant", value: 4, truncated: {low: 5, high: 6}};
  expect(faultsOf(beside)[0].message).toBe("distribution.truncated: got 100 % cut away, need ≤ 50 %");
});

test("a triangle with its mode at an end", () => {
  const right: Distribution = {kind: "triangular", low: 0, mode: 1, high: 1}; // density 2x
  expect(quantileOf(right)(0.25)).toBeCloseTo(0.5, 15);
  expect(momentsOf(right).mean).toBeCloseTo(2 / 3, 14);
  expect(momentsOf(right).deviation).toBeCloseTo(Math.sqrt(1 / 18), 14);
  const left: Distribution = {kind: "triangular", low: 0, mode: 0, high: 1, truncated: {low: 0, high: 0.5}};
  expect(massCut(left)).toBeCloseTo(0.25, 14);
  expect(quantileOf(left)(0.5)).toBeCloseTo(1 - Math.sqrt(1 - 0.5 * 0.75), 14);
});

test("a truncation says what it cuts, and may not cut most", () => {
  const normal = (low: number, high: number): Distribution => ({
    kind: "normal",
    mean: 0,
    deviation: 1,
    truncated: {low, high},
  });
  expect(massCut({kind: "normal", mean: 0, deviation: 1})).toBe(0);
  expect(massCut(normal(-1, 1))).toBeCloseTo(0.3173105078629141, 12); // one sigma either way
  expect(massCut(normal(0, Infinity))).toBe(LARGEST_CUT);
  expect(() => quantileOf(normal(0.01, Infinity))).toThrow("distribution.truncated: got 50.4 % cut away, need ≤ 50 %");
  expect(() => momentsOf(normal(2, 1))).toThrow("low < high");
  expect(() => massCut(normal(Number.NaN, 1))).toThrow("low < high");
});

test("every fault of the parameters is told", () => {
  const told = (one: Distribution): string[] => faultsOf(one, "A").map(fault => fault.message);
  expect(told({kind: "normal", mean: Number.NaN, deviation: -1})).toEqual([
    "A.mean: got NaN, need finite",
    "A.deviation: got -1, need finite, ≥ 0",
  ]);
  expect(told({kind: "lognormal", median: 0, coefficientOfVariation: Infinity})).toHaveLength(2);
  expect(told({kind: "uniform", low: 2, high: 1})).toEqual(["A.high: got 1, need finite, ≥ low"]);
  expect(told({kind: "triangular", low: 2, mode: 1, high: 0})).toHaveLength(2);
  expect(told({kind: "discrete", values: [], weights: []})).toContain("A.values.length: got 0, need ≥ 1");
  expect(told({kind: "discrete", values: [1, Number.NaN], weights: [1]})).toHaveLength(2);
  expect(told({kind: "discrete", values: [1, 2], weights: [0, 0]})).toEqual(["A.weights' sum: got 0, need > 0"]);
  expect(told({kind: "discrete", values: [1, 2], weights: [1, -1]})).toContain(
    "A.weights[1]: got -1, need finite, ≥ 0",
  );
  expect(told({kind: "sample", values: []})).toEqual(["A.values.length: got 0, need ≥ 1"]);
  expect(told({kind: "constant", value: Infinity})).toHaveLength(1);
  for (const one of EVERY) expect(told(one)).toEqual([]);
  for (const u of [0, 1, -1, Number.NaN]) expect(() => quantileOf(EVERY[1])(u)).toThrow("in (0, 1)");
});

test("quantities that vary together: the second follows the first, then its own", () => {
  const draw = jointNormal({
    mean: [1, 4],
    covariance: [
      [4, -1.2],
      [-1.2, 1],
    ],
  });
  // L = [[2, 0], [−0.6, 0.8]]; Φ⁻¹(0.975) = 1.959964
  expect([...draw([0.5, 0.5])]).toEqual([1, 4]);
  expect(draw([0.975, 0.5])[0]).toBeCloseTo(1 + 2 * 1.959963984540054, 10);
  expect(draw([0.975, 0.5])[1]).toBeCloseTo(4 - 0.6 * 1.959963984540054, 10);
  expect(draw([0.5, 0.025])[1]).toBeCloseTo(4 - 0.8 * 1.959963984540054, 10);
});

test("a covariance that is none is refused, with where", () => {
  const of = (covariance: number[][], mean = [0, 0]) => jointNormal({mean, covariance});
  const [a, b, c] = [
    [1, 2],
    [2, 1],
    [2.1, 9],
  ];
  expect(() => of([a, b])).toThrow("pivot 1 of 2: got -3, need > 0: the matrix is not positive definite");
  expect(() => of([a, c])).toThrow("covariance[1][0]: got 2.1, need 2, as [0][1] has");
  expect(() => of([[0, 0], b])).toThrow("covariance[0][0]: got 0, need finite, > 0: a variance");
  expect(() => of([a])).toThrow("covariance.length: got 1, need 2");
  expect(() => of([[1], b])).toThrow("covariance[0].length: got 1, need 2");
  expect(() => of([], [])).toThrow("mean.length");
  expect(() => of([a, [2, 9]], [Number.NaN, 0])).toThrow("mean[0]");
  const good = of([a, [2, 9]]);
  expect(() => good([0.5])).toThrow("u.length: got 1, need 2");
  expect(() => good([0.5, 1])).toThrow("u[1]: got 1, need in (0, 1)");
});
