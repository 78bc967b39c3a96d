import {InputError, requirePositive} from "../errors.ts";
import {halfSpaceDeflection} from "../layered/index.ts";
import {type Estimate, estimateOf} from "./estimate.ts";
import {type LeastSquaresFit, leastSquares} from "./leastSquares.ts";
import {type MeasuredBowl, measuredBowl} from "./measured.ts";
import {type Problem, problemOf} from "./problem.ts";
import {type ProfileEnd, profileEnd} from "./profile.ts";
import {startingPoints} from "./starts.ts";
import type {BowlResult, BowlTest, FittedLayer, Sensor} from "./types.ts";
import {bowlWarnings} from "./warnings.ts";

/** Two solutions are the same when no modulus differs by more, in ln E. */
const SAME = 0.02;
/** A search that comes so near a minimum, in ln E, would end in it. */
const NEAR = 5e-3;

/**
 * Moduli of bonded elastic layers whose surface deflects under a plate of uniform pressure as measured:
 *
 *   min S = Σ ((d_fitted − d_measured)/σ)²  over ln E between bounds,   cov(ln E) = s²·(JᵀJ)⁻¹,   s² = S/(n − p)
 *
 * The interval of a modulus holds all values for which S, the others fitted anew, is below S_min + t²·s² (Student's t).
 *
 * @source docs/theory/backanalysis.md
 * @throws InputError "domain" | "shape" | "convergence"
 */
export function backAnalyse(test: BowlTest): BowlResult {
  check(test);
  const bowl = measuredBowl(test);
  const problem = problemOf(test, bowl);
  const fits = fitsOf(problem);
  const best = fits
    .filter(f => f.converged)
    .reduce<LeastSquaresFit | null>((a, b) => (a && a.value <= b.value * (1 + 1e-9) ? a : b), null);
  if (!best)
    throw new InputError(
      "convergence",
      "backAnalyse",
      `none of ${fits.length} searches that settled`,
      "a minimum that the search settles in",
    );
  const estimate = estimateOf(test, problem, best);
  const profiles = profilesOf(problem, best, estimate);
  const moduli = problem.moduliOf(best.at);
  const refits = profiles.flatMap(({low, high}) => [low.fit, high.fit]);
  const result: Omit<BowlResult, "warnings"> = {
    test,
    pressure: bowl.pressure,
    sensors: sensorsOf(test, bowl, problem.bowl(moduli)),
    layers: layersOf(test, problem, {best, estimate, profiles}),
    unknowns: estimate.free.map(k => problem.unknowns[k]),
    correlation: estimate.correlation,
    combinations: estimate.combinations,
    alternatives: alternativesOf(problem, profiles),
    others: distinct(fits, best, estimate.jointLimit).map(fit => problem.solution(fit.at)),
    rms: problem.solution(best.at).rms,
    scatter: estimate.degrees > 0 ? Math.sqrt(best.value / estimate.degrees) : null,
    degrees: estimate.degrees,
    starts: fits.length,
    evaluations: [...fits, ...refits].reduce((sum, f) => sum + f.evaluations, 0),
    residual: problem.model.residual(moduli),
  };
  return {...result, warnings: bowlWarnings(result)};
}

/** From all starts; one that comes near a minimum already found ends there. */
function fitsOf(problem: Problem): LeastSquaresFit[] {
  const fits: LeastSquaresFit[] = [];
  const known = (x: Float64Array): boolean =>
    fits.some(({converged, at}) => converged && at.every((v, k) => Math.abs(v - x[k]) < NEAR));
  for (const x of startingPoints(problem.start, problem.low, problem.high)) fits.push(leastSquares(problem, x, known));
  return fits;
}

function check({radius, offsets, drops, layers, accuracy, probability}: BowlTest): void {
  requirePositive("radius", radius, "m");
  if (drops.length === 0) throw new InputError("shape", "drops.length", 0, "≥ 1");
  drops.forEach((drop, i) => {
    requirePositive(`drops[${i}].pressure`, drop.pressure, "Pa");
    if (drop.deflections.length !== offsets.length)
      throw new InputError("shape", `drops[${i}].deflections.length`, drop.deflections.length, `${offsets.length}`);
    drop.deflections.forEach((d, k) => {
      requirePositive(`drops[${i}].deflections[${k}]`, d, "m");
    });
  });
  if (!(accuracy.relative >= 0 && accuracy.absolute >= 0 && accuracy.relative + accuracy.absolute > 0))
    throw new InputError("domain", "accuracy", `${accuracy.relative}, ${accuracy.absolute}`, "≥ 0, not both 0");
  if (!(probability > 0 && probability < 1)) throw new InputError("domain", "probability", probability, "0 to 1");
  const unknowns = layers.flatMap(({modulus}, j) => {
    if (modulus.kind === "fixed") return [];
    const {low, start, high} = modulus;
    if (!(low > 0 && low <= start && start <= high && low < high && high < Infinity))
      throw new InputError(
        "domain",
        `layers[${j}].modulus`,
        `${low}, ${start}, ${high}`,
        "0 < low ≤ start ≤ high [Pa]",
      );
    return [j];
  });
  if (unknowns.length === 0) throw new InputError("shape", "layers", "no unknown modulus", "at least one");
  if (unknowns.length > offsets.length)
    throw new InputError("shape", "offsets.length", offsets.length, `≥ ${unknowns.length}, the unknown moduli`);
}

interface Profile {
  readonly low: ProfileEnd;
  readonly high: ProfileEnd;
}

/** By unknown, those at a bound as well: they have an interval to the other side. */
function profilesOf(problem: Problem, best: LeastSquaresFit, {free, errors, width, limit}: Estimate): Profile[] {
  return problem.unknowns.map((_, variable) => {
    const error = errors[free.indexOf(variable)] ?? Number.NaN;
    const end = (side: -1 | 1): ProfileEnd =>
      profileEnd(problem, best, {variable, side, distance: width * error, limit});
    return {low: end(-1), high: end(1)};
  });
}

function layersOf(
  {layers}: BowlTest,
  {unknowns, moduliOf, low}: Problem,
  {best, estimate, profiles}: {best: LeastSquaresFit; estimate: Estimate; profiles: readonly Profile[]},
): FittedLayer[] {
  const moduli = moduliOf(best.at);
  const modulusAt = (log: number | null): number | null => (log === null ? null : Math.exp(log));
  return layers.map(({name, modulus: {kind}}, j) => {
    const k = unknowns.indexOf(j);
    if (kind === "fixed") return {name, modulus: moduli[j], fixed: true, atBound: null, interval: null, linear: null};
    return {
      name,
      modulus: moduli[j],
      fixed: false,
      atBound: best.held[k] ? (best.at[k] <= low[k] ? "low" : "high") : null,
      interval: {low: modulusAt(profiles[k].low.at), high: modulusAt(profiles[k].high.at)},
      linear: estimate.errors[estimate.free.indexOf(k)] ?? null,
    };
  });
}

/** Of the unknown whose interval, as far as it was searched, is the widest. */
function alternativesOf(problem: Problem, profiles: readonly Profile[]): BowlResult["alternatives"] {
  if (profiles.length < 2) return null;
  const widthOf = (k: number): number => profiles[k].high.fit.at[k] - profiles[k].low.fit.at[k];
  const widest = profiles.reduce((most, _, k) => (widthOf(k) > widthOf(most) ? k : most), 0);
  const {low, high} = profiles[widest];
  return {
    layer: problem.unknowns[widest],
    low: problem.solution(low.fit.at),
    high: problem.solution(high.fit.at),
  };
}

/** Minima within the limit that are not the best one, each once, best first. */
function distinct(fits: readonly LeastSquaresFit[], best: LeastSquaresFit, limit: number): LeastSquaresFit[] {
  const kept: LeastSquaresFit[] = [best];
  for (const fit of [...fits].sort((a, b) => a.value - b.value)) {
    if (!fit.converged || fit.value > limit) continue;
    if (kept.every(k => k.at.some((v, i) => Math.abs(v - fit.at[i]) > SAME))) kept.push(fit);
  }
  return kept.slice(1);
}

function sensorsOf({layers, radius}: BowlTest, {pressure, sensors}: MeasuredBowl, fitted: Float64Array): Sensor[] {
  const {poisson} = layers[layers.length - 1];
  return sensors.map((sensor, k) => {
    const unit = pressure * halfSpaceDeflection(radius, sensor.offset, poisson);
    return {
      ...sensor,
      fitted: fitted[k],
      surfaceModulus: unit / sensor.measured,
      fittedSurfaceModulus: unit / fitted[k],
    };
  });
}
