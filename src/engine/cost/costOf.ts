import {InputError} from "../errors.ts";
import type {CostOptions, Rates, SampledCosts, Spread, TreatmentWorks} from "./types.ts";
import {operationCost} from "./works.ts";
import {annuityFactor, cycleOf, requireRate, worthWeights} from "./worth.ts";

/** Told of a sample besides its mean. */
const TOLD_PROBABILITIES = [0.05, 0.15, 0.5, 0.85, 0.95] as const;

/**
 * Present worth and equivalent annual cost of a treatment for each of a sample of lives.
 *
 * @param lives [years], > 0; Infinity, or a number beyond the horizon, where nothing computed ends it
 * @throws InputError "domain" | "shape"
 */
export function costOf(
  {works, rates}: {readonly works: TreatmentWorks; readonly rates: Rates},
  lives: ArrayLike<number>,
  options: CostOptions,
): SampledCosts {
  requireRate("discountRate", options.discountRate);
  if (lives.length === 0) throw new InputError("shape", "lives.length", 0, "≥ 1");
  const first = operationCost(works.first, rates);
  const renewal = operationCost(works.renewal, rates);
  const annuity = annuityFactor(options.discountRate, options.period);
  const [renewals, worth] = [new Float64Array(lives.length), new Float64Array(lives.length)];
  let capped = 0;
  for (let k = 0; k < lives.length; k++) {
    const weights = worthWeights(cycleOf(lives[k], works.renewalLife, options), options.discountRate);
    renewals[k] = weights.count;
    worth[k] = first * weights.first + renewal * weights.renewal;
    if (lives[k] > options.longestLife) capped++;
  }
  const annual = worth.map(w => w * annuity);
  return {
    first,
    renewal,
    renewals,
    presentWorth: worth,
    annual,
    summary: {presentWorth: spreadOf(worth), annual: spreadOf(annual)},
    capped,
    warnings: rateWarnings(options.discountRate),
  };
}

export function rateWarnings(rate: number): string[] {
  return rate < 0 ? ["The discount rate is negative: costs to come count more than those of today."] : [];
}

function spreadOf(sample: Float64Array): Spread {
  const sorted = sample.toSorted();
  return {
    mean: meanOf(sample),
    quantiles: TOLD_PROBABILITIES.map(probability => ({probability, value: quantile(sorted, probability)})),
  };
}

export function meanOf(sample: Float64Array): number {
  const start = sample[0]; // sums of differences from it lose fewer digits, and a constant sample keeps all
  return start + sample.reduce((sum, v) => sum + (v - start), 0) / sample.length;
}

/** Linear between order statistics, at p·(n − 1). @param sorted ascending, n ≥ 1 */
export function quantile(sorted: Float64Array, probability: number): number {
  const place = probability * (sorted.length - 1);
  const below = Math.floor(place);
  const [low, high] = [sorted[below], sorted[Math.min(below + 1, sorted.length - 1)]];
  return low === high ? low : low + (place - below) * (high - low);
}

/** How often one treatment is cheaper than another on the same samples. */
export interface Cheaper {
  readonly cheaper: number; // share of samples [–]
  readonly equal: number; // share in which both cost the same to the last bit [–]
}

/**
 * @param present worths of this treatment and of the other, element k of both from the same draw
 * @throws InputError "shape"
 */
export function cheaperThan(present: Float64Array, other: Float64Array): Cheaper {
  if (present.length !== other.length || present.length === 0)
    throw new InputError("shape", "present worths", `${present.length} and ${other.length}`, "as many of both, ≥ 1");
  let [cheaper, equal] = [0, 0];
  for (let k = 0; k < present.length; k++) {
    if (present[k] < other[k]) cheaper++;
    else if (present[k] === other[k]) equal++;
  }
  return {cheaper: cheaper / present.length, equal: equal / present.length};
}
