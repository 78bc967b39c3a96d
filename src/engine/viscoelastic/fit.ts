import {InputError, requirePositive} from "../errors.ts";
import {best, type Problem, problemOf, type Settled, valuesOf} from "./fitProblem.ts";
import {sigmoidStarts, twoSpringsStarts} from "./fitStarts.ts";
import type {FitOptions, MasterCurveFit, PointResidual} from "./fitTypes.ts";
import {fitWarnings} from "./fitWarnings.ts";
import {sumOfSquares} from "./levenberg.ts";
import {complexModulus} from "./modulus.ts";
import {reducedFrequency, requireTemperature} from "./shift.ts";
import type {ComplexModulusPoint, MasterCurve, MeasuredRange} from "./types.ts";

/**
 * Master curve through readings: model and shift in one, by nonlinear least squares of
 *
 *   sigmoid               ln|E*| − ln|E*|ᵢ; a measured phase is only compared afterwards
 *   2S2P1D, Huet-Sayegh   real and imaginary part of E_fit/E*ᵢ − 1; ln|E*| − ln|E*|ᵢ of a reading without phase
 *
 * What readings hardly tell stays near typical values of asphalt, and what they cannot tell is set to them: the shift when there
 * is one temperature or one frequency only, C₂ when there are two temperatures. Both with a warning.
 *
 * @throws InputError "domain" for an impossible reading or fewer than the parameters need, "convergence" when it does not end
 * @source docs/theory/viscoelastic.md
 */
export function fitMasterCurve(points: readonly ComplexModulusPoint[], options: FitOptions): MasterCurveFit {
  requireTemperature("referenceTemperature", options.referenceTemperature);
  points.forEach(requirePoint);
  const problem = problemOf(points, options);
  requireEnough(points, problem);
  const sigmoid = problemOf(points, options, "sigmoid");
  const first = best(sigmoid, sigmoidStarts(points, options));
  if (options.model === "sigmoid") return resultOf(points, options, {problem: sigmoid, fit: first});
  const fit = best(problem, twoSpringsStarts(problem, valuesOf(sigmoid, first.at)));
  return resultOf(points, options, {problem, fit: {...fit, iterations: first.iterations + fit.iterations}});
}

function resultOf(
  points: readonly ComplexModulusPoint[],
  options: FitOptions,
  {problem, fit}: {readonly problem: Problem; readonly fit: Settled},
): MasterCurveFit {
  const {referenceTemperature} = options;
  const made = {...problem.family.make(valuesOf(problem, fit.at)), referenceTemperature};
  const curve: MasterCurve = {...made, measured: rangeOf(points, made)};
  const residuals = points.map(({temperature, frequency, modulus, phase}): PointResidual => {
    const {storage, loss} = complexModulus(curve, temperature, frequency);
    const lgModulus = Math.log10(Math.hypot(storage, loss) / modulus);
    return {lgModulus, phase: phase === null ? null : Math.atan2(loss, storage) - phase};
  });
  const lgs = points.map(point => Math.log10(point.modulus));
  const mean = lgs.reduce((sum, lg) => sum + lg, 0) / lgs.length;
  const total = sumOfSquares(lgs.map(lg => lg - mean));
  const left = sumOfSquares(residuals.map(residual => residual.lgModulus));
  const phases = residuals.flatMap(({phase}) => (phase === null ? [] : [phase]));
  const free = points.length - fit.at.length;
  const rmsModulus = Math.LN10 * Math.sqrt(left / points.length);
  return {
    curve,
    residuals,
    rmsModulus,
    rmsPhase: phases.length > 0 ? Math.sqrt(sumOfSquares(phases) / phases.length) : null,
    determination: 1 - left / total,
    errorRatio: free > 0 ? Math.sqrt(left / free / (total / (points.length - 1))) : null,
    iterations: fit.iterations,
    warnings: fitWarnings({points, options, curve, rmsModulus, problem, fit}),
  };
}

function rangeOf(points: readonly ComplexModulusPoint[], curve: Omit<MasterCurve, "measured">): MeasuredRange {
  const temperatures = points.map(point => point.temperature);
  const reduced = points.map(({temperature, frequency}) => reducedFrequency(curve, temperature, frequency));
  return {
    temperature: [Math.min(...temperatures), Math.max(...temperatures)],
    reducedFrequency: [Math.min(...reduced), Math.max(...reduced)],
  };
}

function requirePoint({temperature, frequency, modulus, phase}: ComplexModulusPoint, i: number): void {
  requireTemperature(`points[${i}].temperature`, temperature);
  requirePositive(`points[${i}].frequency`, frequency, "Hz");
  requirePositive(`points[${i}].modulus`, modulus, "Pa");
  if (phase !== null && !(phase >= 0 && phase <= Math.PI / 2))
    throw new InputError("domain", `points[${i}].phase`, phase, "0 to π/2 [rad], or null");
}

/** @throws InputError "domain" when there are not more readings than unknowns, or all moduli are equal */
function requireEnough(points: readonly ComplexModulusPoint[], {family, rows}: Problem): void {
  const unknowns = Math.max(family.unknowns.length, 1);
  if (rows.length <= unknowns) {
    const need = `more than ${unknowns} moduli and phases that count, one for each parameter and one over`;
    throw new InputError("domain", "points", rows.length, need);
  }
  if (points.every(point => point.modulus === points[0].modulus))
    throw new InputError("domain", "points", "equal moduli only", "at least two different ones");
}
