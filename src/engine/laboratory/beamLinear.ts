/** The linear mixed model that a beam fit solves at each turn: e ≈ J·Δ + Z·β, β = (b, u, v) normal with covariance D. */
import {InputError} from "../errors.ts";
import {exp, ln} from "../numeric/index.ts";
import {type Factored, factored, minimize} from "../statistics/index.ts";
import type {BeamScatter} from "./beamLikelihood.ts";

/** One beam's readings, linearised. */
export interface LinearBeam {
  readonly rows: number;
  readonly residual: Float64Array; // e, the beam's present effects taken out
  readonly J: Float64Array; // [row][parameter]
  readonly Z: Float64Array; // [row][effect], see EFFECTS
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
  readonly matrix: Factored; // M = D⁻¹ + ZᵀWZ
  readonly effects: Float64Array; // ZᵀWe
  readonly byParameter: Float64Array; // ZᵀWJ, [parameter][effect]
}

/** Effects of a beam, in the order of the columns of Z. */
const EFFECTS = ["beam", "upper", "exponent"] as const;
const Q = EFFECTS.length;

function sums(linear: readonly LinearBeam[], scatter: BeamScatter, {precision, pull}: Prior): Sums {
  const p = precision.length;
  const information = new Float64Array(p * p);
  const right = pull.slice();
  precision.forEach((value, i) => {
    information[i * p + i] += value;
  });
  let square = 0;
  let logV = 0;
  const M = new Float64Array(Q * Q);
  const beams = linear.map(({rows, residual, J, Z, bound, error, surface}): BeamSums => {
    M.fill(0);
    EFFECTS.forEach((name, k) => {
      M[k * Q + k] = 1 / scatter[name] ** 2;
      logV += 2 * ln(scatter[name]);
    });
    const effects = new Float64Array(Q);
    const byParameter = new Float64Array(p * Q);
    for (let r = 0; r < rows; r++) {
      let w = bound[r];
      if (Number.isNaN(w)) {
        w = 1 / (error[r] ** 2 + (surface[r] ? scatter.surface : scatter.lower) ** 2);
        logV -= ln(w);
      }
      const e = residual[r];
      square += w * e * e;
      for (let k = 0; k < Q; k++) {
        const z = w * Z[r * Q + k];
        effects[k] += z * e;
        for (let l = 0; l <= k; l++) M[k * Q + l] += z * Z[r * Q + l];
      }
      for (let i = 0; i < p; i++) {
        const j = w * J[r * p + i];
        if (j === 0) continue;
        for (let k = 0; k < Q; k++) byParameter[i * Q + k] += j * Z[r * Q + k];
        right[i] += j * e;
        for (let l = 0; l < p; l++) information[i * p + l] += j * J[r * p + l];
      }
    }
    const matrix = factored(M, Q);
    logV += matrix.logDeterminant;
    const own = matrix.solve(effects);
    square -= dot(effects, own, 0);
    for (let i = 0; i < p; i++) {
      right[i] -= dot(own, byParameter, i * Q);
      const moved = matrix.solve(byParameter.slice(i * Q, (i + 1) * Q));
      for (let l = 0; l < p; l++) information[i * p + l] -= dot(moved, byParameter, l * Q);
    }
    return {matrix, effects, byParameter};
  });
  return {information, right, square, logV, beams};
}

/** Σₖ aₖ·b[from + k] over the effects. */
function dot(a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let k = 0; k < Q; k++) sum += a[k] * b[from + k];
  return sum;
}

export interface LinearStep {
  readonly step: Float64Array; // Δ of the parameters
  readonly covariance: Float64Array; // of the parameters, row-major
  readonly effects: readonly Float64Array[]; // β of each beam after the step
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
  const matrix: Factored | null = p ? toldApart(information, p) : null;
  const step = matrix ? matrix.solve(right) : new Float64Array(0);
  const effects = beams.map(({matrix: M, effects: own, byParameter}) => {
    const left = own.map((value, k) => step.reduce((sum, d, i) => sum - byParameter[i * Q + k] * d, value));
    return M.solve(left);
  });
  return {
    step,
    covariance: matrix ? matrix.inverse() : new Float64Array(0),
    effects,
    logDeterminants: beams.map(b => b.matrix.logDeterminant),
  };
}

function toldApart(information: Float64Array, p: number): Factored {
  try {
    return factored(information, p, TOLD_APART);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(
      "domain",
      "readings",
      `${p} numbers of growth laws that they do not tell apart`,
      "beams at other strains, or something believed of exponents beforehand (the information is not positive definite)",
    );
  }
}

const NAMES = [...EFFECTS, "lower", "surface"] as const;
const SMALLEST: BeamScatter = {beam: 0.02, upper: 0.02, exponent: 0.01, lower: 1e-4, surface: 1e-4};
const LARGEST: BeamScatter = {beam: 20, upper: 20, exponent: 3, lower: 10, surface: 10};

/**
 * Where the belief about the deviation of exponents, Gamma of shape 2, is largest. Few beams often tell none of it; taken as
 * none, intervals of n would be too narrow. Of the size of what 68 specimens of one sheet showed, 0.165.
 *
 * @source boundary-avoiding priors of shape 2: Chung & al. 2013, doi:10.1007/s11336-013-9328-2 (from memory);
 *   0.165: Virkler & al. 1978
 */
const EXPONENT_DEVIATION = 0.2;

/** Scatter at which the restricted likelihood of the linear model is largest, with what is believed of the exponents'. */
export function restrictedScatter(linear: readonly LinearBeam[], start: BeamScatter, prior: Prior): BeamScatter {
  const p = prior.precision.length;
  const scatterOf = (x: ArrayLike<number>): BeamScatter =>
    Object.fromEntries(NAMES.map((name, k) => [name, SMALLEST[name] + exp(x[k])])) as unknown as BeamScatter;
  const minus = (x: Float64Array): number => {
    if (NAMES.some((name, k) => exp(x[k]) > LARGEST[name])) return Infinity;
    const {information, right, square, logV} = sums(linear, scatterOf(x), prior);
    const {exponent} = scatterOf(x);
    const believed = ln(exponent) - exponent / EXPONENT_DEVIATION;
    if (p === 0) return 0.5 * (logV + square) - believed;
    const matrix = factored(information, p);
    const explained = matrix.solve(right).reduce((sum, s, i) => sum + s * right[i], 0);
    return 0.5 * (logV + square - explained + matrix.logDeterminant) - believed;
  };
  const first = Float64Array.from(NAMES, name => ln(Math.max(start[name] - SMALLEST[name], 0.05 * SMALLEST[name])));
  return scatterOf(minimize(minus, first, {tolerance: 1e-6}).at);
}
