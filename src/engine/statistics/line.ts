import {fQuantile, twoSidedT} from "./distributions.ts";

/** A fitted straight line y = a + b·x and how well it is known. Whoever fits one gives this. */
export interface LineEstimate {
  readonly centre: number; // x̄: level and slope are nearly independent there, and sums of squares lose no digits
  readonly level: number; // of the line at the centre
  readonly slope: number; // b
  readonly intercept: number; // a
  readonly levelVariance: number;
  readonly slopeVariance: number;
  readonly levelSlopeCovariance: number;
  readonly sigma: number; // standard deviation of y about the line, unbiased in its square
  readonly degrees: number; // of freedom of sigma; a fraction when some observations are censored
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * What a band is to cover, each time the stated probability: the line at one x; the line at all x together
 * (Working & Hotelling 1929, √(2F) for t; ASTM E739 draws this one); one more observation at x.
 */
export type BandKind = "confidence" | "simultaneous" | "prediction";

export function lineAt(line: LineEstimate, x: number): number {
  return line.level + line.slope * (x - line.centre);
}

/** Variance of the line at x, var(level) + 2·(x−x̄)·cov + (x−x̄)²·var(slope). */
export function lineVariance(line: LineEstimate, x: number): number {
  const dx = x - line.centre;
  return line.levelVariance + 2 * dx * line.levelSlopeCovariance + dx * dx * line.slopeVariance;
}

/** Covariance matrix of intercept and slope, from that at the centre. */
export function interceptCovariance(line: LineEstimate): {readonly intercept: number; readonly both: number} {
  return {intercept: lineVariance(line, 0), both: line.levelSlopeCovariance - line.centre * line.slopeVariance};
}

/** Two-sided band at x that covers with the probability. */
export function lineBand(line: LineEstimate, x: number, probability: number, kind: BandKind): Interval {
  const variance = lineVariance(line, x) + (kind === "prediction" ? line.sigma * line.sigma : 0);
  const factor =
    kind === "simultaneous"
      ? Math.sqrt(2 * fQuantile(probability, 2, line.degrees))
      : twoSidedT(probability, line.degrees);
  const half = factor * Math.sqrt(variance);
  const centre = lineAt(line, x);
  return {low: centre - half, high: centre + half};
}

/** Two-sided t interval of intercept or slope. */
export function coefficientInterval(line: LineEstimate, which: "intercept" | "slope", probability: number): Interval {
  const variance = which === "slope" ? line.slopeVariance : lineVariance(line, 0);
  const half = twoSidedT(probability, line.degrees) * Math.sqrt(variance);
  return {low: line[which] - half, high: line[which] + half};
}

/**
 * Where the line reaches y, by Fieller's theorem: all x at which y lies within the confidence band of the line,
 *
 *   (b² − t²·var b)·u² + 2·(b·d − t²·cov)·u + d² − t²·var(level) ≤ 0,   u = x − x̄, d = level − y
 *
 * Exact for least squares. Null when slope zero is within its own interval: then no x can be excluded far out.
 *
 * @source Fieller 1954, J. R. Stat. Soc. B 16, 175–185 (from memory)
 */
export function inverseInterval(line: LineEstimate, y: number, probability: number): Interval | null {
  const t = twoSidedT(probability, line.degrees);
  const d = line.level - y;
  const a = line.slope * line.slope - t * t * line.slopeVariance;
  if (!(a > 0)) return null;
  const b = line.slope * d - t * t * line.levelSlopeCovariance;
  const c = d * d - t * t * line.levelVariance;
  const root = Math.sqrt(Math.max(b * b - a * c, 0)); // never below 0 but by rounding: x itself is a solution
  return {low: line.centre + (-b - root) / a, high: line.centre + (-b + root) / a};
}
