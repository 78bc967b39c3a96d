import {test} from "vitest";
import {
  censoredAt,
  inputMap,
  lifeAtReliability,
  momentsOf,
  type PointKind,
  points,
  quantileOf,
  ratioOf,
  replicated,
  runUntil,
  type SampledLife,
  singly,
  sobolDesign,
  sobolIndices,
  survivalOf,
} from "../../src/engine/risk/index.ts";
import {normalCdf, normalQuantile, randomStream} from "../../src/engine/statistics/index.ts";
import {verificationTable} from "../table.ts";
import {gFunction, ishigami, OTHER_PROGRAM, squareDiscrepancy} from "./values.ts";

const {compare, between, heading, remark, page} = verificationTable(
  "risk",
  "Uncertainty",
  "Distributions, points, reliability and sensitivity against closed forms and against other programs. What is estimated " +
    "from samples is allowed about three of its standard errors.",
);

const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / values.length);

const ended = (years: Iterable<number>): SampledLife[] => Array.from(years, one => ({years: one, censored: false}));

/** Values of a function at points, row by row. */
function evaluate(x: Float64Array, d: number, f: (u: Float64Array) => number): Float64Array {
  return Float64Array.from({length: x.length / d}, (_, i) => f(x.subarray(i * d, (i + 1) * d)));
}

test("distributions", () => {
  heading("Quantiles and moments of distributions");
  for (const {name, distribution, quantiles, mean, deviation} of OTHER_PROGRAM) {
    const quantile = quantileOf(distribution);
    const common = {source: "SciPy 1.17.1", standing: "derived", unit: "–", tolerance: 1e-9} as const;
    for (const [u, x] of quantiles)
      compare({...common, name: `${name}: quantile at ${u}`, expected: x, computed: quantile(u)});
    const moments = momentsOf(distribution);
    if (mean) compare({...common, name: `${name}: mean`, expected: mean, computed: moments.mean});
    if (deviation) compare({...common, name: `${name}: deviation`, expected: deviation, computed: moments.deviation});
  }
  const half = momentsOf({kind: "normal", mean: 0, deviation: 1, truncated: {low: 0, high: Infinity}});
  const common = {source: "half-normal: √(2/π), √(1 − 2/π)", standing: "derived", unit: "–", tolerance: 1e-13} as const;
  compare({...common, name: "normal cut at its mean: mean", expected: Math.sqrt(2 / Math.PI), computed: half.mean});
  compare({
    ...common,
    name: "normal cut at its mean: deviation",
    expected: Math.sqrt(1 - 2 / Math.PI),
    computed: half.deviation,
  });
});

/** Root mean square over seeds of the error in the mean of Π (½ + u) over six inputs, which is 1. */
function integrationError(kind: PointKind, count: number, seeds: number): number {
  const smooth = (u: Float64Array): number => u.reduce((all, x) => all * (0.5 + x), 1);
  return rootMeanSquare(
    Array.from({length: seeds}, (_, seed) => {
      const values = evaluate(points(kind, {dimensions: 6, count, seed, skip: 0}), 6, smooth);
      return values.reduce((sum, x) => sum + x, 0) / count - 1;
    }),
  );
}

test("points", () => {
  heading("Points: how fast the error falls with their number N");
  const common = {standing: "derived", unit: "–"} as const;
  const order = Math.log2(integrationError("sobol", 256, 64) / integrationError("sobol", 8192, 64)) / 5;
  between({
    ...common,
    name: "Sobol: mean of Π (½ + u) over 6 inputs, order of the error from 256 to 8192 points",
    source: "1 but for logarithms; 3/2 in the end for scrambled nets (Owen 1997)",
    low: 0.95,
    high: 1.6,
    computed: order,
  });
  compare({
    ...common,
    name: "random: standard error of the same with 256 points",
    source: "√(((1 + 1/12)⁶ − 1)/N)",
    expected: Math.sqrt(((1 + 1 / 12) ** 6 - 1) / 256),
    computed: integrationError("random", 256, 300),
    tolerance: 0.15, // three standard errors of a deviation from 300 are 0.12; the product is skewed
  });
  const d = 4;
  const discrepancy = (kind: PointKind, count: number): number =>
    rootMeanSquare(
      Array.from({length: 12}, (_, seed) =>
        Math.sqrt(squareDiscrepancy(points(kind, {dimensions: d, count, seed, skip: 0}), d)),
      ),
    );
  compare({
    ...common,
    name: "random: L2 star discrepancy of 256 points in 4 dimensions",
    source: "√((2⁻ᵈ − 3⁻ᵈ)/N)",
    expected: Math.sqrt((2 ** -d - 3 ** -d) / 256),
    computed: discrepancy("random", 256),
    tolerance: 0.15, // of 12 sets
  });
  between({
    ...common,
    name: "Sobol: order of the L2 star discrepancy in 4 dimensions, 64 to 1024 points",
    source: "1, or with the factor (ln N)^(3/2) of the best known bound 0.72 (Niederreiter 1992, from memory)",
    low: 0.72,
    high: 1.1,
    computed: Math.log2(discrepancy("sobol", 64) / discrepancy("sobol", 1024)) / 4,
  });
});

test("Latin hypercube", () => {
  heading("Latin hypercube");
  const [count, d] = [500, 4];
  const x = points("latin", {dimensions: d, count, seed: 2, skip: 0});
  const strata = Array.from({length: d}, (_, k) =>
    Array.from({length: count}, (_, i) => Math.floor(x[i * d + k] * count)),
  );
  compare({
    name: "strata of 500 with a point, the fewest of 4 dimensions",
    source: "McKay, Beckman & Conover 1979: each has one",
    standing: "derived",
    unit: "–",
    expected: count,
    computed: Math.min(...strata.map(one => new Set(one).size)),
    tolerance: 0,
  });
  // Mean of Σ u_k: only the place within a stratum of width 1/N is left to chance, variance d/(12·N³).
  const errors = Array.from({length: 300}, (_, seed) => {
    const sums = evaluate(points("latin", {dimensions: d, count: 50, seed, skip: 0}), d, u =>
      u.reduce((sum, one) => sum + one, 0),
    );
    return sums.reduce((sum, one) => sum + one, 0) / 50 - d / 2;
  });
  compare({
    name: "standard error of the mean of u₁ + … + u₄, 50 points",
    source: "√(d/(12·N³)): an additive function varies within strata only (Stein 1987)",
    standing: "derived",
    unit: "–",
    expected: Math.sqrt(d / (12 * 50 ** 3)),
    computed: rootMeanSquare(errors),
    tolerance: 0.12, // three standard errors of a deviation from 300
  });
});

test("Sobol indices of test functions", () => {
  heading("Sobol indices: 8192 base samples");
  for (const f of [ishigami(), gFunction()]) {
    const design = sobolDesign({groups: singly(f.dimensions), count: 8192, seed: 1});
    const values = evaluate(design.points, f.dimensions, f.value);
    const indices = sobolIndices(design, values, {replicates: 100, seed: 1});
    const common = {source: f.source, standing: "derived", unit: "–", tolerance: 0.005, absolute: true} as const;
    f.first.forEach((expected, i) => {
      const computed = indices?.groups[i].first ?? Number.NaN;
      compare({...common, name: `${f.name}: S${i + 1}`, expected, computed});
    });
    f.total.forEach((expected, i) => {
      const computed = indices?.groups[i].total ?? Number.NaN;
      compare({...common, name: `${f.name}: T${i + 1}`, expected, computed});
    });
    const deviation = indices?.deviation ?? Number.NaN;
    compare({...common, name: `${f.name}: deviation`, expected: Math.sqrt(f.variance), computed: deviation});
  }
});

test("standard errors of the indices", () => {
  const f = ishigami();
  const estimates = Array.from({length: 100}, (_, seed) => {
    const design = sobolDesign({groups: singly(3), count: 128, seed});
    return sobolIndices(design, evaluate(design.points, 3, f.value), {replicates: 60, seed})!.groups;
  });
  const held = estimates.flatMap(groups =>
    groups.flatMap(({first, firstError, total, totalError}, i) => [
      Math.abs(first - f.first[i]) < 1.645 * firstError,
      Math.abs(total - f.total[i]) < 1.645 * totalError,
    ]),
  );
  between({
    name: "Ishigami, 128 base samples: how many of 600 indices lie within 1.645 bootstrap errors",
    source: "0.9 for independent samples, more for Sobol points",
    standing: "derived",
    unit: "–",
    low: 0.88,
    high: 1,
    computed: held.filter(one => one).length / held.length,
  });
});

/**
 * ln life = ln C − ln A − n·ln ε, in which ln A and n vary together as they do in a growth law, beside traffic and a
 * thickness: normal, so everything is closed.
 */
const LAW = {
  mean: [-30, 4],
  covariance: [
    [4, -0.4],
    [-0.4, 0.05],
  ],
};
const LOG_STRAIN = 5; // of ε in µε: a little over 150
const product = inputMap([
  {name: "the growth law", members: ["ln A", "n"], joint: LAW},
  {name: "traffic", distribution: {kind: "lognormal", median: 1, coefficientOfVariation: 0.4}},
  {name: "thickness", distribution: {kind: "lognormal", median: 0.1, coefficientOfVariation: 0.1}},
]);
const logLife = (u: ArrayLike<number>): number => {
  const [logA, n, traffic, thickness] = product.values(u);
  return -logA - n * LOG_STRAIN - Math.log(traffic) + 3 * Math.log(thickness / 0.1) - 8;
};
const PARTS = [
  4 + 2 * LOG_STRAIN * -0.4 + LOG_STRAIN ** 2 * 0.05, // (1, ln ε) against the covariance
  Math.log1p(0.4 ** 2),
  9 * Math.log1p(0.1 ** 2),
];
const VARIANCE = PARTS.reduce((sum, v) => sum + v, 0);
const MEDIAN = 30 - 4 * LOG_STRAIN - 8; // of ln life

test("product of log-normals", () => {
  heading("Life as a product of log-normal factors");
  const x = points("sobol", {dimensions: 4, count: 8192, seed: 6, skip: 0});
  const lives = ended(evaluate(x, 4, logLife).map(Math.exp));
  const common = {source: "ln life is normal: sums of means and variances", standing: "derived"} as const;
  for (const reliability of [0.5, 0.85, 0.95])
    compare({
      ...common,
      name: `life at a reliability of ${reliability}`,
      unit: "years",
      expected: Math.exp(MEDIAN + normalQuantile(1 - reliability) * Math.sqrt(VARIANCE)),
      computed: lifeAtReliability(lives, reliability).life.low,
      tolerance: 0.01,
    });
  compare({
    ...common,
    name: "probability of living longer than 5 years",
    unit: "–",
    expected: normalCdf((MEDIAN - Math.log(5)) / Math.sqrt(VARIANCE)),
    computed: survivalOf(lives, 5).probability,
    tolerance: 0.007, // three standard errors
  });
  const design = sobolDesign({groups: product.groups, count: 4096, seed: 6});
  const indices = sobolIndices(design, evaluate(design.points, 4, logLife), {replicates: 50, seed: 1});
  product.groupNames.forEach((name, j) => {
    compare({
      ...common,
      name: `share of ${name} in the variance of ln life`,
      unit: "–",
      expected: PARTS[j] / VARIANCE,
      computed: indices?.groups[j].first ?? Number.NaN,
      tolerance: 0.005,
      absolute: true,
    });
  });
});

test("linear limit state", () => {
  heading("Linear limit state: resistance N(30, 3) less load N(20, 4)");
  const map = inputMap([
    {name: "resistance", distribution: {kind: "normal", mean: 30, deviation: 3}},
    {name: "load", distribution: {kind: "normal", mean: 20, deviation: 4}},
  ]);
  const failures = Array.from({length: 8}, (_, seed) => {
    const x = points("sobol", {dimensions: 2, count: 8192, seed, skip: 0});
    const margin = evaluate(x, 2, u => {
      const [resistance, load] = map.values(u);
      return resistance - load + 100;
    });
    return 1 - survivalOf(ended(margin), 100).probability;
  });
  const {mean, error} = replicated(failures);
  const common = {source: "β = (30 − 20)/√(3² + 4²), p = Φ(−β)", standing: "derived", unit: "–"} as const;
  compare({
    ...common,
    name: "probability of failure",
    expected: normalCdf(-2),
    computed: mean,
    tolerance: 5e-4, // three standard errors

    absolute: true,
  });
  compare({...common, name: "reliability index β", expected: 2, computed: -normalQuantile(mean), tolerance: 0.005});
  between({
    ...common,
    name: "standard error by 8 replicates over that of as many independent samples",
    source: "less than 1: Sobol points",
    low: 0,
    high: 0.5,
    computed: error / Math.sqrt((mean * (1 - mean)) / (8 * 8192)),
  });
});

test("ratio of two treatments", () => {
  heading("Ratio of two lives that share most of their uncertainty");
  // ln life of both contains the same N(ln 15, 0.8²); their own parts are N(0, 0.2²) and N(0, 0.3²), the gain is 2.
  const pair = (z: ArrayLike<number>): readonly [number, number] => [
    2 * 15 * Math.exp(0.8 * z[0] + 0.2 * z[1]),
    15 * Math.exp(0.8 * z[0] + 0.3 * z[2]),
  ];
  const x = points("sobol", {dimensions: 3, count: 8192, seed: 4, skip: 0});
  const pairs = Array.from({length: 8192}, (_, i) => pair(x.subarray(3 * i, 3 * i + 3).map(normalQuantile)));
  const first = ended(pairs.map(one => one[0]));
  const second = ended(pairs.map(one => one[1]));
  const probabilities = [0.05, 0.5, 0.95];
  const exact = ratioOf({first, second}, probabilities);
  const {normal} = randomStream(77);
  const brute = Float64Array.from({length: 400_000}, () => {
    const [a, b] = pair([normal(), normal(), normal()]);
    return a / b;
  }).sort();
  const closed = (p: number): number => 2 * Math.exp(normalQuantile(p) * Math.hypot(0.2, 0.3));
  const common = {standing: "derived", unit: "–", tolerance: 0.01} as const;
  probabilities.forEach((p, k) => {
    const computed = exact.quantiles[k].ratio.low;
    compare({
      ...common,
      name: `ratio not exceeded by ${100 * p} %`,
      source: "the common part cancels: 2·exp(Φ⁻¹(p)·√(0.2² + 0.3²))",
      expected: closed(p),
      computed,
    });
    compare({
      ...common,
      name: `ratio not exceeded by ${100 * p} %`,
      source: "400 000 independent pairs by brute force",
      expected: brute[Math.round(p * brute.length)],
      computed,
    });
  });
  const bounds = ratioOf({first: censoredAt(first, 40), second: censoredAt(second, 40)}, probabilities);
  probabilities.forEach((p, k) => {
    const {low, high} = bounds.quantiles[k].ratio;
    between({
      ...common,
      name: `the same, lives seen for 40 years only: bounds enclose it at ${100 * p} %`,
      source: "closed form as computed; bounds as expected",
      low,
      high,
      computed: closed(p),
    });
  });
  const {low, high} = bounds.longer;
  between({
    ...common,
    name: "share of samples in which the first lives longer",
    source: "Φ(ln 2/√(0.2² + 0.3²)) as computed; bounds at 40 years",
    low: low - 0.005,
    high: high + 0.005,
    computed: normalCdf(Math.LN2 / Math.hypot(0.2, 0.3)),
  });
});

/** Probabilities of 0 to n of n, each with probability p. */
function binomial(n: number, p: number): Float64Array {
  const out = new Float64Array(n + 1);
  let log = n * Math.log1p(-p);
  for (let k = 0; k <= n; k++) {
    out[k] = Math.exp(log);
    log += Math.log(((n - k) / (k + 1)) * (p / (1 - p)));
  }
  return out;
}

test("samples until an error", async () => {
  heading("Samples in blocks until the standard error of ln life is small enough");
  // ln life is a sum of four normal parts; life at 90 % reliability.
  const weights = [0.5, 0.3, 0.2, 0.1];
  const truth = normalQuantile(0.1) * Math.hypot(...weights);
  const logSum = (u: Float64Array): number => weights.reduce((sum, w, k) => sum + w * normalQuantile(u[k]), 0);
  for (const [replicates, error] of [
    [8, 0.05],
    [8, 0.02],
    [4, 0.05],
    [1, 0.05],
  ]) {
    const seen: number[] = [];
    for (let trial = 0; trial < 200; trial++) {
      const plan = {target: {kind: "life", reliability: 0.9}, error, first: 16, most: 1e6, replicates} as const;
      const {trace} = await runUntil(plan, ({replicate, skip, count}) =>
        ended(
          evaluate(points("sobol", {dimensions: 4, count, seed: 1000 * trial + replicate, skip}), 4, logSum).map(
            Math.exp,
          ),
        ),
      );
      seen.push((trace.at(-1)?.value ?? Number.NaN) - truth);
    }
    between({
      name: `${replicates} replicates until ${error}: root mean square error of 200 runs over that`,
      source: "≤ 1",
      standing: "derived",
      unit: "–",
      low: 0,
      high: 1,
      computed: rootMeanSquare(seen) / error,
    });
  }
});

test("intervals hold", () => {
  heading("90 % intervals hold the truth");
  for (const n of [20, 200]) {
    const held = Array.from({length: 99}, (_, i) => {
      const p = (i + 1) / 100;
      return binomial(n, p).reduce((sum, chance, k) => {
        const lives = ended(Array.from({length: n}, (_, j) => (j < k ? 2 : 0)));
        const {low, high} = survivalOf(lives, 1).interval;
        return low <= p && p <= high ? sum + chance : sum;
      }, 0);
    });
    between({
      name: `survival probability from ${n} samples: least chance over probabilities 0.01 to 0.99`,
      source: "exact sums of binomial probabilities; ≥ 0.9 (Clopper & Pearson 1934)",
      standing: "derived",
      unit: "–",
      low: 0.9,
      high: 1,
      computed: Math.min(...held),
    });
  }
  const {normal} = randomStream(5);
  for (const n of [40, 200]) {
    const trials = 4000;
    let [held, squares, errors] = [0, 0, 0];
    for (let t = 0; t < trials; t++) {
      const lives = ended(Array.from({length: n}, () => Math.exp(normal())));
      const {interval, life, logError} = lifeAtReliability(lives, 0.85);
      const truth = normalQuantile(0.15);
      if (Math.log(interval.low) <= truth && truth <= Math.log(interval.high)) held++;
      squares += (Math.log(life.low) - truth) ** 2;
      errors += logError ?? Number.NaN;
    }
    between({
      name: `life at 85 % reliability from ${n} independent samples: share of 4000 trials`,
      source: "0.9 but for the steps of a binomial number",
      standing: "derived",
      unit: "–",
      low: 0.88,
      high: 0.94,
      computed: held / trials,
    });
    between({
      name: `its standard error, mean of those told over that seen, ${n} samples`,
      source: "1 for many samples",
      standing: "derived",
      unit: "–",
      low: 0.9,
      high: 1.2,
      computed: errors / trials / Math.sqrt(squares / trials),
    });
  }
  remark(
    "Intervals of a life come from order statistics and take no distribution for granted; those of a probability are never " +
      "too short, and too long where few are lost.",
  );
});

page();
