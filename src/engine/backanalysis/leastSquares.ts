import {factored} from "../statistics/index.ts";

/** Sum of squares of n residuals of p variables, each between bounds. */
export interface LeastSquares {
  readonly residuals: (x: Float64Array) => Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export interface LeastSquaresFit {
  readonly at: Float64Array;
  readonly value: number; // Σf²
  readonly jacobian: Float64Array; // ∂f/∂x, [residual][variable]
  readonly held: readonly boolean[]; // at a bound, beyond which the sum would still fall
  readonly evaluations: number;
  readonly converged: boolean;
}

/** Step of a variable for the slopes: of ln E, relative error 1e-6 by curvature, 1e-8 by rounding. */
const DIFFERENCE = 1e-6;
const LONGEST = 1.5; // step in any variable: a factor of 4.5 in a modulus
const SMALLEST = 1e-7; // step at which it ends
const NO_GAIN = 1e-10; // fall of the sum, relative, of a step at which it ends when that is short
const SHORT = 1e-2; // step in any variable
const FIRST_DAMPING = 1e-2;
const LEAST_DAMPING = 1e-8;
const MOST_DAMPING = 1e10; // no downward step is left
const LIMIT = 100; // steps tried

/**
 * Least squares by Gauss and Newton, damped after Levenberg and Marquardt, slopes by differences:
 *
 *   (JᵀJ + λ·diag JᵀJ)·δ = −Jᵀf
 *
 * λ follows the gain over the one promised (Nielsen 1999). A variable at its bound is held there while the sum would fall beyond it. Deterministic.
 *
 * @param enough  ends the search, which then has not converged
 * @source Marquardt 1963, J. SIAM 11, 431–441 (from memory); Nielsen 1999, IMM-REP-1999-05 (from memory)
 */
export function leastSquares(
  {residuals, low, high}: LeastSquares,
  start: Float64Array,
  enough: (x: Float64Array) => boolean = () => false,
): LeastSquaresFit {
  const p = start.length;
  let evaluations = 0;
  const f = (x: Float64Array): Float64Array => {
    evaluations++;
    return residuals(x);
  };
  let x = start.map((v, k) => Math.min(high[k], Math.max(low[k], v)));
  let values = f(x);
  let jacobian = slopes(f, x, values);
  let {normal, gradient} = normalEquations(jacobian, values, p);
  let held = heldAt(x, gradient, {low, high});
  let damping = FIRST_DAMPING;
  let converged = false;
  for (let tried = 0; tried < LIMIT && !converged && !enough(x); tried++) {
    const step = dampedStep(normal, gradient, held, damping);
    const next = x.map((v, k) => Math.min(high[k], Math.max(low[k], v + step[k])));
    const moved = next.reduce((most, v, k) => Math.max(most, Math.abs(v - x[k])), 0);
    if (moved < SMALLEST) {
      converged = true;
      break;
    }
    const promised = promise(
      normal,
      gradient,
      next.map((v, k) => v - x[k]),
    );
    const nextValues = f(next);
    const before = sumOfSquares(values);
    const gain = before - sumOfSquares(nextValues);
    if (gain > 0) {
      // A step that gains less than promised goes too far: without damping it would swing to and fro along a valley.
      damping = Math.max(LEAST_DAMPING, damping * Math.max(1 / 10, 1 - (2 * (gain / promised) - 1) ** 3));
      [x, values] = [next, nextValues];
      jacobian = slopes(f, x, values);
      ({normal, gradient} = normalEquations(jacobian, values, p));
      held = heldAt(x, gradient, {low, high});
      converged = gain < NO_GAIN * before && moved < SHORT;
    } else {
      damping *= 10;
      converged = damping > MOST_DAMPING;
    }
  }
  return {at: x, value: sumOfSquares(values), jacobian, held, evaluations, converged};
}

export function sumOfSquares(values: Float64Array): number {
  return values.reduce((sum, v) => sum + v * v, 0);
}

function slopes(f: (x: Float64Array) => Float64Array, x: Float64Array, values: Float64Array): Float64Array {
  const p = x.length;
  const columns = Array.from(x, (_, k) => f(x.map((v, j) => (j === k ? v + DIFFERENCE : v))));
  return Float64Array.from({length: values.length * p}, (_, i) => {
    const row = Math.floor(i / p);
    return (columns[i % p][row] - values[row]) / DIFFERENCE;
  });
}

/** JᵀJ, row-major, and Jᵀf. */
export function normalEquations(
  jacobian: Float64Array,
  values: Float64Array,
  p: number,
): {readonly normal: Float64Array; readonly gradient: Float64Array} {
  const normal = new Float64Array(p * p);
  const gradient = new Float64Array(p);
  for (let i = 0; i < values.length; i++)
    for (let k = 0; k < p; k++) {
      const slope = jacobian[i * p + k];
      gradient[k] += slope * values[i];
      for (let j = 0; j < p; j++) normal[k * p + j] += slope * jacobian[i * p + j];
    }
  return {normal, gradient};
}

/** Fall of the sum that a step promises when the residuals are linear. */
function promise(normal: Float64Array, gradient: Float64Array, step: Float64Array): number {
  const p = step.length;
  return -step.reduce(
    (sum, d, k) => sum + d * (2 * gradient[k] + step.reduce((own, e, j) => own + normal[k * p + j] * e, 0)),
    0,
  );
}

function heldAt(
  x: Float64Array,
  gradient: Float64Array,
  {low, high}: Pick<LeastSquares, "low" | "high">,
): readonly boolean[] {
  return Array.from(x, (v, k) => (v <= low[k] && gradient[k] > 0) || (v >= high[k] && gradient[k] < 0));
}

/** The step of the variables that are free; the others have none. */
function dampedStep(
  normal: Float64Array,
  gradient: Float64Array,
  held: readonly boolean[],
  damping: number,
): Float64Array {
  const p = gradient.length;
  const free = held.flatMap((h, k) => (h ? [] : [k]));
  const step = new Float64Array(p);
  if (free.length === 0) return step;
  const largest = Math.max(...free.map(k => normal[k * p + k]));
  const A = Float64Array.from({length: free.length ** 2}, (_, i) => {
    const [r, c] = [free[Math.floor(i / free.length)], free[i % free.length]];
    // A variable that nothing depends on still has a diagonal.
    return normal[r * p + c] + (r === c ? damping * Math.max(normal[r * p + r], 1e-12 * largest) : 0);
  });
  const found = factored(A, free.length, 0).solve(Float64Array.from(free, k => -gradient[k]));
  const longest = found.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  free.forEach((k, i) => {
    step[k] = found[i] * Math.min(1, LONGEST / longest);
  });
  return step;
}
