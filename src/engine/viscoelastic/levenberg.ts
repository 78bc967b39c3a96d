import {InputError} from "../errors.ts";
import {leastSquares} from "./nonNegative.ts";

/** Residuals at an unknown u, always equally many. */
export type Residuals = (u: Float64Array) => Float64Array;

export interface LeastSquaresFit {
  readonly at: Float64Array;
  readonly residuals: Float64Array;
  readonly columns: readonly Float64Array[]; // ∂residuals/∂u_j
  readonly squares: number; // Σ residual²
  readonly iterations: number;
}

const DIFFERENCE = 1e-6; // of an unknown, for the slope
const FALL = 1e-6; // relative fall of the sum of squares that is none
const ROUNDING = 1e-13; // root mean square residual that is rounding [–]
const FIRST_DAMPING = 1e-2;
const LOWEST_DAMPING = 1e-12;
const HIGHEST_DAMPING = 1e10;
const LONGEST = 3; // step in any unknown

/**
 * Least sum of squares by the method of Levenberg and Marquardt: the step solves min ‖J·s + r‖² + λ·‖D·s‖², D the largest norm
 * that each column of J has had; λ falls after a step that gains and rises after one that does not. Slopes by forward
 * differences. Unknowns should be of order one. Deterministic.
 *
 * @param limit  iterations; a start is only tried when `mayStop`
 * @throws InputError "convergence" when the limit is reached and the fit may not stop there
 * @source Marquardt 1963; scaling: Moré 1978 (both from memory)
 */
export function levenbergMarquardt(
  residualsAt: Residuals,
  start: Float64Array,
  {limit, mayStop = false, path}: {readonly limit: number; readonly mayStop?: boolean; readonly path: string},
): LeastSquaresFit {
  let at = start.slice();
  let residuals = residualsAt(at);
  let squares = sumOfSquares(residuals);
  let columns = slopes(residualsAt, at, residuals);
  const scale = columns.map(() => 0);
  let damping = FIRST_DAMPING;
  let rise = 2;
  for (let iteration = 1; iteration <= limit; iteration++) {
    columns.forEach((column, j) => {
      scale[j] = Math.max(scale[j], Math.sqrt(sumOfSquares(column)), 1e-12);
    });
    const damped = scale.map(value => value * Math.sqrt(damping));
    const whole = dampedStep(columns, residuals, damped);
    const part = Math.min(1, LONGEST / Math.max(...whole.map(Math.abs)));
    const step = whole.map(value => part * value);
    const foretold = squares - sumOfSquares(moved(columns, residuals, step));
    // Heavy damping makes every step promise little: only a light one can tell that there is nothing left to gain.
    const nothingLeft = foretold < FALL * squares && damping < 1;
    if (nothingLeft || squares < ROUNDING ** 2 * residuals.length || damping > HIGHEST_DAMPING)
      return {at, residuals, columns, squares, iterations: iteration};
    const next = at.map((value, j) => value + step[j]);
    const nextResiduals = residualsAt(next);
    const nextSquares = sumOfSquares(nextResiduals);
    const gain = (squares - nextSquares) / foretold;
    if (!(gain > 1e-4)) {
      damping *= rise;
      rise *= 2;
      continue;
    }
    damping = Math.max(damping * Math.max(1 / 5, 1 - (2 * gain - 1) ** 3), LOWEST_DAMPING);
    rise = 2;
    [at, residuals, squares] = [next, nextResiduals, nextSquares];
    columns = slopes(residualsAt, at, residuals);
  }
  if (mayStop) return {at, residuals, columns, squares, iterations: limit};
  const rms = Math.sqrt(squares / residuals.length).toPrecision(3);
  const got = `a root mean square residual of ${rms} that still falls`;
  throw new InputError("convergence", path, got, `an end within ${limit} iterations`);
}

/** Least squares of J·s + r and damping·s. */
function dampedStep(
  columns: readonly Float64Array[],
  residuals: Float64Array,
  damping: readonly number[],
): Float64Array {
  const rows = residuals.length;
  const n = columns.length;
  const right = new Float64Array(rows + n);
  for (let i = 0; i < rows; i++) right[i] = -residuals[i];
  const extended = columns.map((column, j) => {
    const out = new Float64Array(rows + n);
    out.set(column);
    out[rows + j] = damping[j];
    return out;
  });
  return leastSquares(extended, right);
}

/** r + J·s */
function moved(columns: readonly Float64Array[], residuals: Float64Array, step: Float64Array): Float64Array {
  return residuals.map((r, i) => columns.reduce((sum, column, j) => sum + column[i] * step[j], r));
}

/** ∂residuals/∂u_j */
function slopes(residualsAt: Residuals, at: Float64Array, residuals: Float64Array): Float64Array[] {
  return Array.from(at, (value, j) => {
    const beside = at.slice();
    beside[j] = value + DIFFERENCE;
    const actual = beside[j] - value; // as it is after rounding
    return residualsAt(beside).map((r, i) => (r - residuals[i]) / actual);
  });
}

export function sumOfSquares(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] * values[i];
  return sum;
}
