/** The linear mixed model that a beam fit solves at each turn: e ≈ J·Δ + Z·β, β = (b, u) normal with covariance D. */
import {type Factored, factored, minimize} from "../statistics/index.ts";
import type {BeamScatter} from "./beamLikelihood.ts";

/** One beam's readings, linearised. */
export interface LinearBeam {
  readonly rows: number;
  readonly residual: Float64Array; // e, the beam's present effects taken out
  readonly J: Float64Array; // [row][parameter]
  readonly Z: Float64Array; // [row][2], by b and by u
  readonly bound: Float64Array; // weight of a row that is a bound; NaN where the scatter decides
  readonly error: Float64Array; // of a length by reading alone [m]
  readonly surface: Uint8Array; // 1: a length of the front from the surface
}

/** What is believed of the parameters beforehand: precision, and pull towards the mean. */
export interface Prior {
  readonly precision: Float64Array;
  readonly pull: Float64Array; // precision × (mean − present value)
}

/** Sums over the beams with each one's covariance V = W⁻¹ + Z·D·Zᵀ, by Woodbury's identity. */
interface Sums {
  readonly information: Float64Array; // Σ JᵀV⁻¹J
  readonly right: Float64Array; // Σ JᵀV⁻¹e
  readonly square: number; // Σ eᵀV⁻¹e
  readonly logV: number; // Σ ln|V|, bounds' weights left out
  readonly beams: readonly BeamSums[];
}

interface BeamSums {
  readonly inverse: readonly [number, number, number]; // of M = D⁻¹ + ZᵀWZ: bb, bu, uu
  readonly logDeterminant: number; // of M
  readonly effects: readonly [number, number]; // ZᵀWe
  readonly byParameter: Float64Array; // ZᵀWJ, [2][parameter]
}

function sums(linear: readonly LinearBeam[], scatter: BeamScatter, {precision, pull}: Prior): Sums {
  const p = precision.length;
  const information = new Float64Array(p * p);
  const right = pull.slice();
  precision.forEach((value, i) => {
    information[i * p + i] += value;
  });
  let square = 0;
  let logV = 0;
  const [db, du] = [scatter.beam ** 2, scatter.upper ** 2];
  const beams = linear.map(({rows, residual, J, Z, bound, error, surface}): BeamSums => {
    let [bb, bu, uu] = [1 / db, 0, 1 / du];
    let [eb, eu] = [0, 0];
    const zj = new Float64Array(2 * p);
    for (let r = 0; r < rows; r++) {
      let w = bound[r];
      if (Number.isNaN(w)) {
        w = 1 / (error[r] ** 2 + (surface[r] ? scatter.surface : scatter.lower) ** 2);
        logV -= Math.log(w);
      }
      const [zb, zu, e] = [w * Z[2 * r], w * Z[2 * r + 1], residual[r]];
      bb += zb * Z[2 * r];
      bu += zb * Z[2 * r + 1];
      uu += zu * Z[2 * r + 1];
      eb += zb * e;
      eu += zu * e;
      square += w * e * e;
      for (let i = 0; i < p; i++) {
        const ji = J[r * p + i];
        if (ji === 0) continue;
        zj[i] += zb * ji;
        zj[p + i] += zu * ji;
        right[i] += w * ji * e;
        for (let j = 0; j < p; j++) information[i * p + j] += w * ji * J[r * p + j];
      }
    }
    const det = bb * uu - bu * bu;
    const inverse = [uu / det, -bu / det, bb / det] as const;
    logV += Math.log(db) + Math.log(du) + Math.log(det);
    const [fb, fu] = times(inverse, eb, eu);
    square -= eb * fb + eu * fu;
    for (let i = 0; i < p; i++) {
      right[i] -= zj[i] * fb + zj[p + i] * fu;
      const [tb, tu] = times(inverse, zj[i], zj[p + i]);
      for (let j = 0; j < p; j++) information[i * p + j] -= tb * zj[j] + tu * zj[p + j];
    }
    return {inverse, logDeterminant: Math.log(det), effects: [eb, eu], byParameter: zj};
  });
  return {information, right, square, logV, beams};
}

function times([bb, bu, uu]: BeamSums["inverse"], x: number, y: number): [number, number] {
  return [bb * x + bu * y, bu * x + uu * y];
}

export interface LinearStep {
  readonly step: Float64Array; // Δ of the parameters
  readonly covariance: Float64Array; // of the parameters, row-major
  readonly effects: readonly (readonly [clock: number, upper: number])[]; // β of each beam after the step
  readonly logDeterminants: readonly number[]; // of D⁻¹ + ZᵀWZ, by beam
}

/**
 * What a parameter must have of its own beside those before it, of its information [–]: derivatives by differences are
 * right to some 1e-5, so two parameters that do the same seem to differ by the square of that.
 */
const TOLD_APART = 1e-8;

/**
 * Generalised least squares and each beam's most likely effects.
 *
 * @throws InputError "domain" when the readings do not tell the parameters
 */
export function linearStep(linear: readonly LinearBeam[], scatter: BeamScatter, prior: Prior): LinearStep {
  const p = prior.precision.length;
  const {information, right, beams} = sums(linear, scatter, prior);
  const matrix: Factored | null = p ? factored(information, p, TOLD_APART) : null;
  const step = matrix ? matrix.solve(right) : new Float64Array(0);
  const effects = beams.map(({inverse, effects: [eb, eu], byParameter}) => {
    for (let i = 0; i < p; i++) {
      eb -= byParameter[i] * step[i];
      eu -= byParameter[p + i] * step[i];
    }
    return times(inverse, eb, eu);
  });
  return {
    step,
    covariance: matrix ? matrix.inverse() : new Float64Array(0),
    effects,
    logDeterminants: beams.map(b => b.logDeterminant),
  };
}

const NAMES = ["beam", "upper", "lower", "surface"] as const;
const SMALLEST: BeamScatter = {beam: 0.02, upper: 0.02, lower: 1e-4, surface: 1e-4};

/** Scatter at which the restricted likelihood of the linear model is largest. */
export function restrictedScatter(linear: readonly LinearBeam[], start: BeamScatter, prior: Prior): BeamScatter {
  const p = prior.precision.length;
  const scatterOf = (x: ArrayLike<number>): BeamScatter => ({
    beam: SMALLEST.beam + Math.exp(x[0]),
    upper: SMALLEST.upper + Math.exp(x[1]),
    lower: SMALLEST.lower + Math.exp(x[2]),
    surface: SMALLEST.surface + Math.exp(x[3]),
  });
  const minus = (x: Float64Array): number => {
    if (x.some(v => v > 3)) return Infinity; // clocks a factor of 20 apart
    const {information, right, square, logV} = sums(linear, scatterOf(x), prior);
    if (p === 0) return 0.5 * (logV + square);
    const matrix = factored(information, p);
    const explained = matrix.solve(right).reduce((sum, s, i) => sum + s * right[i], 0);
    return 0.5 * (logV + square - explained + matrix.logDeterminant);
  };
  const first = Float64Array.from(NAMES, name =>
    Math.log(Math.max(start[name] - SMALLEST[name], 0.05 * SMALLEST[name])),
  );
  const step = new Float64Array(NAMES.length).fill(0.3);
  return scatterOf(minimize(minus, first, step, {tolerance: 1e-4, limit: 400}).at);
}
