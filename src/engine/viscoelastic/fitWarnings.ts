/** What to know of a fitted curve before it is used: warnings as data. */
import {type Factored, factored, tQuantile} from "../statistics/index.ts";
import {knowledgeOf} from "./fitModels.ts";
import {EXACT, type Problem, type Settled} from "./fitProblem.ts";
import type {FitOptions} from "./fitTypes.ts";
import type {ComplexModulusPoint, MasterCurve} from "./types.ts";
import {boundReached, sensitivityOf} from "./unknowns.ts";

interface Fitted {
  readonly points: readonly ComplexModulusPoint[];
  readonly options: FitOptions;
  readonly curve: MasterCurve;
  readonly rmsModulus: number; // of ln|E*| [–]
  readonly problem: Problem;
  readonly fit: Settled;
}

const FAR = 3; // standard deviations beyond which one reading is named
const CHANCE = 0.01; // that any reading of a faultless series is named
const ROUNDING = 1e-6; // of 1 − h: such a reading is met whatever it is [–]
const POOR = 0.1; // root mean square of ln|E*| that is large [–]
const NARROW = 3; // decades of reduced frequency that are few

export function fitWarnings(fitted: Fitted): string[] {
  return [
    ...shiftWarnings(fitted),
    ...rangeWarnings(fitted),
    ...curveWarnings(fitted),
    ...unknownWarnings(fitted),
    ...readingWarnings(fitted),
  ];
}

function shiftWarnings({points, options, curve: {shift}}: Fitted): string[] {
  switch (knowledgeOf(points, options.shift)) {
    case "all":
      return [];
    case "one":
      return ["Two temperatures do not tell both constants of the WLF equation: C₂ is a typical value."];
    case "nothing": {
      const temperatures = new Set(points.map(point => point.temperature)).size;
      const what = temperatures === 1 ? "One temperature does" : "One frequency does";
      const taken = shift.kind === "WLF" ? "C₁ and C₂ are typical values" : "the activation energy is a typical value";
      return [`${what} not tell how temperature shifts the curve: ${taken}.`];
    }
  }
}

function rangeWarnings({points, options, curve}: Fitted): string[] {
  const warnings: string[] = [];
  const {referenceTemperature} = curve;
  const [coldest, warmest] = curve.measured?.temperature ?? [-Infinity, Infinity];
  if (referenceTemperature < coldest || referenceTemperature > warmest) {
    const tested = coldest === warmest ? `${coldest} °C` : `${coldest} to ${warmest} °C`;
    warnings.push(`The reference temperature ${referenceTemperature} °C lies outside of those tested, ${tested}.`);
  }
  const [slowest, fastest] = curve.measured?.reducedFrequency ?? [0, Infinity];
  const decades = Math.log10(fastest / slowest);
  if (decades < NARROW)
    warnings.push(
      `The readings cover ${decades.toFixed(1)} decades of reduced frequency only: beyond, the curve is a guess.`,
    );
  const without = points.filter(({phase}) => phase === null).length;
  if (options.model !== "sigmoid" && without === points.length)
    warnings.push("No phase was measured: the phase of this curve follows from the model alone.");
  else if (options.model !== "sigmoid" && without > 0)
    warnings.push(`${without} of ${points.length} readings have no phase.`);
  return warnings;
}

function curveWarnings({curve: {model}, rmsModulus}: Fitted): string[] {
  const warnings: string[] = [];
  if (rmsModulus > POOR)
    warnings.push(
      `The curve misses the moduli by ${(100 * rmsModulus).toFixed(0)} % (root mean square): temperatures, frequencies and units ` +
        "of the readings deserve a look.",
    );
  if (model.kind === "sigmoid" && model.span * model.slope >= 4)
    warnings.push("The curve rises faster than frequency, as no material does: it has no relaxation modulus.");
  return warnings;
}

/** Parameters at a bound, and those whose standard error is large. */
function unknownWarnings({problem, fit}: Fitted): string[] {
  const {unknowns} = problem.family;
  const atBound = unknowns.flatMap((unknown, j) => {
    const bound = boundReached(fit.at[j]);
    if (bound === null) return [];
    return [
      `${unknown.name} ended at the ${bound === "low" ? "lowest" : "highest"} value allowed: another model may suit better.`,
    ];
  });
  if (fit.deviation < EXACT) return atBound;
  const {inverse, scale} = normal(fit);
  const covariance = inverse.inverse();
  const loose = unknowns.flatMap((unknown, j) => {
    const error = (fit.deviation * Math.sqrt(covariance[j * unknowns.length + j])) / scale[j];
    const own = error * sensitivityOf(unknown, fit.at[j]);
    return own > unknown.loose ? [unknown.name] : [];
  });
  if (loose.length === 0) return atBound;
  const which = `The readings hardly tell ${loose.join(", ")}`;
  return [...atBound, `${which}: they are kept near typical values, and beyond the readings the curve is a guess.`];
}

/** JᵀJ with its columns scaled to length one, factored. */
function normal({columns}: Settled): {readonly inverse: Factored; readonly scale: readonly number[]} {
  const n = columns.length;
  const scale = columns.map(column => Math.hypot(...column) || 1);
  const product = new Float64Array(n * n);
  columns.forEach((a, i) => {
    columns.forEach((b, j) => {
      let sum = 0;
      for (let row = 0; row < a.length; row++) sum += a[row] * b[row];
      product[i * n + j] = sum / (scale[i] * scale[j]);
    });
  });
  return {inverse: factored(product, n), scale};
}

/**
 * Readings that lie off: residual over its standard deviation, r/(s·√(1 − h)), h its leverage and s² the mean of r²/(1 − h) of the
 * others, moduli and phases apart, for their scatter differs. Beyond 3, and beyond what the largest of so many reaches by chance
 * once in a hundred series (Bonferroni).
 *
 * @source Belsley, Kuh & Welsch 1980, section 2.1 (from memory)
 */
function readingWarnings({points, options, problem: {rows}, fit}: Fitted): string[] {
  const free = rows.length - fit.at.length;
  if (fit.deviation < EXACT || free < 3) return [];
  const {inverse, scale} = normal(fit);
  const isPhase = rows.map((i, row) => options.model !== "sigmoid" && row > 0 && rows[row - 1] === i);
  const squares = rows.map((_, row) => {
    const slopes = Float64Array.from(fit.columns, (column, j) => column[row] / scale[j]);
    const solved = inverse.solve(slopes);
    const rest = 1 - slopes.reduce((sum, value, j) => sum + value * solved[j], 0);
    return rest > ROUNDING ? fit.residuals[row] ** 2 / rest : 0;
  });
  return rows.flatMap((i, row) => {
    const others = squares.filter((_, other) => other !== row && isPhase[other] === isPhase[row]);
    const degrees = Math.max(1, (others.length * free) / rows.length);
    const limit = Math.max(FAR, tQuantile(1 - CHANCE / (2 * rows.length), degrees));
    const deviations = Math.sqrt(squares[row] / (others.reduce((sum, square) => sum + square, 0) / others.length));
    if (!(deviations > limit)) return [];
    const {temperature, frequency} = points[i];
    const far = deviations < 100 ? deviations.toFixed(1) : "over 100";
    return [
      `Reading ${i + 1} (${temperature} °C, ${frequency} Hz): its ${isPhase[row] ? "phase" : "modulus"} lies ${far} standard ` +
        `deviations ${fit.residuals[row] < 0 ? "above" : "below"} the curve.`,
    ];
  });
}
