/** Distributions by their trade names; the numbers come from a library. Probabilities and values without unit. */
import chiSquareQuantileOf from "@stdlib/stats-base-dists-chisquare-quantile";
import fCdfOf from "@stdlib/stats-base-dists-f-cdf";
import fQuantileOf from "@stdlib/stats-base-dists-f-quantile";
import normalCdfOf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import tCdfOf from "@stdlib/stats-base-dists-t-cdf";
import tQuantileOf from "@stdlib/stats-base-dists-t-quantile";
import {exp} from "../numeric/index.ts";

/** Φ(z), accurate in its relative error far into the lower tail. */
export function normalCdf(z: number): number {
  return normalCdfOf(z, 0, 1);
}

/** φ(z). */
export function normalDensity(z: number): number {
  return exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/**
 * Φ⁻¹(p). The library errs by 2e-5 far out in the tails; one Newton step on Φ mends it.
 *
 * @param p in (0, 1)
 */
export function normalQuantile(p: number): number {
  const z = normalQuantileOf(p, 0, 1);
  const density = normalDensity(z);
  return density > 0 ? z - (normalCdf(z) - p) / density : z;
}

/** Quantile of Student's t. */
export function tQuantile(p: number, degrees: number): number {
  return tQuantileOf(p, degrees);
}

/** t that a Student's t stays within on both sides with a probability, such as 1.645 for 0.9 of many degrees of freedom. */
export function twoSidedT(probability: number, degrees: number): number {
  return tQuantile((1 + probability) / 2, degrees);
}

export function tCdf(t: number, degrees: number): number {
  return tCdfOf(t, degrees);
}

/** Quantile of Fisher's F with d₁ degrees of freedom above and d₂ below. */
export function fQuantile(p: number, above: number, below: number): number {
  return fQuantileOf(p, above, below);
}

export function fCdf(f: number, above: number, below: number): number {
  return fCdfOf(f, above, below);
}

export function chiSquareQuantile(p: number, degrees: number): number {
  return chiSquareQuantileOf(p, degrees);
}
