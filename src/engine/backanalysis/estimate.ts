import {fQuantile, normalQuantile, twoSidedT} from "../statistics/index.ts";
import {symmetricEigen} from "./eigen.ts";
import {type LeastSquaresFit, normalEquations} from "./leastSquares.ts";
import type {Problem} from "./problem.ts";
import type {BowlTest, Combination} from "./types.ts";

export interface Estimate {
  readonly free: readonly number[]; // unknowns not at a bound
  readonly errors: readonly number[]; // standard errors of ln E, by free unknown
  readonly width: number; // half width of an interval in standard errors, t
  readonly correlation: readonly (readonly number[])[];
  readonly combinations: readonly Combination[];
  readonly degrees: number;
  readonly limit: number; // of Σf², at the ends of one unknown's interval
  readonly jointLimit: number; // of all together: what fits no worse is within the noise
}

/** What the slopes at the minimum tell: covariance s²·(JᵀJ)⁻¹ and its axes. */
export function estimateOf({probability}: BowlTest, {count}: Problem, fit: LeastSquaresFit): Estimate {
  const {held, at, value, jacobian} = fit;
  const free = held.flatMap((h, k) => (h ? [] : [k]));
  const p = free.length;
  const degrees = count - p;
  const own = Float64Array.from({length: count * p}, (_, i) => jacobian[Math.floor(i / p) * at.length + free[i % p]]);
  const {normal} = normalEquations(own, new Float64Array(count), p);
  const {values, vectors} = symmetricEigen(normal, p);
  // With nothing left to tell the scatter by, the stated accuracy stands for it.
  const scatter = degrees > 0 ? value / degrees : 1;
  const width = degrees > 0 ? twoSidedT(probability, degrees) : normalQuantile((1 + probability) / 2);
  const least = 1e-16 * (values[p - 1] ?? 1); // what nothing depends on is known to a factor beyond all numbers
  const spread = values.map(v => 1 / Math.max(v, least));
  const inverse = free.map((_, i) =>
    free.map((_, j) => vectors.reduce((sum, v, k) => sum + v[i] * v[j] * spread[k], 0)),
  );
  const errors = free.map((_, i) => Math.sqrt(scatter * inverse[i][i]));
  const joint = degrees > 0 && p > 0 ? p * fQuantile(probability, p, degrees) * scatter : 0;
  return {
    free,
    errors,
    width,
    degrees,
    correlation: inverse.map((row, i) => row.map((c, j) => c / Math.sqrt(inverse[i][i] * inverse[j][j]))),
    combinations: vectors
      .map((v, k) => ({weights: Array.from(v), factor: Math.exp(width * Math.sqrt(scatter * spread[k]))}))
      .reverse(),
    limit: value + width ** 2 * scatter,
    jointLimit: Math.max(value + joint, count), // or residuals of the stated accuracy
  };
}
