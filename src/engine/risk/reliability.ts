import {InputError} from "../errors.ts";
import {atPosition, positionsOf, requireShare, shareError, shareInterval, twoSidedZ} from "./ordered.ts";
import type {Bounded, SampledLife} from "./types.ts";

/** Lives in ascending order, those that outlast the horizon last. */
export interface OrderedLives {
  /** [years]; of a censored one Infinity. */
  readonly ascending: Float64Array;
  readonly censored: number; // how many
  /** What the censored ones are known to outlast [years]; Infinity when none is censored. */
  readonly horizon: number;
}

/**
 * @throws InputError "domain" without a life, for a life that is not a number ≥ 0, and when a life was seen to end after
 *         another was last looked at: then order alone does not tell the quantiles
 */
export function orderedLives(lives: readonly SampledLife[], path = "lives"): OrderedLives {
  if (lives.length === 0) throw new InputError("domain", `${path}.length`, 0, "≥ 1");
  lives.forEach(({years}, i) => {
    if (!(years >= 0 && years < Infinity)) throw new InputError("domain", `${path}[${i}].years`, years, "finite, ≥ 0");
  });
  const horizon = lives.reduce((least, one) => (one.censored ? Math.min(least, one.years) : least), Infinity);
  lives.forEach(({years, censored}, i) => {
    if (!censored && years > horizon)
      throw new InputError("domain", `${path}[${i}].years`, years, `≤ ${horizon}, the horizon of those censored`);
  });
  const ascending = Float64Array.from(lives, one => (one.censored ? Infinity : one.years)).sort();
  return {ascending, censored: lives.filter(one => one.censored).length, horizon};
}

/**
 * The same lives as seen until a horizon only: longer ones are censored there.
 *
 * @throws InputError "domain" when a life was censored before that horizon
 */
export function censoredAt(lives: readonly SampledLife[], horizon: number): readonly SampledLife[] {
  if (!(horizon > 0 && horizon < Infinity)) throw new InputError("domain", "horizon", horizon, "finite, > 0 [years]");
  return lives.map(({years, censored}, i) => {
    if (censored && years < horizon)
      throw new InputError("domain", `lives[${i}].years`, years, `≥ ${horizon}, the horizon, when censored`);
    return censored || years > horizon ? {years: horizon, censored: true} : {years, censored};
  });
}

export interface LifeAtReliability {
  readonly reliability: number; // share of the samples that live longer [–]
  /** [years]; high is Infinity when it is beyond the horizon, low 0 when the samples are too few for so high a reliability. */
  readonly life: Bounded;
  /** Of ln life, from order statistics [–]; null when an end of it is not known. */
  readonly logError: number | null;
  readonly interval: Bounded; // holds the true life with the probability asked for [years]
}

/**
 * The life that a share of the samples exceeds: their quantile at 1 − reliability.
 *
 * Its standard error and interval come from the order statistics at n·p ± z·√(n·p·(1−p)): how many independent samples
 * fall below the true quantile is binomial. For Sobol points they are too wide; replicates tell better.
 *
 * @source David & Nagaraja 2003, Order Statistics, section 7.1 (from memory); docs/theory/risk.md
 */
export function lifeAtReliability(
  lives: readonly SampledLife[] | OrderedLives,
  reliability: number,
  probability = 0.9,
): LifeAtReliability {
  requireShare("reliability", reliability);
  const ordered = "ascending" in lives ? lives : orderedLives(lives);
  const p = 1 - reliability;
  const n = ordered.ascending.length;
  const at = (position: number): Bounded => lifeAt(ordered, position);
  const [before, centre, after] = positionsOf(n, p, 1);
  const [outerBefore, , outerAfter] = positionsOf(n, p, twoSidedZ(probability));
  const [a, b] = [at(before), at(after)];
  const known = a.low === a.high && b.low === b.high && a.low > 0;
  return {
    reliability,
    life: at(centre),
    logError: known ? 0.5 * Math.log(b.low / a.low) : null,
    interval: {low: at(outerBefore).low, high: at(outerAfter).high},
  };
}

/** Life at a position; between the last that ended and the horizon it is at least what the horizon makes of it. */
function lifeAt({ascending, horizon, censored}: OrderedLives, position: number): Bounded {
  const ended = ascending.length - censored;
  if (position <= ended || censored === 0) return atPosition(ascending, position, {floor: 0, ceiling: Infinity});
  const known = ascending.map(years => Math.min(years, horizon));
  return {low: atPosition(known, position, {floor: 0, ceiling: Infinity}).low, high: Infinity};
}

export interface Survival {
  readonly years: number;
  readonly probability: number; // of a longer life than that [–]
  readonly error: number; // standard error [–], not 0 even when all or none survive
  readonly interval: Bounded; // [–]
}

/**
 * Probability of living longer than a period.
 *
 * @throws InputError "domain" when the period is beyond the horizon of censored lives
 */
export function survivalOf(lives: readonly SampledLife[] | OrderedLives, years: number, probability = 0.9): Survival {
  const {ascending, horizon} = "ascending" in lives ? lives : orderedLives(lives);
  if (!(years >= 0 && years <= horizon) || years === Infinity)
    throw new InputError("domain", "years", years, horizon < Infinity ? `0 to ${horizon}, the horizon` : "finite, ≥ 0");
  const n = ascending.length;
  const k = ascending.reduce((sum, life) => sum + (life > years ? 1 : 0), 0);
  return {years, probability: k / n, error: shareError(k, n), interval: shareInterval(k, n, probability)};
}

/** @returns the geometric mean and the standard deviation of ln life; null when a life is censored, as it is then unknown */
export function geometricMean(
  lives: readonly SampledLife[],
): {readonly years: number; readonly logDeviation: number | null; readonly logError: number | null} | null {
  const {ascending, censored} = orderedLives(lives);
  if (censored > 0) return null;
  if (ascending[0] === 0) throw new InputError("domain", "lives", 0, "lives > 0 for a geometric mean");
  const n = ascending.length;
  const mean = ascending.reduce((sum, years) => sum + Math.log(years), 0) / n;
  const squares = ascending.reduce((sum, years) => sum + (Math.log(years) - mean) ** 2, 0);
  const logDeviation = n > 1 ? Math.sqrt(squares / (n - 1)) : null;
  return {years: Math.exp(mean), logDeviation, logError: logDeviation === null ? null : logDeviation / Math.sqrt(n)};
}

export interface RatioQuantile {
  readonly probability: number; // share of the samples with a smaller ratio [–]
  readonly ratio: Bounded; // [–]
  readonly interval: Bounded; // [–]
}

export interface Ratio {
  readonly quantiles: readonly RatioQuantile[];
  /** Share of samples in which the first lives longer than the second [–]: surely (low), and at most (high). */
  readonly longer: Bounded;
  readonly exact: number; // how many samples have both lives
  readonly geometricMean: number | null; // null when any life is censored
}

/**
 * Life over life of two treatments, sample by sample on common random numbers: sample i of both had the same inputs, so
 * what they share cancels.
 *
 * Where one life is censored the ratio is bounded from one side, where both are it is not known at all. Quantiles of the
 * lower and of the upper bounds enclose that of the ratios.
 *
 * @param probabilities of the quantiles, such as 0.05, 0.5, 0.95 [–]
 * @throws InputError "shape" when the samples are not as many; "domain" for a life of 0
 */
export function ratioOf(
  {first, second}: {readonly first: readonly SampledLife[]; readonly second: readonly SampledLife[]},
  probabilities: readonly number[],
  probability = 0.9,
): Ratio {
  if (first.length !== second.length)
    throw new InputError("shape", "second.length", second.length, `${first.length}, sample by sample`);
  requireRatio(first, "first");
  requireRatio(second, "second");
  const bounds = first.map((a, i) => ratioBounds(a, second[i]));
  const n = bounds.length;
  const low = Float64Array.from(bounds, one => one.low).sort();
  const high = Float64Array.from(bounds, one => one.high).sort();
  const at = (position: number): Bounded => ({
    low: atPosition(low, position, {floor: 0, ceiling: Infinity}).low,
    high: atPosition(high, position, {floor: 0, ceiling: Infinity}).high,
  });
  const z = twoSidedZ(probability);
  const quantiles = probabilities.map(p => {
    requireShare("probabilities", p);
    const [before, centre, after] = positionsOf(n, p, z);
    return {probability: p, ratio: at(centre), interval: {low: at(before).low, high: at(after).high}};
  });
  // A censored life is longer than an equal one that ended: its ratio is more than the 1 of its lower bound.
  const surely = ({low, high}: Bounded): boolean => low > 1 || (low === 1 && high > 1);
  const share = (is: (one: Bounded) => boolean): number => bounds.filter(is).length / n;
  const exact = bounds.filter(one => one.low === one.high);
  const logs = exact.reduce((sum, one) => sum + Math.log(one.low), 0);
  return {
    quantiles,
    longer: {low: share(surely), high: share(one => one.high > 1)},
    exact: exact.length,
    geometricMean: exact.length === n ? Math.exp(logs / n) : null,
  };
}

function requireRatio(lives: readonly SampledLife[], path: string): void {
  orderedLives(lives, path);
  lives.forEach(({years}, i) => {
    if (years === 0) throw new InputError("domain", `${path}[${i}].years`, years, "> 0 in a ratio");
  });
}

function ratioBounds(a: SampledLife, b: SampledLife): Bounded {
  const ratio = a.years / b.years;
  return {low: b.censored ? 0 : ratio, high: a.censored ? Infinity : ratio};
}
