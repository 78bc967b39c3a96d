import {InputError, requirePositive} from "../errors.ts";
import {
  type Family,
  knowledgeOf,
  shiftFamily,
  shiftStart,
  sigmoidFamily,
  twoSpringsFamily,
  twoSpringsStart,
} from "./fitModels.ts";
import type {FitOptions, MasterCurveFit, PointResidual} from "./fitTypes.ts";
import {fitWarnings} from "./fitWarnings.ts";
import {type LeastSquaresFit, levenbergMarquardt, type Residuals} from "./levenberg.ts";
import {modulusOf} from "./modulus.ts";
import {leastSquares} from "./nonNegative.ts";
import {reducedFrequency, requireTemperature, shiftFactor} from "./shift.ts";
import type {ComplexModulusPoint, MasterCurve} from "./types.ts";
import {unknownOf, valueAt} from "./unknowns.ts";

const LIMIT = 400; // iterations
const TRIAL = 25; // iterations from a start, before the best goes on

/**
 * Master curve through readings: model and shift in one, by nonlinear least squares.
 *
 *   sigmoid               Σ (ln|E*| − ln|E*|ᵢ)²; a measured phase is compared afterwards
 *   2S2P1D, Huet-Sayegh   Σ |E_fit/E*ᵢ − 1|² of the complex modulus; (ln|E*| − ln|E*|ᵢ)² of a reading without phase
 *
 * What readings cannot tell is set to typical values, with a warning: the shift when there is one temperature or one frequency
 * only, C₂ when there are two temperatures.
 *
 * @throws InputError "domain" for an impossible reading or fewer than the parameters need, "convergence" when it does not end
 * @source docs/theory/viscoelastic.md
 */
export function fitMasterCurve(points: readonly ComplexModulusPoint[], options: FitOptions): MasterCurveFit {
  requireTemperature("referenceTemperature", options.referenceTemperature);
  points.forEach(requirePoint);
  const sigmoid = problemOf(points, options, sigmoidFamily(points));
  requireEnough(points, options);
  const first = best(sigmoid, sigmoidStarts(points, options, sigmoid));
  if (options.model === "sigmoid") return resultOf(points, options, sigmoid, first);
  const dashpot = options.model === "2S2P1D";
  const problem = problemOf(points, options, twoSpringsFamily(points, dashpot));
  return resultOf(points, options, problem, best(problem, twoSpringsStarts(sigmoid, first, problem, dashpot)));
}

/** A fit to be made: unknowns of the model, then those of the shift. */
export interface Problem {
  readonly family: Family<Pick<MasterCurve, "model" | "shift">>;
  readonly residualsAt: Residuals;
}

function problemOf(
  points: readonly ComplexModulusPoint[],
  options: FitOptions,
  models: Family<MasterCurve["model"]>,
): Problem {
  const shifts = shiftFamily(points, options);
  const count = models.unknowns.length;
  const family: Problem["family"] = {
    unknowns: [...models.unknowns, ...shifts.unknowns],
    make: values => {
      const all = Array.from(values);
      return {model: models.make(all.slice(0, count)), shift: shifts.make(all.slice(count))};
    },
  };
  return {family, residualsAt: residualsOf(points, options.referenceTemperature, family)};
}

/** One residual of a reading whose modulus alone counts, two of one with phase. */
function residualsOf(
  points: readonly ComplexModulusPoint[],
  referenceTemperature: number,
  family: Problem["family"],
): Residuals {
  const temperatures = [...new Set(points.map(point => point.temperature))];
  const place = points.map(point => temperatures.indexOf(point.temperature));
  return u => {
    const {model, shift} = family.make(Array.from(u, (value, j) => valueAt(family.unknowns[j], value)));
    const shifts = temperatures.map(temperature => 10 ** shiftFactor({shift, referenceTemperature}, temperature));
    const out: number[] = [];
    points.forEach(({frequency, modulus, phase}, i) => {
      const {storage, loss} = modulusOf(model, frequency * shifts[place[i]]);
      if (model.kind === "sigmoid" || phase === null) out.push(Math.log(Math.hypot(storage, loss) / modulus));
      else {
        const [cosine, sine] = [Math.cos(phase) / modulus, Math.sin(phase) / modulus];
        out.push(storage * cosine + loss * sine - 1, loss * cosine - storage * sine);
      }
    });
    return Float64Array.from(out);
  };
}

/** The best of short trials from several starts, carried to its end. */
function best({family, residualsAt}: Problem, starts: readonly (readonly number[])[]): LeastSquaresFit {
  const path = "points";
  const trials = starts.map(start => {
    const u = Float64Array.from(start, (value, j) => unknownOf(family.unknowns[j], value));
    return levenbergMarquardt(residualsAt, u, {limit: TRIAL, mayStop: true, path});
  });
  const tried = trials.reduce((sum, trial) => sum + trial.iterations, 0);
  const leader = trials.reduce((a, b) => (b.squares < a.squares ? b : a));
  const end = levenbergMarquardt(residualsAt, leader.at, {limit: LIMIT, path});
  return {...end, iterations: tried + end.iterations};
}

/**
 * Between two guessed shelves lg|E*| is a straight plane in lg f and T after the logit, ln(s/(1 − s)) = −β + γ·lg f + γ·lg a_T:
 * that gives β, γ and the shift at once.
 */
function sigmoidStarts(points: readonly ComplexModulusPoint[], options: FitOptions, {family}: Problem): number[][] {
  const shifts = shiftFamily(points, options);
  const told = knowledgeOf(points, options.shift) !== "nothing";
  const own = shifts.make(shiftStart(options, shifts, 0.12));
  const lgs = points.map(point => Math.log10(point.modulus));
  const guesses = [0.1, 0.5, 1.5].flatMap(below => [0.1, 0.5].map(above => [below, above]));
  return guesses.map(([below, above]) => {
    const [lowest, highest] = [Math.min(...lgs) - below, Math.max(...lgs) + above];
    const logit = Float64Array.from(lgs, lg => Math.log((lg - lowest) / (highest - lg)));
    const known = (temperature: number): number =>
      shiftFactor({shift: own, referenceTemperature: options.referenceTemperature}, temperature);
    const ones = new Float64Array(points.length).fill(1);
    const lgF = Float64Array.from(
      points,
      ({frequency, temperature}) => Math.log10(frequency) + (told ? 0 : known(temperature)),
    );
    const warmer = Float64Array.from(points, ({temperature}) => temperature - options.referenceTemperature);
    const [level, gamma, fall] = leastSquares(told ? [ones, lgF, warmer] : [ones, lgF], logit);
    const slope = gamma > 0.05 && gamma < 4 ? gamma : 0.4;
    const rate = told && -fall / slope > 0.01 ? -fall / slope : 0.12;
    return [lowest, highest, -level, slope, ...shiftStart(options, shifts, rate)].slice(0, family.unknowns.length);
  });
}

/** Shift and shelves from the sigmoid, typical exponents, and the τ that suits best of a few. */
function twoSpringsStarts(
  sigmoid: Problem,
  first: LeastSquaresFit,
  {family, residualsAt}: Problem,
  dashpot: boolean,
): number[][] {
  const values = Array.from(first.at, (u, j) => valueAt(sigmoid.family.unknowns[j], u));
  const shift = values.slice(4);
  const [staticUnknown] = family.unknowns;
  const shelves = [
    [10 ** values[0], 10 ** values[1]],
    [10 ** values[0] / 10, 1.5 * 10 ** values[1]],
    [staticUnknown.high / 30, 10 ** values[1]],
  ];
  return shelves.map(([staticModulus, glassyModulus]) => {
    let chosen: number[] = [];
    let least = Infinity;
    for (let lg = -7; lg <= 5; lg += 0.5) {
      const start = [...twoSpringsStart({staticModulus, glassyModulus, time: 10 ** lg}, dashpot), ...shift];
      const squares = residualsAt(Float64Array.from(start, (value, j) => unknownOf(family.unknowns[j], value))).reduce(
        (sum, r) => sum + r * r,
        0,
      );
      if (squares < least) [chosen, least] = [start, squares];
    }
    return chosen;
  });
}

function resultOf(
  points: readonly ComplexModulusPoint[],
  options: FitOptions,
  {family}: Problem,
  fit: LeastSquaresFit,
): MasterCurveFit {
  const made = family.make(Array.from(fit.at, (u, j) => valueAt(family.unknowns[j], u)));
  const {referenceTemperature} = options;
  const reduced = points.map(({temperature, frequency}) =>
    reducedFrequency({...made, referenceTemperature}, temperature, frequency),
  );
  const temperatures = points.map(point => point.temperature);
  const measured = {
    temperature: [Math.min(...temperatures), Math.max(...temperatures)],
    reducedFrequency: [Math.min(...reduced), Math.max(...reduced)],
  } as const;
  const curve: MasterCurve = {...made, referenceTemperature, measured};
  const residuals = points.map(({modulus, phase}, i): PointResidual => {
    const {storage, loss} = modulusOf(curve.model, reduced[i]);
    const lgModulus = Math.log10(Math.hypot(storage, loss) / modulus);
    return {lgModulus, phase: phase === null ? null : Math.atan2(loss, storage) - phase};
  });
  const lgs = points.map(point => Math.log10(point.modulus));
  const mean = lgs.reduce((sum, lg) => sum + lg, 0) / lgs.length;
  const total = sumOfSquares(lgs.map(lg => lg - mean));
  const left = sumOfSquares(residuals.map(residual => residual.lgModulus));
  const phases = residuals.flatMap(({phase}) => (phase === null ? [] : [phase]));
  const free = points.length - family.unknowns.length;
  return {
    curve,
    residuals,
    rmsModulus: Math.LN10 * Math.sqrt(left / points.length),
    rmsPhase: phases.length > 0 ? Math.sqrt(sumOfSquares(phases) / phases.length) : null,
    determination: 1 - left / total,
    errorRatio: free > 0 ? Math.sqrt(left / free / (total / (points.length - 1))) : null,
    iterations: fit.iterations,
    warnings: fitWarnings({points, options, unknowns: family.unknowns, fit}),
  };
}

function requirePoint({temperature, frequency, modulus, phase}: ComplexModulusPoint, i: number): void {
  requireTemperature(`points[${i}].temperature`, temperature);
  requirePositive(`points[${i}].frequency`, frequency, "Hz");
  requirePositive(`points[${i}].modulus`, modulus, "Pa");
  if (phase !== null && !(phase >= 0 && phase <= Math.PI / 2))
    throw new InputError("domain", `points[${i}].phase`, phase, "0 to π/2 [rad], or null");
}

/** @throws InputError "domain" when there are not more residuals than unknowns, or all moduli are equal */
function requireEnough(points: readonly ComplexModulusPoint[], options: FitOptions): void {
  const sigmoid = options.model === "sigmoid";
  const models = sigmoid ? sigmoidFamily(points) : twoSpringsFamily(points, options.model === "2S2P1D");
  const unknowns = models.unknowns.length + shiftFamily(points, options).unknowns.length;
  const told = points.reduce((sum, {phase}) => sum + (sigmoid || phase === null ? 1 : 2), 0);
  if (told <= unknowns)
    throw new InputError("domain", "points.length", points.length, `readings for more than ${unknowns} parameters`);
  if (points.every(point => point.modulus === points[0].modulus))
    throw new InputError("domain", "points", "equal moduli only", "at least two different ones");
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
