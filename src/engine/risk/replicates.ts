/** Standard errors from independent replicates, such as the same number of Sobol points scrambled by several seeds. */
import {InputError} from "../errors.ts";
import {twoSidedT} from "../statistics/index.ts";
import {requireShare} from "./ordered.ts";
import {type LifeAtReliability, lifeAtReliability, type Survival, survivalOf} from "./reliability.ts";
import type {Bounded, SampledLife} from "./types.ts";

export interface Replicated {
  readonly mean: number;
  readonly error: number; // standard error of the mean, s/√r
  readonly interval: Bounded; // Student's, r − 1 degrees of freedom
}

/**
 * Mean of independent estimates of one number.
 *
 * @throws InputError "domain" for fewer than two
 */
export function replicated(estimates: readonly number[], probability = 0.9): Replicated {
  const r = estimates.length;
  if (r < 2) throw new InputError("domain", "estimates.length", r, "≥ 2");
  estimates.forEach((x, i) => {
    if (!Number.isFinite(x)) throw new InputError("domain", `estimates[${i}]`, x, "finite");
  });
  requireShare("probability", probability);
  const mean = estimates.reduce((sum, x) => sum + x, 0) / r;
  const error = Math.sqrt(estimates.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (r - 1) / r);
  const half = twoSidedT(probability, r - 1) * error;
  return {mean, error, interval: {low: mean - half, high: mean + half}};
}

/** Where a standard error comes from: the spread of replicates, or the formula for independent samples. */
export type ErrorSource = "replicates" | "independent samples";

/**
 * Life at a reliability from all samples together, its error from the spread of ln life over the replicates.
 *
 * With one replicate, with a life of one not known, and when all agree to the last digit, the spread says nothing; the
 * error and interval are then those of independent samples, and `errorFrom` says so.
 */
export function lifeOfReplicates(
  sets: readonly (readonly SampledLife[])[],
  reliability: number,
  probability = 0.9,
): LifeAtReliability & {readonly errorFrom: ErrorSource} {
  const pooled = lifeAtReliability(sets.flat(), reliability, probability);
  const {low, high} = pooled.life;
  const logs = sets.map(set => {
    const {life} = lifeAtReliability(set, reliability, probability);
    return life.low === life.high && life.low > 0 ? Math.log(life.low) : null;
  });
  const known = logs.filter(one => one !== null);
  if (low !== high || sets.length < 2 || known.length < sets.length)
    return {...pooled, errorFrom: "independent samples"};
  const {error} = replicated(known, probability);
  if (error === 0) return {...pooled, errorFrom: "independent samples"};
  const wide = Math.exp(twoSidedT(probability, sets.length - 1) * error);
  return {...pooled, logError: error, interval: {low: low / wide, high: low * wide}, errorFrom: "replicates"};
}

/**
 * Probability of living longer than a period from replicates of equal size; as for the life, where they all agree (as when
 * none is lost) the error and interval are those of independent samples.
 *
 * @throws InputError "shape" when the replicates are not of one size
 */
export function survivalOfReplicates(
  sets: readonly (readonly SampledLife[])[],
  years: number,
  probability = 0.9,
): Survival & {readonly errorFrom: ErrorSource} {
  sets.forEach((set, i) => {
    if (set.length !== sets[0].length)
      throw new InputError("shape", `sets[${i}].length`, set.length, `${sets[0].length}, as the first has`);
  });
  const pooled = survivalOf(sets.flat(), years, probability);
  if (sets.length < 2) return {...pooled, errorFrom: "independent samples"};
  const {error, interval} = replicated(
    sets.map(set => survivalOf(set, years, probability).probability),
    probability,
  );
  if (error === 0) return {...pooled, errorFrom: "independent samples"};
  const within = {low: Math.max(0, interval.low), high: Math.min(1, interval.high)}; // Student's does not know the ends
  return {...pooled, error, interval: within, errorFrom: "replicates"};
}
