import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import {twoSidedT} from "./distributions.ts";
import {type CensoredModel, type Maximum, maximise} from "./likelihood.ts";
import {
  coefficientInterval,
  type Interval,
  inverseInterval,
  type LineEstimate,
  lineAt,
  lineBand,
  lineVariance,
} from "./line.ts";
import {straightLine} from "./regression.ts";

/** One observation; of a censored one only `y` or more is known. */
export interface CensoredPoint {
  readonly x: number;
  readonly y: number;
  readonly censored: boolean;
}

/** The line by maximum likelihood. */
export interface CensoredLine extends LineEstimate {
  readonly n: number;
  readonly failures: number; // not censored
  readonly effective: number; // n_σ, how many failures would tell the scatter as well
  readonly likelihoodSigma: number; // σ̂ at the maximum, too small on average
  readonly logSigmaVariance: number; // of ln σ̂
  readonly logLikelihood: number;
  readonly iterations: number; // 0: nothing censored, least squares is the maximum
  readonly decrement: number; // twice what is missing in the log-likelihood
}

/**
 * Straight line y = a + b·x + σ·z by maximum likelihood, z standard normal, some y known from below only.
 *
 * The likelihood's own σ̂ is too small in small samples, and normal quantiles make intervals too short. Least squares
 * mends both with n − 2 degrees of freedom. So here: the observed information tells how many uncensored observations
 * would give ln σ̂ the same variance, n_σ = 1/(2·var ln σ̂), which is n when nothing is censored. Then
 *
 *   ν = n_σ − 2    σ² = σ̂²·n_σ/ν    covariance of (a, b) = that of the observed information · n_σ/ν
 *
 * and intervals take t with ν degrees of freedom. Without censoring all of this is least squares, digit for digit.
 * Between, it is an approximation; simulated programmes show how well it covers (docs/verification/laboratory.md).
 *
 * @throws InputError "domain" when fewer than three failed, all of them at one x, or too little is known of the scatter
 * @throws InputError "convergence" when the likelihood has no maximum: failures exactly on a line
 * @source Meeker & Escobar 1998, Statistical Methods for Reliability Data, ch. 17 (from memory); the correction: ours
 */
export function censoredLine(points: readonly CensoredPoint[]): CensoredLine {
  const failed = points.filter(point => !point.censored);
  if (failed.length < 3) throw new InputError("domain", "points", failed.length, "≥ 3 failures");
  if (failed.every(point => point.x === failed[0].x))
    throw new InputError("domain", "points", failed[0].x, "failures at two different x at least");
  const all = straightLine(
    points.map(point => point.x),
    points.map(point => point.y),
  );
  const n = points.length;
  if (failed.length === n) {
    const likelihoodSigma = Math.sqrt(all.residualSquares / n);
    const logLikelihood = -n * (ln(likelihoodSigma) + 0.5 * ln(2 * Math.PI) + 0.5);
    const own = {n, failures: n, effective: n, likelihoodSigma, logSigmaVariance: 1 / (2 * n), logLikelihood};
    return {...estimateOf(all), ...own, iterations: 0, decrement: 0};
  }
  const {meanX, meanY} = all;
  const unit = Math.sqrt(all.sumXX / n);
  const eta = 1 / Math.sqrt(all.residualSquares / n);
  if (!Number.isFinite(eta))
    throw new InputError("convergence", "scatter", 0, "points that do not lie exactly on a line");
  const model = modelOf(points, [() => 1, point => (point.x - meanX) / unit], point => point.y - meanY);
  return unscaled(maximise(model, [0, all.slope * unit * eta, eta]), {n, failures: failed.length, meanX, meanY, unit});
}

function estimateOf(line: LineEstimate): LineEstimate {
  const {centre, level, slope, intercept, levelVariance, slopeVariance, levelSlopeCovariance, sigma, degrees} = line;
  return {centre, level, slope, intercept, levelVariance, slopeVariance, levelSlopeCovariance, sigma, degrees};
}

function modelOf(
  points: readonly CensoredPoint[],
  columns: readonly ((point: CensoredPoint) => number)[],
  value: (point: CensoredPoint) => number,
): CensoredModel {
  return {
    columns: columns.map(column => points.map(column)),
    values: points.map(value),
    censored: points.map(point => point.censored),
  };
}

/** From Olsen's variables to the line: level = ȳ + γ₀/η, slope = γ₁/(η·unit), and first derivatives for covariances. */
function unscaled(
  maximum: Maximum,
  scale: {n: number; failures: number; meanX: number; meanY: number; unit: number},
): CensoredLine {
  const [first, second, eta] = maximum.variables;
  const {n, failures, meanX, meanY, unit} = scale;
  const levelBy = [1 / eta, 0, -first / (eta * eta)];
  const slopeBy = [0, 1 / (eta * unit), -second / (eta * eta * unit)];
  const covarianceOf = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, ai, i) => sum + ai * b.reduce((inner, bj, j) => inner + bj * maximum.covariance[i * 3 + j], 0), 0);
  const logSigmaVariance = covarianceOf([0, 0, 1], [0, 0, 1]) / (eta * eta);
  const effective = 1 / (2 * logSigmaVariance);
  const degrees = effective - 2;
  if (!(degrees > 0)) throw new InputError("domain", "points", effective, "scatter known as from > 2 failures");
  const wider = effective / degrees;
  const level = meanY + first / eta;
  const slope = second / (eta * unit);
  return {
    centre: meanX,
    level,
    slope,
    intercept: level - slope * meanX,
    levelVariance: wider * covarianceOf(levelBy, levelBy),
    slopeVariance: wider * covarianceOf(slopeBy, slopeBy),
    levelSlopeCovariance: wider * covarianceOf(levelBy, slopeBy),
    sigma: Math.sqrt(wider) / eta,
    degrees,
    n,
    failures,
    effective,
    likelihoodSigma: 1 / eta,
    logSigmaVariance,
    logLikelihood: maximum.logLikelihood,
    iterations: maximum.iterations,
    decrement: maximum.decrement,
  };
}

/** What an interval is wanted of: the slope, the line's value at an x, the x at which the line reaches a y. */
export type ProfileTarget =
  | {readonly kind: "slope"}
  | {readonly kind: "value"; readonly x: number}
  | {readonly kind: "inverse"; readonly y: number};

/**
 * Interval from the profile likelihood: all values θ that the data do not contradict,
 *
 *   2·[ℓ_max − max ℓ given θ] ≤ n_σ·ln(1 + t²/ν),   t = t((1+P)/2; ν)
 *
 * The bound in place of the usual χ² is the one that least squares obeys exactly, n·ln(1 + t²/(n−2)). So without
 * censoring the interval is the t interval, or Fieller's for the inverse, and these closed forms are used then.
 * Unlike a symmetric interval it is long where run-outs leave things open.
 *
 * @returns null for the inverse when slope zero is not contradicted: then no x can be excluded far out
 * @throws InputError "convergence" when an end is not found
 */
export function profileInterval(
  points: readonly CensoredPoint[],
  line: CensoredLine,
  target: ProfileTarget,
  probability: number,
): Interval | null {
  if (line.failures === line.n) return closedInterval(line, target, probability);
  const t = twoSidedT(probability, line.degrees);
  const allowed = line.effective * Math.log1p((t * t) / line.degrees);
  const excess = (constraint: Constraint): number =>
    2 * (line.logLikelihood - constrained(points, line, constraint)) - allowed;
  if (target.kind === "inverse" && excess({slope: 0}) <= 0) return null;
  const {centre, step, at} = search(line, target);
  return {low: end(centre, -t * step, v => excess(at(v))), high: end(centre, t * step, v => excess(at(v)))};
}

function closedInterval(line: CensoredLine, target: ProfileTarget, probability: number): Interval | null {
  switch (target.kind) {
    case "slope":
      return coefficientInterval(line, "slope", probability);
    case "value":
      return lineBand(line, target.x, probability, "confidence");
    case "inverse":
      return inverseInterval(line, target.y, probability);
  }
}

/** A slope, or a point that the line goes through. */
type Constraint = {readonly slope: number} | {readonly x: number; readonly y: number};

function search(
  line: CensoredLine,
  target: ProfileTarget,
): {readonly centre: number; readonly step: number; readonly at: (value: number) => Constraint} {
  switch (target.kind) {
    case "slope":
      return {centre: line.slope, step: Math.sqrt(line.slopeVariance), at: slope => ({slope})};
    case "value": {
      const {x} = target;
      return {centre: lineAt(line, x), step: Math.sqrt(lineVariance(line, x)), at: y => ({x, y})};
    }
    case "inverse": {
      const {y} = target;
      const centre = line.centre + (y - line.level) / line.slope;
      return {centre, step: Math.sqrt(lineVariance(line, centre)) / Math.abs(line.slope), at: x => ({x, y})};
    }
  }
}

/** Largest log-likelihood under the constraint: one coefficient and σ are free. */
function constrained(points: readonly CensoredPoint[], line: CensoredLine, constraint: Constraint): number {
  const eta = 1 / line.likelihoodSigma;
  if ("slope" in constraint) {
    const value = (point: CensoredPoint) => point.y - line.level - constraint.slope * (point.x - line.centre);
    return maximise(modelOf(points, [() => 1], value), [0, eta]).logLikelihood;
  }
  const {x, y} = constraint;
  const model = modelOf(points, [point => point.x - x], point => point.y - y);
  return maximise(model, [line.slope * eta, eta]).logLikelihood;
}

const MOST_DOUBLINGS = 60;
/** An end is found to this part of the first step. */
const END = 1e-11;

/** Where `excess`, negative at the centre, rises through zero: away from it in doubled steps, then by halving. */
function end(centre: number, firstStep: number, excess: (value: number) => number): number {
  let inner = centre;
  let step = firstStep;
  let outer = centre + step;
  for (let doublings = 0; excess(outer) < 0; doublings++) {
    if (doublings === MOST_DOUBLINGS) throw new InputError("convergence", "interval", outer, "an end");
    inner = outer;
    step *= 2;
    outer += step;
  }
  while (Math.abs(outer - inner) > END * Math.abs(firstStep)) {
    const middle = 0.5 * (inner + outer);
    if (middle === inner || middle === outer) break; // neighbours among floating-point numbers
    if (excess(middle) < 0) inner = middle;
    else outer = middle;
  }
  return 0.5 * (inner + outer);
}
