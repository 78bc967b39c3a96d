import {InputError} from "../errors.ts";
import {fCdf} from "./distributions.ts";
import {type LineEstimate, lineAt} from "./line.ts";

/** Least squares. The covariance of level and slope is zero; that of intercept and slope is −x̄·s²/Sxx. */
export interface StraightLine extends LineEstimate {
  readonly n: number;
  readonly meanX: number;
  readonly meanY: number;
  readonly sumXX: number; // Σ(x−x̄)²
  readonly interceptError: number; // standard error
  readonly slopeError: number; // standard error
  readonly residualSquares: number; // Σ(y−ŷ)², over n−2 it is σ²
  readonly regressionSquares: number; // Σ(ŷ−ȳ)²
  readonly f: number; // of the regression, with 1 and n−2 degrees of freedom
  readonly correlation: number; // r; 0 when all y are equal
  readonly determination: number; // R²
}

/**
 * Straight line y = a + b·x by least squares:
 *
 *   b = Sxy/Sxx    a = ȳ − b·x̄    s² = Σ(y−ŷ)²/(n−2)    var b = s²/Sxx    var a = s²·(1/n + x̄²/Sxx)
 *
 * Sums are taken about the means: raw sums of squares lose the digits that Sxx is made of.
 *
 * @throws InputError "shape" | "domain" when n < 3, a value is not finite, or all x are equal
 * @source ASTM E739-10, 8.1 (from memory; textbook)
 */
export function straightLine(x: ArrayLike<number>, y: ArrayLike<number>): StraightLine {
  const n = x.length;
  if (y.length !== n) throw new InputError("shape", "y.length", y.length, `${n}, as many as x`);
  if (n < 3) throw new InputError("domain", "x.length", n, "≥ 3 points: two leave nothing to tell the scatter by");
  const meanX = mean("x", x);
  const meanY = mean("y", y);
  let sumXX = 0;
  let sumXY = 0;
  let sumYY = 0;
  for (let i = 0; i < n; i++) {
    sumXX += (x[i] - meanX) ** 2;
    sumXY += (x[i] - meanX) * (y[i] - meanY);
    sumYY += (y[i] - meanY) ** 2;
  }
  if (allEqual(x)) throw new InputError("domain", "x", x[0], "at least two different values");
  const slope = sumXY / sumXX;
  let residualSquares = 0;
  for (let i = 0; i < n; i++) residualSquares += (y[i] - meanY - slope * (x[i] - meanX)) ** 2;
  const regressionSquares = slope * sumXY;
  const variance = residualSquares / (n - 2);
  const slopeVariance = variance / sumXX;
  return {
    n,
    meanX,
    meanY,
    sumXX,
    centre: meanX,
    level: meanY,
    slope,
    intercept: meanY - slope * meanX,
    levelVariance: variance / n,
    slopeVariance,
    levelSlopeCovariance: 0,
    sigma: Math.sqrt(variance),
    degrees: n - 2,
    interceptError: Math.sqrt(variance / n + meanX * meanX * slopeVariance),
    slopeError: Math.sqrt(slopeVariance),
    residualSquares,
    regressionSquares,
    f: regressionSquares / variance,
    correlation: sumYY > 0 ? sumXY / Math.sqrt(sumXX * sumYY) : 0,
    determination: sumYY > 0 ? 1 - residualSquares / sumYY : 0,
  };
}

function mean(path: string, values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) throw new InputError("domain", `${path}[${i}]`, values[i], "finite");
    sum += values[i];
  }
  return sum / values.length;
}

function allEqual(values: ArrayLike<number>): boolean {
  for (let i = 1; i < values.length; i++) if (values[i] !== values[0]) return false;
  return true;
}

/** How one observation stands to the line. */
export interface Diagnosis {
  readonly residual: number; // e = y − ŷ
  readonly leverage: number; // h = 1/n + (x−x̄)²/Sxx, between 1/n and 1
  /**
   * Residual over its standard error with the observation left out of σ; follows t with n−3 degrees of freedom. Null
   * when it cannot be told: n = 3, the line passes through the point whatever its y (h = 1), or there is no scatter.
   * Infinite when all other points lie exactly on one line.
   */
  readonly studentised: number | null;
  readonly cookDistance: number | null; // null in the last two of these cases
}

/** Residuals, and 1 − h, smaller than this are rounding: relative to the largest |y − ȳ|, and to 1. */
const ROUNDING = 1e-12;

/**
 *   t = e/(s₍ᵢ₎·√(1−h))    s₍ᵢ₎² = (SSE − e²/(1−h))/(n−3)    D = e²·h/(2·s²·(1−h)²)
 *
 * @source Cook, R. D., Weisberg, S. 1982, Residuals and Influence in Regression, 2.2 and 3.1 (from memory)
 */
export function diagnose(line: StraightLine, x: ArrayLike<number>, y: ArrayLike<number>): Diagnosis[] {
  let largest = 0;
  for (let i = 0; i < y.length; i++) largest = Math.max(largest, Math.abs(y[i] - line.meanY));
  const noScatter = line.sigma <= ROUNDING * largest;
  return Array.from({length: line.n}, (_, i) => {
    const residual = y[i] - lineAt(line, x[i]);
    const leverage = 1 / line.n + (x[i] - line.meanX) ** 2 / line.sumXX;
    const rest = 1 - leverage;
    if (noScatter || rest <= ROUNDING) return {residual, leverage, studentised: null, cookDistance: null};
    const cookDistance = (residual * residual * leverage) / (2 * line.sigma * line.sigma * rest * rest);
    if (line.n === 3) return {residual, leverage, studentised: null, cookDistance};
    const others = line.residualSquares - (residual * residual) / rest;
    // All the others lie on one line: what is left is rounding, of either sign.
    const deleted = others > ROUNDING * line.residualSquares ? Math.sqrt(others / (line.n - 3)) : 0;
    return {residual, leverage, studentised: residual / (deleted * Math.sqrt(rest)), cookDistance};
  });
}

export interface LackOfFit {
  readonly f: number;
  readonly above: number; // degrees of freedom, levels − 2
  readonly below: number; // degrees of freedom, observations − levels
  readonly probability: number; // of a larger F when the line is straight
  readonly levels: number;
  readonly replication: number; // 1 − levels/observations
}

/**
 * Is the line straight? Compares the means of the levels' departure from the line with the scatter within levels:
 *
 *   F = [Σ m_j·(ŷ_j − ȳ_j)²/(l−2)] / [ΣΣ (y_ij − ȳ_j)²/(k−l)]
 *
 * ŷ_j at the mean x of the level, so that levels may be of nearly equal x.
 *
 * @param level  of each observation, any numbers
 * @returns null when it cannot be told: fewer than three levels, no replicates, or no scatter within levels
 * @source ASTM E739-10, 8.2 and 7.2.2 (from memory)
 */
export function lackOfFit(
  line: LineEstimate,
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  level: ArrayLike<number>,
): LackOfFit | null {
  const groups = new Map<number, number[]>();
  for (let i = 0; i < x.length; i++) groups.set(level[i], [...(groups.get(level[i]) ?? []), i]);
  let between = 0;
  let within = 0;
  for (const members of groups.values()) {
    const meanX = members.reduce((sum, i) => sum + x[i], 0) / members.length;
    const meanY = members.reduce((sum, i) => sum + y[i], 0) / members.length;
    between += members.length * (lineAt(line, meanX) - meanY) ** 2;
    for (const i of members) within += (y[i] - meanY) ** 2;
  }
  const levels = groups.size;
  const above = levels - 2;
  const below = x.length - levels;
  if (above < 1 || below < 1 || !(within > 0)) return null;
  const f = between / above / (within / below);
  return {f, above, below, probability: 1 - fCdf(f, above, below), levels, replication: 1 - levels / x.length};
}
