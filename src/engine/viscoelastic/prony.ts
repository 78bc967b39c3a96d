import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {modulusOf} from "./modulus.ts";
import {nonNegativeLeastSquares} from "./nonNegative.ts";
import {shiftFactor} from "./shift.ts";
import type {ComplexModulus, MasterCurve} from "./types.ts";

export interface PronyTerm {
  readonly time: number; // relaxation time at the reference temperature [s]
  readonly modulus: number; // [Pa], > 0
}

/** E(t) = E_∞ + Σ E_i·exp(−t/τ_i). */
export interface RelaxationSeries {
  readonly equilibriumModulus: number; // E_∞ [Pa], ≥ 0
  readonly terms: readonly PronyTerm[]; // by rising time
}

export interface PronySeries extends RelaxationSeries {
  readonly range: readonly [number, number]; // times that it was fitted for, at the reference temperature [s]
  /** |E*_series − E*|/|E*| over that range, ω from 1/longest to 1/shortest time [–]. */
  readonly residual: {readonly worst: number; readonly rms: number};
}

/** A complex modulus at an angular frequency. */
export interface ModulusReading extends ComplexModulus {
  readonly omega: number; // ω [rad/s]
}

const RANGE = [1e-10, 1e11] as const; // [s]
const BEYOND = 2; // decades of relaxation times beyond either end: their terms still act within
const TERMS_A_DECADE = 2; // one leaves ripples of 5 % in E'', two of 0.1 %
const READINGS_A_DECADE = 4;

/**
 * Prony series of a master curve at its reference temperature, from E' and E'' at four frequencies a decade. Relaxation times
 * are two a decade. The range of 1e-10 to 1e11 s holds a wheel in frost and a season in the heat alike; far beyond the measured
 * range it is the model that speaks.
 *
 * @throws InputError "domain" for a sigmoid steeper than a liquid, α·γ ≥ 4, which no series follows
 */
export function pronySeries({model}: Pick<MasterCurve, "model">): PronySeries {
  if (model.kind === "sigmoid" && !(model.span * model.slope < 4)) {
    const need = "α·γ < 4: |E*| cannot rise faster than frequency";
    throw new InputError("domain", "model.slope", model.slope, need);
  }
  const [shortest, longest] = RANGE;
  const times = spaced(shortest / 10 ** BEYOND, longest * 10 ** BEYOND, TERMS_A_DECADE);
  const readings = spaced(1 / longest, 1 / shortest, READINGS_A_DECADE).map(omega => ({
    omega,
    ...modulusOf(model, omega / (2 * Math.PI)),
  }));
  return pronyThrough(readings, times);
}

/**
 * Prony series through readings:
 *
 *   E'(ω) = E_∞ + Σ E_i·ω²τ_i²/(1 + ω²τ_i²)    E''(ω) = Σ E_i·ωτ_i/(1 + ω²τ_i²)
 *
 * with E_∞ and E_i ≥ 0 by least squares of |E*_series − E*|/|E*|.
 *
 * @param readings  E' and E'' ≥ 0, not both 0
 * @param times     τ_i [s], rising
 * @source Lawson & Hanson 1974; terms: Ferry 1980, chapter 3 (from memory)
 */
export function pronyThrough(readings: readonly ModulusReading[], times: readonly number[]): PronySeries {
  readings.forEach(({omega, storage, loss}, k) => {
    requirePositive(`readings[${k}].omega`, omega, "rad/s");
    requireNonNegative(`readings[${k}].storage`, storage, "Pa");
    requireNonNegative(`readings[${k}].loss`, loss, "Pa");
    requirePositive(`readings[${k}]: |E*|`, Math.hypot(storage, loss), "Pa");
  });
  /** E' and E'' at each reading, over |E*| of that reading. */
  const relative = (of: (reading: ModulusReading) => ComplexModulus): Float64Array =>
    Float64Array.from(
      readings.flatMap(reading => {
        const norm = Math.hypot(reading.storage, reading.loss);
        const {storage, loss} = of(reading);
        return [storage / norm, loss / norm];
      }),
    );
  const columns = [
    relative(() => ({storage: 1, loss: 0})),
    ...times.map(time => relative(({omega}) => maxwell({time, modulus: 1}, omega))),
  ];
  const norms = columns.map(column => Math.hypot(...column));
  const scaled = columns.map((column, j) => column.map(value => value / norms[j]));
  const x = nonNegativeLeastSquares({columns: scaled, right: relative(reading => reading)});
  const [equilibriumModulus, ...moduli] = Array.from(x, (value, j) => value / norms[j]);
  const terms = times.map((time, i) => ({time, modulus: moduli[i]})).filter(term => term.modulus > 0);
  const series = {equilibriumModulus, terms};
  const omegas = readings.map(({omega}) => omega);
  const range = [1 / Math.max(...omegas), 1 / Math.min(...omegas)] as const;
  return {...series, range, residual: residualOf(series, readings)};
}

/** Storage and loss modulus of a series at an angular frequency [rad/s] at the reference temperature. */
export function pronyModulus(series: RelaxationSeries, omega: number): ComplexModulus {
  let storage = series.equilibriumModulus;
  let loss = 0;
  for (const term of series.terms) {
    const one = maxwell(term, omega);
    storage += one.storage;
    loss += one.loss;
  }
  return {storage, loss};
}

/** E(t) [Pa] at the reference temperature. @param time [s], ≥ 0 */
export function relaxationModulus(series: RelaxationSeries, time: number): number {
  requireNonNegative("time", time, "s");
  let sum = series.equilibriumModulus;
  for (const term of series.terms) sum += term.modulus * Math.exp(-time / term.time);
  return sum;
}

/** E(t) [Pa] at any temperature: that of the reference temperature at t/a_T. */
export function relaxationModulusAt(
  curve: MasterCurve,
  series: RelaxationSeries,
  {time, temperature}: {readonly time: number; readonly temperature: number}, // [s], [°C]
): number {
  requireNonNegative("time", time, "s");
  return relaxationModulus(series, time / 10 ** shiftFactor(curve, temperature));
}

/** A spring and a dashpot in series. */
function maxwell({time, modulus}: PronyTerm, omega: number): ComplexModulus {
  const angle = omega * time;
  const loss = modulus / (angle + 1 / angle);
  return {storage: loss * angle, loss};
}

function residualOf(series: RelaxationSeries, readings: readonly ModulusReading[]): PronySeries["residual"] {
  const errors = readings.map(({omega, storage, loss}) => {
    const got = pronyModulus(series, omega);
    return Math.hypot(got.storage - storage, got.loss - loss) / Math.hypot(storage, loss);
  });
  return {worst: Math.max(...errors), rms: Math.hypot(...errors) / Math.sqrt(errors.length)};
}

/** From first to last, equally spaced in the logarithm. */
function spaced(first: number, last: number, perDecade: number): number[] {
  const from = Math.log10(first);
  const steps = Math.round((Math.log10(last) - from) * perDecade);
  return Array.from({length: steps + 1}, (_, k) => 10 ** (from + k / perDecade));
}
