/** Quantiles of a sample, their errors by order statistics, and binomial shares. */
import {InputError} from "../errors.ts";
import {fQuantile, normalQuantile} from "../statistics/index.ts";
import type {Bounded} from "./types.ts";

/** @throws InputError "domain" unless in (0, 1) */
export function requireShare(path: string, value: number): void {
  if (!(value > 0 && value < 1)) throw new InputError("domain", path, value, "in (0, 1)");
}

/**
 * Value at a position h = n·p + ½ of the ascending values, between two of them linearly: each value stands for 1/n of
 * the probability, its own place in the middle of it. Before the first all that is known is that it lies below that, after
 * the last above: `floor` and `ceiling` are the ends of what is possible at all.
 *
 * @source the fifth of the definitions of Hyndman & Fan 1996, Am. Stat. 50, 361-365 (from memory)
 */
export function atPosition(
  ascending: ArrayLike<number>,
  position: number,
  {floor, ceiling}: {readonly floor: number; readonly ceiling: number},
): Bounded {
  const n = ascending.length;
  if (position < 1) return {low: floor, high: ascending[0]};
  if (position > n) return {low: ascending[n - 1], high: ceiling};
  const below = Math.floor(position);
  const [a, b] = [ascending[below - 1], ascending[Math.min(below, n - 1)]];
  const value = position === below || a === b ? a : a + (position - below) * (b - a); // Infinity − Infinity is not a number
  return {low: value, high: value};
}

/** Positions closer to a whole number than this part of the sample's size are one [–]. */
const ROUNDING = 1e-12;

/** Positions of the quantile p, and of some standard deviations √(n·p·(1−p)) of the number below it either way. */
export function positionsOf(n: number, p: number, deviations: number): readonly [number, number, number] {
  const rounded = (position: number): number => {
    const whole = Math.round(position);
    return Math.abs(position - whole) < ROUNDING * n ? whole : position; // 5·(1 − 0.9) falls short of ½
  };
  const centre = n * p + 0.5;
  const half = deviations * Math.sqrt(n * p * (1 - p));
  return [rounded(centre - half), rounded(centre), rounded(centre + half)];
}

/** Standard normal quantile of a two-sided probability. */
export function twoSidedZ(probability: number): number {
  requireShare("probability", probability);
  return normalQuantile((1 + probability) / 2);
}

/**
 * Interval of a share of which k of n were counted; it holds the true share with the probability at least, whatever that
 * share is.
 *
 * @source Clopper & Pearson 1934, Biometrika 26, 404-413, in the form with Fisher's F (from memory)
 */
export function shareInterval(k: number, n: number, probability: number): Bounded {
  requireShare("probability", probability);
  const tail = (1 + probability) / 2;
  const low = k === 0 ? 0 : k / (k + (n - k + 1) * fQuantile(tail, 2 * (n - k + 1), 2 * k));
  const f = k === n ? 0 : (k + 1) * fQuantile(tail, 2 * (k + 1), 2 * (n - k));
  return {low, high: k === n ? 1 : f / (n - k + f)};
}

/**
 * Standard error of a share k/n: √(p̃(1−p̃)/n) with p̃ = (k+½)/(n+1), so that a share of 0 or 1 is not taken for certain.
 */
export function shareError(k: number, n: number): number {
  const p = (k + 0.5) / (n + 1);
  return Math.sqrt((p * (1 - p)) / n);
}
