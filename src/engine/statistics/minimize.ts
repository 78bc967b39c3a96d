/** What a search ended with. */
export interface Minimum {
  readonly at: Float64Array;
  readonly value: number;
  readonly evaluations: number;
  readonly converged: boolean; // no step promises to gain more than the tolerance
}

const DIFFERENCE = 1e-4; // of a variable to either side, for the slope
const SUFFICIENT = 1e-4; // of the fall that the slope foretells (Armijo)
const SMALLEST_PART = 1e-6; // of a step

/**
 * Least value of a smooth function of a handful of variables by the quasi-Newton method BFGS, slopes by central differences.
 * Where the function is not a number or infinite no step ends. Deterministic.
 *
 * @param start      kept
 * @param longest    step in any variable
 * @param tolerance  fall of the function that a step must promise
 * @source Nocedal & Wright, Numerical Optimization, 2nd ed. 2006, algorithm 6.1 (from memory)
 */
export function minimize(
  f: (x: Float64Array) => number,
  start: Float64Array,
  {
    longest = 1,
    tolerance = 1e-8,
    limit = 2000,
  }: {
    readonly longest?: number;
    readonly tolerance?: number;
    readonly limit?: number; // evaluations
  } = {},
): Minimum {
  const n = start.length;
  let evaluations = 0;
  const valueAt = (x: Float64Array): number => {
    evaluations++;
    const value = f(x);
    return Number.isNaN(value) ? Infinity : value;
  };
  const slopeAt = (x: Float64Array, value: number): Float64Array =>
    x.map((_, k) => {
      const moved = (d: number): number => valueAt(x.map((v, j) => (j === k ? v + d : v)));
      const [above, below] = [moved(DIFFERENCE), moved(-DIFFERENCE)];
      if (above < Infinity && below < Infinity) return (above - below) / (2 * DIFFERENCE);
      return above < Infinity ? (above - value) / DIFFERENCE : (value - below) / DIFFERENCE;
    });
  let x = start.slice();
  let value = valueAt(x);
  let slope = slopeAt(x, value);
  let inverse = identity(n); // of the curvature
  let fresh = true;
  while (evaluations < limit) {
    const step = slope.map((_, i) => -slope.reduce((sum, g, j) => sum + inverse[i * n + j] * g, 0));
    const descent = dot(step, slope);
    if (!(descent < 0)) {
      if (fresh) return {at: x, value, evaluations, converged: true};
      inverse = identity(n);
      fresh = true;
      continue;
    }
    // A quadratic with this curvature would fall by half of it.
    if (!fresh && -0.5 * descent < tolerance) return {at: x, value, evaluations, converged: true};
    let part = Math.min(1, longest / Math.max(...step.map(Math.abs)));
    let next = x.map((v, k) => v + part * step[k]);
    let nextValue = valueAt(next);
    while (nextValue > value + SUFFICIENT * part * descent && part > SMALLEST_PART) {
      part /= 2;
      next = x.map((v, k) => v + part * step[k]);
      nextValue = valueAt(next);
    }
    if (!(nextValue < value)) {
      if (fresh) return {at: x, value, evaluations, converged: true};
      inverse = identity(n);
      fresh = true;
      continue;
    }
    const nextSlope = slopeAt(next, nextValue);
    update(
      inverse,
      next.map((v, k) => v - x[k]),
      nextSlope.map((g, k) => g - slope[k]),
    );
    fresh = false;
    [x, value, slope] = [next, nextValue, nextSlope];
  }
  return {at: x, value, evaluations, converged: false};
}

/** The inverse curvature with what a step showed: (I − ρ·s·yᵀ)·H·(I − ρ·y·sᵀ) + ρ·s·sᵀ, ρ = 1/yᵀs; left where yᵀs ≤ 0. */
function update(inverse: Float64Array, s: Float64Array, y: Float64Array): void {
  const n = s.length;
  const ys = dot(y, s);
  if (!(ys > 1e-12 * Math.sqrt(dot(y, y) * dot(s, s)))) return;
  const Hy = s.map((_, i) => y.reduce((sum, v, j) => sum + inverse[i * n + j] * v, 0));
  const yHy = dot(y, Hy);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) inverse[i * n + j] += ((1 + yHy / ys) * s[i] * s[j] - Hy[i] * s[j] - s[i] * Hy[j]) / ys;
}

function identity(n: number): Float64Array {
  return Float64Array.from({length: n * n}, (_, k) => (k % (n + 1) === 0 ? 1 : 0));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
}
