/** Test functions with indices in closed form, and values of other programs. */
import type {Distribution} from "../../src/engine/risk/index.ts";

export interface TestFunction {
  readonly name: string;
  readonly source: string;
  readonly dimensions: number;
  readonly value: (u: ArrayLike<number>) => number;
  readonly mean: number;
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

/** f = sin x₁ + a·sin²x₂ + b·x₃⁴·sin x₁, x uniform from −π to π; a = 7, b = 0.1. */
export function ishigami(): TestFunction {
  const [a, b] = [7, 0.1];
  const variance = a ** 2 / 8 + (b * Math.PI ** 4) / 5 + (b ** 2 * Math.PI ** 8) / 18 + 0.5;
  return {
    name: "Ishigami",
    source: "Ishigami & Homma 1990; printed 0.3139, 0.4424, 0; 0.5576, 0.4424, 0.2437",
    dimensions: 3,
    value: u => {
      const [x, y, z] = Array.from(u, one => Math.PI * (2 * one - 1));
      return Math.sin(x) + a * Math.sin(y) ** 2 + b * z ** 4 * Math.sin(x);
    },
    mean: a / 2,
    variance,
    first: [0.3139, 0.4424, 0],
    total: [0.5576, 0.4424, 0.2437],
  };
}

/** f = Π (|4u_i − 2| + a_i)/(1 + a_i), with V_i = 1/(3(1 + a_i)²), V = Π (1 + V_i) − 1. */
export function gFunction(): TestFunction {
  const a = [0, 0.5, 3, 9, 99, 99];
  const own = a.map(one => 1 / (3 * (1 + one) ** 2));
  const product = own.reduce((all, v) => all * (1 + v), 1);
  return {
    name: "g-function",
    source: "Sobol's g-function, a = 0, 0.5, 3, 9, 99, 99; V_i = 1/(3(1+a_i)²)",
    dimensions: a.length,
    value: u => a.reduce((all, one, i) => all * ((Math.abs(4 * u[i] - 2) + one) / (1 + one)), 1),
    mean: 1,
    variance: product - 1,
    first: own.map(v => v / (product - 1)),
    total: own.map(v => (v * (product / (1 + v))) / (product - 1)),
  };
}

/** SciPy 1.17.1: ppf of scipy.stats.triang, lognorm and truncnorm; moments by scipy.integrate.quad of their densities. */
export const OTHER_PROGRAM: readonly {
  readonly name: string;
  readonly distribution: Distribution;
  readonly quantiles: readonly (readonly [u: number, x: number])[];
  readonly mean?: number;
  readonly deviation?: number;
}[] = [
  {
    name: "triangular 1, 2.2, 5",
    distribution: {kind: "triangular", low: 1, mode: 2.2, high: 5},
    quantiles: [
      [1e-9, 1.0000692820323027],
      [0.1, 1.692820323027551],
      [0.5, 2.6335680867601536],
      [0.999999, 4.996653359893815],
    ],
  },
  {
    name: "log-normal, median 3, V 0.5",
    distribution: {kind: "lognormal", median: 3, coefficientOfVariation: 0.5},
    quantiles: [
      [1e-9, 0.17646439518574036],
      [0.1, 1.6376004470386243],
      [0.8, 4.464592473842433],
      [0.999999, 28.333314971993182],
    ],
  },
  {
    name: "normal 10, 2 from 8 to 13",
    distribution: {kind: "normal", mean: 10, deviation: 2, truncated: {low: 8, high: 13}},
    quantiles: [
      [1e-9, 8.000000006401912],
      [0.1, 8.562250244950139],
      [0.5, 10.230739771256241],
      [0.999999, 12.999988039708937],
    ],
    mean: 10.290374894305053,
    deviation: 1.2894727700225226,
  },
  {
    name: "log-normal, median 3, V 0.5, from 2 to 6",
    distribution: {kind: "lognormal", median: 3, coefficientOfVariation: 0.5, truncated: {low: 2, high: 6}},
    quantiles: [],
    mean: 3.4225832258671627,
    deviation: 1.0048755320643126,
  },
  {
    name: "triangular 1, 2.2, 5 from 1.5 to 4",
    distribution: {kind: "triangular", low: 1, mode: 2.2, high: 5, truncated: {low: 1.5, high: 4}},
    quantiles: [],
    mean: 2.651877527440786,
    deviation: 0.6476801235808437,
  },
  {
    name: "triangular 1, 2.2, 5 from 2.5 to 4.5",
    distribution: {kind: "triangular", low: 1, mode: 2.2, high: 5, truncated: {low: 2.5, high: 4.5}},
    quantiles: [],
    mean: 3.2777777777777786,
    deviation: 0.532870169256969,
  },
];

/**
 * Square of the L2 star discrepancy: the mean square over all boxes at the origin of (share of points − volume),
 *
 *   D² = 3^(−d) − 2^(1−d)/N·Σ Π (1 − x²) + 1/N²·ΣΣ Π (1 − max(x, y))
 *
 * @source Warnock 1972, in Zaremba (ed.), Applications of Number Theory to Numerical Analysis, 319-343 (from memory)
 */
export function squareDiscrepancy(x: Float64Array, d: number): number {
  const n = x.length / d;
  let [single, double] = [0, 0];
  for (let i = 0; i < n; i++) {
    let product = 1;
    for (let k = 0; k < d; k++) product *= 1 - x[i * d + k] ** 2;
    single += product;
    for (let j = 0; j < n; j++) {
      product = 1;
      for (let k = 0; k < d; k++) product *= 1 - Math.max(x[i * d + k], x[j * d + k]);
      double += product;
    }
  }
  return 3 ** -d - (2 ** (1 - d) / n) * single + double / (n * n);
}
