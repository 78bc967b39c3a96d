import {type Family, shiftFamily, sigmoidFamily, twoSpringsFamily} from "./fitModels.ts";
import type {FitOptions} from "./fitTypes.ts";
import {type LeastSquaresFit, levenbergMarquardt, type Residuals, sumOfSquares} from "./levenberg.ts";
import {modulusOf} from "./modulus.ts";
import {shiftFactor} from "./shift.ts";
import type {ComplexModulusPoint, MasterCurve} from "./types.ts";
import {unknownOf, valueAt} from "./unknowns.ts";

/** A fit to be made: unknowns of the model, then those of the shift. */
export interface Problem {
  readonly family: Family<Pick<MasterCurve, "model" | "shift">>;
  readonly residualsAt: Residuals;
  readonly rows: readonly number[]; // reading that each residual is of
}

/** Residuals of the readings come first, then those that draw unknowns to typical values. */
export interface Settled extends LeastSquaresFit {
  readonly deviation: number; // of one residual of the readings [–]
}

/** Scatter below which the curve goes through the readings [–]. */
export const EXACT = 1e-9;
const TRIAL = 25; // iterations from a start, before the best goes on
const LIMIT = 400; // iterations
const PRIOR = 5; // of the scatter of a reading, in u: wider than from bound to bound
const TURNS = 10;
const PATH = "points";

export function problemOf(
  points: readonly ComplexModulusPoint[],
  options: FitOptions,
  model: FitOptions["model"] = options.model,
): Problem {
  const models = model === "sigmoid" ? sigmoidFamily(points) : twoSpringsFamily(points, model === "2S2P1D");
  const shifts = shiftFamily(points, options);
  const own = models.unknowns.length;
  const family: Problem["family"] = {
    unknowns: [...models.unknowns, ...shifts.unknowns],
    make: values => ({model: models.make(values.slice(0, own)), shift: shifts.make(values.slice(own))}),
  };
  const rows = points.flatMap(({phase}, i) => (model === "sigmoid" || phase === null ? [i] : [i, i]));
  return {family, rows, residualsAt: residualsOf(points, options.referenceTemperature, {family, rows})};
}

/** One residual of a reading whose modulus alone counts, two of one with phase. */
function residualsOf(
  points: readonly ComplexModulusPoint[],
  referenceTemperature: number,
  {family, rows}: Omit<Problem, "residualsAt">,
): Residuals {
  const temperatures = [...new Set(points.map(point => point.temperature))];
  const place = points.map(point => temperatures.indexOf(point.temperature));
  return u => {
    const {model, shift} = family.make(valuesOf({family}, u));
    const shifts = temperatures.map(temperature => 10 ** shiftFactor({shift, referenceTemperature}, temperature));
    const out = new Float64Array(rows.length);
    let row = 0;
    points.forEach(({frequency, modulus, phase}, i) => {
      const {storage, loss} = modulusOf(model, frequency * shifts[place[i]]);
      if (model.kind === "sigmoid" || phase === null) out[row++] = Math.log(Math.hypot(storage, loss) / modulus);
      else {
        const [cosine, sine] = [Math.cos(phase) / modulus, Math.sin(phase) / modulus];
        out[row++] = storage * cosine + loss * sine - 1;
        out[row++] = loss * cosine - storage * sine;
      }
    });
    return out;
  };
}

export function valuesOf({family}: Pick<Problem, "family">, u: Float64Array): number[] {
  return Array.from(u, (value, j) => valueAt(family.unknowns[j], value));
}

/** u of values of all unknowns. */
export function unknownsOf({family}: Pick<Problem, "family">, values: readonly number[]): Float64Array {
  return Float64Array.from(values, (value, j) => unknownOf(family.unknowns[j], value));
}

/** The best of short trials from several starts, carried to its end. */
export function best(problem: Problem, starts: readonly (readonly number[])[]): Settled {
  const trials = starts.map(start =>
    levenbergMarquardt(problem.residualsAt, unknownsOf(problem, start), {limit: TRIAL, mayStop: true, path: PATH}),
  );
  const leader = trials.reduce((a, b) => (b.squares < a.squares ? b : a));
  const tried = trials.reduce((sum, trial) => sum + trial.iterations, 0);
  return settled(problem, {...leader, iterations: tried});
}

/**
 * What the readings do not tell would drift to no end. So each unknown with a typical value is drawn there, as if that were a
 * reading PRIOR times as uncertain, in u, as the others: next to nothing for an unknown that the readings tell, the less the
 * better the curve fits, and nothing when it goes through them.
 */
function settled({family, residualsAt, rows}: Problem, from: LeastSquaresFit): Settled {
  const home = family.unknowns.map(unknown => (unknown.typical === null ? null : unknownOf(unknown, unknown.typical)));
  const free = Math.max(1, rows.length - home.length);
  const deviationOf = (fit: LeastSquaresFit): number =>
    Math.sqrt(sumOfSquares(fit.residuals.subarray(0, rows.length)) / free);
  let fit: Settled = {...from, deviation: deviationOf(from)};
  for (let turn = 0; turn < TURNS; turn++) {
    const draw = fit.deviation < EXACT ? 0 : fit.deviation / PRIOR;
    const drawn: Residuals = u => {
      const all = new Float64Array(rows.length + home.length);
      all.set(residualsAt(u));
      home.forEach((typical, j) => {
        if (typical !== null) all[rows.length + j] = draw * (u[j] - typical);
      });
      return all;
    };
    const next = levenbergMarquardt(drawn, fit.at, {limit: LIMIT, path: PATH});
    const before = fit.deviation;
    fit = {...next, iterations: fit.iterations + next.iterations, deviation: deviationOf(next)};
    if (draw === 0 || fit.deviation > 0.5 * before) break;
  }
  return fit;
}
