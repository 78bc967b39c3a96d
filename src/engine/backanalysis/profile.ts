import {type LeastSquares, type LeastSquaresFit, leastSquares} from "./leastSquares.ts";

/** Where the profile of one variable reaches the limit. */
export interface ProfileEnd {
  readonly at: number | null; // null: still below the limit at the variable's bound
  readonly fit: LeastSquaresFit; // the other variables fitted anew there
}

const CLOSE = 0.03; // of the rise to the limit: about half of it in the distance
const NARROW = 1e-4; // distance below which the sum is a parabola [–]
const LIMIT = 16; // refits
const FIRST = 0.3; // distance tried when the slopes tell none

/**
 * Goes from the minimum to one side until the sum of squares, all other variables fitted anew, has risen to a limit. Where
 * the model is linear that is the interval by the Jacobian; where a bowl hardly tells a modulus it is the honest one.
 *
 * @param distance  by the Jacobian; NaN when it tells none
 * @param limit     of the sum
 * @source Bates & Watts 1988, Nonlinear Regression Analysis, 6.1 (from memory)
 */
export function profileEnd(
  problem: LeastSquares,
  best: LeastSquaresFit,
  {variable, side, distance, limit}: {variable: number; side: -1 | 1; distance: number; limit: number},
): ProfileEnd {
  const reach = Math.abs((side > 0 ? problem.high : problem.low)[variable] - best.at[variable]);
  if (reach === 0) return {at: null, fit: best};
  if (distance < NARROW) return {at: best.at[variable] + side * Math.min(distance, reach), fit: best};
  const refit = (away: number, from: Float64Array): LeastSquaresFit => {
    const set = (x: Float64Array): Float64Array =>
      x.map((v, k) => (k === variable ? best.at[variable] + side * away : v));
    const {residuals, low, high} = problem;
    return leastSquares({residuals, low: set(low), high: set(high)}, set(from));
  };
  let inside = {away: 0, fit: best};
  let outside = Infinity;
  let away = Math.min(reach, distance > 0 ? distance : FIRST);
  const rise = limit - best.value;
  for (let tried = 0; tried < LIMIT; tried++) {
    const fit = refit(away, inside.fit.at);
    const own = fit.value - best.value;
    if (Math.abs(own - rise) <= CLOSE * rise) return {at: best.at[variable] + side * away, fit};
    if (own <= rise) inside = {away, fit};
    else outside = away;
    if (inside.away === reach) return {at: null, fit: inside.fit};
    const parabola = own > 0 ? away * Math.sqrt(rise / own) : 2 * away;
    const next = Math.min(reach, 2 * away, parabola);
    // The parabola while it stays between what is known; else half-way.
    const between = next > inside.away && next < outside;
    away = between ? next : (inside.away + Math.min(outside, reach)) / 2;
  }
  return {at: best.at[variable] + side * inside.away, fit: inside.fit};
}
