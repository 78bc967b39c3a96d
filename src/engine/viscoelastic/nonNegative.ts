import {InputError} from "../errors.ts";

/** A least-squares problem min ‖A·x − b‖. */
export interface LeastSquares {
  readonly columns: readonly Float64Array[]; // of A, each as long as b
  readonly right: Float64Array; // b
}

/** Of the largest slope that a zero unknown may have and still stay zero [–]. */
const TOLERANCE = 1e-12;

/**
 * min ‖A·x − b‖ with x ≥ 0: unknowns are freed one by one, that with the steepest fall first, and those that would turn
 * negative are held at zero again.
 *
 * @throws InputError "convergence" after 10 steps for each unknown
 * @source Lawson & Hanson 1974, Solving Least Squares Problems, algorithm 23.10 (from memory)
 */
export function nonNegativeLeastSquares(problem: LeastSquares): Float64Array {
  const {columns, right} = reduced(problem);
  const n = columns.length;
  const x = new Float64Array(n);
  const free: number[] = [];
  const largest = Math.max(...columns.map(column => Math.abs(dot(column, right))));
  for (let step = 0; step < 10 * n; step++) {
    const slope = slopes(columns, residual(columns, right, x));
    let next = -1;
    for (let j = 0; j < n; j++)
      if (!free.includes(j) && slope[j] > TOLERANCE * largest && (next < 0 || slope[j] > slope[next])) next = j;
    if (next < 0) return x;
    free.push(next);
    // Freed by its slope but not growing: rounding speaks. What is left is as good as zero.
    if (!advance({columns, right}, free, x)) return x;
  }
  throw new InputError("convergence", "nonNegativeLeastSquares", 10 * n, "a solution within so many steps");
}

/**
 * Moves x towards the least squares of the free unknowns until all of them are positive there; each that reaches zero on the way
 * is held.
 *
 * @param free  overwritten
 * @param x     overwritten
 * @returns false when the last freed one would not grow
 */
function advance({columns, right}: LeastSquares, free: number[], x: Float64Array): boolean {
  const aim = (): Float64Array =>
    leastSquares(
      free.map(j => columns[j]),
      right,
    );
  let target = aim();
  if (!(target[free.length - 1] > 0)) {
    free.pop();
    return false;
  }
  while (target.some(value => value <= 0)) {
    const parts = free.map((j, k) => (target[k] <= 0 ? x[j] / (x[j] - target[k]) : Infinity));
    const part = Math.min(...parts);
    free.forEach((j, k) => {
      x[j] = parts[k] === part ? 0 : x[j] + part * (target[k] - x[j]);
    });
    const still = free.filter((_, k) => parts[k] !== part);
    free.splice(0, free.length, ...still);
    target = aim();
  }
  free.forEach((j, k) => {
    x[j] = target[k];
  });
  return true;
}

/** The same problem with as many rows as columns, A = Q·R and b = Qᵀ·b: every solution costs less. */
function reduced({columns, right}: LeastSquares): LeastSquares {
  const n = columns.length;
  if (right.length <= n) return {columns, right};
  const all = [...columns.map(column => column.slice()), right.slice()];
  triangular(all, n);
  return {columns: all.slice(0, n).map(column => column.slice(0, n)), right: all[n].slice(0, n)};
}

/** x of min ‖A·x − b‖ by Householder reflections. */
export function leastSquares(columns: readonly Float64Array[], right: Float64Array): Float64Array {
  const n = columns.length;
  const all = [...columns.map(column => column.slice()), right.slice()];
  triangular(all, n);
  const x = all[n].slice(0, n);
  for (let j = n - 1; j >= 0; j--) {
    x[j] /= all[j][j];
    for (let i = 0; i < j; i++) x[i] -= all[j][i] * x[j];
  }
  return x;
}

/** Turns the first n columns into an upper triangle and applies the same to the others. @param columns overwritten */
function triangular(columns: readonly Float64Array[], n: number): void {
  const rows = columns[0].length;
  for (let j = 0; j < n; j++) {
    const v = columns[j].slice();
    v.fill(0, 0, j);
    const norm = Math.sqrt(dot(v, v));
    if (norm === 0) continue;
    v[j] += v[j] > 0 ? norm : -norm;
    const square = dot(v, v);
    for (let c = j; c < columns.length; c++) {
      const factor = (2 * dot(v, columns[c])) / square;
      for (let i = j; i < rows; i++) columns[c][i] -= factor * v[i];
    }
  }
}

function residual(columns: readonly Float64Array[], right: Float64Array, x: Float64Array): Float64Array {
  const out = right.slice();
  columns.forEach((column, j) => {
    if (x[j] !== 0) for (let i = 0; i < out.length; i++) out[i] -= column[i] * x[j];
  });
  return out;
}

function slopes(columns: readonly Float64Array[], r: Float64Array): Float64Array {
  return Float64Array.from(columns, column => dot(column, r));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
