import {InputError} from "../errors.ts";
import {monotoneSlope} from "../numeric/index.ts";

/** A curve through points, without an extremum between two of them. */
export interface Curve {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/**
 * Piecewise cubic through points. Slopes there that are not known are weighted harmonic means of the secants beside, zero
 * where these differ in sign; known ones are bounded by three times the secants, which keeps the curve monotone. Beyond the
 * ends it goes on straight.
 *
 * @param x      ascending, at least two; with known slopes a kink is two points in one place
 * @param known  slopes at the points
 * @source Fritsch & Butland 1984, doi:10.1137/0905021; the bound: Fritsch & Carlson 1980, doi:10.1137/0717021
 */
export function monotoneCurve(x: Float64Array, y: Float64Array, known?: Float64Array): Curve {
  const n = x.length;
  if (n < 2 || y.length !== n) throw new InputError("shape", "x.length", n, `≥ 2, as many as y has, ${y.length}`);
  const slopes = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const left = k > 0 ? (y[k] - y[k - 1]) / (x[k] - x[k - 1]) : Number.NaN;
    const right = k + 1 < n ? (y[k + 1] - y[k]) / (x[k + 1] - x[k]) : Number.NaN;
    if (known) slopes[k] = bounded(known[k], left, right);
    else if (k === 0) slopes[k] = right;
    else if (k + 1 === n) slopes[k] = left;
    else slopes[k] = monotoneSlope(left, x[k] - x[k - 1], right, x[k + 1] - x[k]);
  }
  /** Interval that x lies in, by bisection. */
  const intervalOf = (at: number): number => {
    let [low, high] = [0, n - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (x[middle] <= at) low = middle;
      else high = middle;
    }
    return low;
  };
  const value = (at: number): number => {
    if (at <= x[0]) return y[0] + slopes[0] * (at - x[0]);
    if (at >= x[n - 1]) return y[n - 1] + slopes[n - 1] * (at - x[n - 1]);
    const k = intervalOf(at);
    const h = x[k + 1] - x[k];
    const t = (at - x[k]) / h;
    const u = 1 - t;
    return (
      y[k] * u * u * (1 + 2 * t) + y[k + 1] * t * t * (1 + 2 * u) + h * t * u * (slopes[k] * u - slopes[k + 1] * t)
    );
  };
  const slope = (at: number): number => {
    if (at <= x[0]) return slopes[0];
    if (at >= x[n - 1]) return slopes[n - 1];
    const k = intervalOf(at);
    const h = x[k + 1] - x[k];
    const t = (at - x[k]) / h;
    const secant = (y[k + 1] - y[k]) / h;
    return 6 * secant * t * (1 - t) + slopes[k] * (1 - t) * (1 - 3 * t) + slopes[k + 1] * t * (3 * t - 2);
  };
  return {value, slope};
}

/** A secant that is none, at an end or within a kink, does not bound. */
function bounded(slope: number, ...secants: readonly number[]): number {
  const beside = secants.filter(Number.isFinite);
  const least = Math.min(...beside);
  const most = Math.max(...beside);
  return least > 0 ? Math.min(3 * least, Math.max(0, slope)) : most < 0 ? Math.max(3 * most, Math.min(0, slope)) : 0;
}
