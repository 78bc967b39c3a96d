/** Mean and standard deviation in closed form, with and without truncation. */
import {normalCdf, normalDensity} from "../statistics/index.ts";
import {requireSound} from "./faults.ts";
import {atomsOf, atomsWithin, type Cut, cutOf, logDeviation} from "./truncation.ts";
import type {Distribution, Moments, Truncation} from "./types.ts";

/**
 * Mean and standard deviation of what the truncation keeps. Those of a sample are its own, with divisor n: that is what
 * is drawn from.
 *
 * @throws InputError "domain" when the distribution has a fault
 */
export function momentsOf(distribution: Distribution): Moments {
  requireSound(distribution);
  const atoms = atomsOf(distribution);
  if (atoms) {
    const {values, probabilities} = atomsWithin(atoms, distribution);
    const mean = values.reduce((sum, x, i) => sum + probabilities[i] * x, 0);
    const variance = values.reduce((sum, x, i) => sum + probabilities[i] * (x - mean) ** 2, 0);
    return {mean, deviation: Math.sqrt(variance)};
  }
  const cut = cutOf(distribution);
  const limits = distribution.truncated ?? {low: -Infinity, high: Infinity};
  switch (distribution.kind) {
    case "normal": {
      const {mean, deviation} = distribution;
      const {low, high} = limits;
      const standard = standardMoments((low - mean) / deviation, (high - mean) / deviation, cut);
      return {mean: mean + deviation * standard.mean, deviation: deviation * standard.deviation};
    }
    case "lognormal":
      return logMoments(distribution, limits, cut);
    case "uniform": {
      const low = Math.max(distribution.low, limits.low);
      const high = Math.min(distribution.high, limits.high);
      return {mean: 0.5 * (low + high), deviation: (high - low) / Math.sqrt(12)};
    }
    case "triangular":
      return triangularMoments(distribution, limits);
    default:
      throw new RangeError(`${distribution.kind} has no density`);
  }
}

/**
 * Of a standard normal between α and β, Z = Φ(β) − Φ(α):
 *
 *   mean = [φ(α) − φ(β)]/Z    variance = 1 + [α·φ(α) − β·φ(β)]/Z − mean²
 *
 * @source Johnson, Kotz & Balakrishnan 1994, Continuous Univariate Distributions 1, section 13.10.1 (from memory)
 */
function standardMoments(from: number, to: number, {kept}: Cut): Moments {
  const times = (z: number): number => (Number.isFinite(z) ? z * normalDensity(z) : 0);
  const mean = (normalDensity(from) - normalDensity(to)) / kept;
  return {mean, deviation: Math.sqrt(1 + (times(from) - times(to)) / kept - mean * mean)};
}

/**
 * Of a log-normal with median m and standard deviation s of ln x, kept where α < (ln x − ln m)/s < β:
 *
 *   E[x^k] = m^k·exp(k²s²/2)·[Φ(β − k·s) − Φ(α − k·s)]/Z
 *
 * Without truncation mean = m·√(1+V²), deviation = V·mean. The truncated variance is a difference, which costs digits:
 * its relative error is about 1e-15/V², nothing for a coefficient of variation above 0.001.
 */
function logMoments(
  {median, coefficientOfVariation}: {readonly median: number; readonly coefficientOfVariation: number},
  {low, high}: Truncation,
  {below, kept, above}: Cut,
): Moments {
  const untruncated = median * Math.hypot(1, coefficientOfVariation);
  if (below === 0 && above === 0) return {mean: untruncated, deviation: coefficientOfVariation * untruncated};
  const s = logDeviation(coefficientOfVariation);
  const from = low > 0 ? Math.log(low / median) / s : -Infinity;
  const to = Math.log(high / median) / s;
  const raw = (k: number): number =>
    (median ** k * Math.exp(0.5 * (k * s) ** 2) * (normalCdf(to - k * s) - normalCdf(from - k * s))) / kept;
  const mean = raw(1);
  return {mean, deviation: Math.sqrt(Math.max(0, raw(2) - mean * mean))};
}

/** Of a density that is linear on either side of the mode, each part integrated exactly about the mode. */
function triangularMoments(
  {low, mode, high}: {readonly low: number; readonly mode: number; readonly high: number},
  limits: Truncation,
): Moments {
  const from = Math.max(low, limits.low);
  const to = Math.min(high, limits.high);
  const height = (x: number): number =>
    x < mode ? (x - low) / (mode - low) : x > mode ? (high - x) / (high - mode) : 1; // of its peak [–]
  const middle = Math.min(Math.max(mode, from), to);
  const sums = [0, 0, 0]; // ∫ (x − middle)^k·height dx
  for (const [a, b] of [
    [from, middle],
    [middle, to],
  ]) {
    const [fa, fb, w] = [height(a), height(b), b - a];
    const t = a - middle;
    sums[0] += (w * (fa + fb)) / 2;
    sums[1] += t * ((w * (fa + fb)) / 2) + (w * w * (fa + 2 * fb)) / 6;
    sums[2] += t * t * ((w * (fa + fb)) / 2) + (t * w * w * (fa + 2 * fb)) / 3 + (w * w * w * (fa + 3 * fb)) / 12;
  }
  const shift = sums[1] / sums[0];
  return {mean: middle + shift, deviation: Math.sqrt(Math.max(0, sums[2] / sums[0] - shift * shift))};
}
