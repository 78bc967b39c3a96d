import {InputError} from "../errors.ts";
import {randomStream} from "../statistics/index.ts";
import {MOST_SOBOL_DIMENSIONS, points} from "./sampling.ts";

export interface SobolDesignPlan {
  readonly groups: readonly (readonly number[])[]; // dimensions of each group, every dimension in one of them
  readonly count: number; // base samples N; N·(groups + 2) points are to be evaluated
  readonly seed: number;
}

/**
 * All points to evaluate for Sobol indices. Two independent points a and b of a base sample, and for each group j the
 * point a with the coordinates of group j taken from b. Base sample i has the rows from i·(groups + 2): a, b, then the
 * mixed ones. A longer design begins with the shorter one.
 */
export interface SobolDesign {
  readonly dimensions: number;
  readonly groups: readonly (readonly number[])[];
  readonly count: number;
  readonly rows: number; // count·(groups + 2)
  readonly points: Float64Array; // row-major rows × dimensions, each in (0, 1)
}

/** @returns every dimension a group of its own, for `sobolDesign` */
export function singly(dimensions: number): readonly (readonly number[])[] {
  return Array.from({length: dimensions}, (_, d) => [d]);
}

/**
 * @throws InputError "domain" when a dimension is missing from the groups or in two of them, or there are more than half
 *         as many as direction numbers reach
 * @source Saltelli et al. 2010, Comput. Phys. Commun. 181, 259-270, section 3 (from memory)
 */
export function sobolDesign({groups, count, seed}: SobolDesignPlan): SobolDesign {
  const dimensions = groups.reduce((sum, group) => sum + group.length, 0);
  requireGroups(groups, dimensions);
  const both = points("sobol", {dimensions: 2 * dimensions, count, seed, skip: 0});
  const perSample = groups.length + 2;
  const out = new Float64Array(count * perSample * dimensions);
  for (let i = 0; i < count; i++) {
    const a = both.subarray(2 * i * dimensions, (2 * i + 1) * dimensions);
    const b = both.subarray((2 * i + 1) * dimensions, (2 * i + 2) * dimensions);
    const start = i * perSample * dimensions;
    out.set(a, start);
    out.set(b, start + dimensions);
    groups.forEach((group, j) => {
      const mixed = start + (2 + j) * dimensions;
      out.set(a, mixed);
      for (const d of group) out[mixed + d] = b[d];
    });
  }
  return {dimensions, groups, count, rows: count * perSample, points: out};
}

function requireGroups(groups: readonly (readonly number[])[], dimensions: number): void {
  if (dimensions < 1 || 2 * dimensions > MOST_SOBOL_DIMENSIONS)
    throw new InputError("domain", "dimensions", dimensions, `1 to ${MOST_SOBOL_DIMENSIONS / 2}`);
  const seen = new Set(groups.flat());
  const all = Array.from({length: dimensions}, (_, d) => d).every(d => seen.has(d));
  if (!all || groups.some(group => group.length === 0))
    throw new InputError("domain", "groups", JSON.stringify(groups), `0 to ${dimensions - 1}, each in one group`);
}

export interface GroupIndices {
  readonly first: number; // share of the variance from this group alone [–]
  readonly firstError: number; // standard error, by bootstrap [–]
  readonly total: number; // with all its interactions [–]
  readonly totalError: number;
}

export interface SobolIndices {
  readonly mean: number; // of the values
  readonly deviation: number;
  readonly groups: readonly GroupIndices[]; // in the order of the design's
  readonly interactions: number; // 1 − Σ first [–]; below 0 by sampling error only
}

export interface BootstrapPlan {
  readonly replicates: number; // ≥ 2
  readonly seed: number;
}

/**
 * First-order and total Sobol indices of values, such as ln life, at the points of a design.
 *
 *   V·S_j = mean[f(b)·(f(ab_j) − f(a))]      V·T_j = ½·mean[(f(a) − f(ab_j))²]      V: variance over a and b
 *
 * f is taken from its mean, which changes no expectation and much reduces the error of S_j. Standard errors come from
 * drawing base samples anew; with Sobol points they are on the safe side.
 *
 * @param values one for each row of the design, in its order
 * @returns null when the values do not vary: there is nothing to share out
 * @source S: Saltelli et al. 2010, table 2 (b); T: Jansen 1999, Comput. Phys. Commun. 117, 35-43 (from memory)
 */
export function sobolIndices(
  design: SobolDesign,
  values: ArrayLike<number>,
  {replicates, seed}: BootstrapPlan,
): SobolIndices | null {
  if (values.length !== design.rows)
    throw new InputError("shape", "values.length", values.length, `${design.rows}, one for each row of the design`);
  if (!(Number.isInteger(replicates) && replicates >= 2))
    throw new InputError("domain", "replicates", replicates, "a whole number ≥ 2");
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i])) throw new InputError("domain", `values[${i}]`, values[i], "finite");
  const {count} = design;
  const whole = estimate(
    design,
    values,
    Uint32Array.from({length: count}, (_, i) => i),
  );
  if (!whole) return null;
  const {uniform} = randomStream(seed);
  const drawn = Array.from({length: replicates}, () =>
    estimate(
      design,
      values,
      Uint32Array.from({length: count}, () => Math.floor(uniform() * count)),
    ),
  ).filter(one => one !== null);
  const error = (of: (one: Estimate) => number): number => deviationOf(drawn.map(of));
  const groups = design.groups.map((_, j) => ({
    first: whole.first[j],
    firstError: error(one => one.first[j]),
    total: whole.total[j],
    totalError: error(one => one.total[j]),
  }));
  const interactions = 1 - whole.first.reduce((sum, s) => sum + s, 0);
  return {mean: whole.mean, deviation: Math.sqrt(whole.variance), groups, interactions};
}

interface Estimate {
  readonly mean: number;
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

/** From the base samples listed, some of which may come more than once. */
function estimate({groups, count}: SobolDesign, values: ArrayLike<number>, samples: Uint32Array): Estimate | null {
  const perSample = groups.length + 2;
  let sum = 0;
  for (const i of samples) sum += values[i * perSample] + values[i * perSample + 1];
  const mean = sum / (2 * count);
  const first = groups.map(() => 0);
  const total = groups.map(() => 0);
  let squares = 0;
  for (const i of samples) {
    const row = i * perSample;
    const a = values[row] - mean;
    const b = values[row + 1] - mean;
    squares += a * a + b * b;
    for (let j = 0; j < groups.length; j++) {
      const change = values[row + 2 + j] - mean - a;
      first[j] += b * change;
      total[j] += 0.5 * change * change;
    }
  }
  const variance = squares / (2 * count);
  if (!(variance > 0)) return null;
  const shares = (sums: readonly number[]): number[] => sums.map(one => one / count / variance);
  return {mean, variance, first: shares(first), total: shares(total)};
}

function deviationOf(values: readonly number[]): number {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1));
}

/** Groups below this share of the variance are not named [–]. */
const WORTH_NAMING = 0.05;
/** Interactions above this share are mentioned [–]. */
const WORTH_MENTIONING = 0.1;

/**
 * A plain sentence on what the answer depends on, by first-order indices. A group is named when its share is worth it and
 * exceeds twice its standard error.
 *
 * @param names one for each group, as they stand within a sentence
 * @param of what the values are, such as "ln life"
 */
export function dominating(indices: SobolIndices | null, names: readonly string[], of = "ln life"): string {
  if (!indices) return `Nothing that was varied changes ${of}.`;
  if (names.length !== indices.groups.length)
    throw new InputError("shape", "names.length", names.length, `${indices.groups.length}, one for each group`);
  const told = indices.groups
    .map(({first, firstError}, j) => ({name: names[j], first, firstError}))
    .filter(({first, firstError}) => first >= WORTH_NAMING && first > 2 * firstError)
    .sort((a, b) => b.first - a.first);
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  const interacting =
    indices.interactions > WORTH_MENTIONING
      ? ` ${percent(indices.interactions)} comes from inputs acting together.`
      : "";
  if (told.length === 0) return `No single input stands out in the spread of ${of}.${interacting}`;
  const [most, ...rest] = told;
  const then = rest.map(({name, first}) => `${name} (${percent(first)})`);
  const list = then.length > 1 ? `${then.slice(0, -1).join(", ")} and ${then.at(-1)}` : then[0];
  const further = list ? `, then on ${list}` : "";
  return `The answer depends mostly on ${most.name} (${percent(most.first)} of the spread of ${of})${further}.${interacting}`;
}
