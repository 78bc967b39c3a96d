import {knowledgeOf, shiftFamily, shiftStart} from "./fitModels.ts";
import {type Problem, unknownsOf} from "./fitProblem.ts";
import type {FitOptions} from "./fitTypes.ts";
import {sumOfSquares} from "./levenberg.ts";
import {leastSquares} from "./nonNegative.ts";
import {shiftFactor} from "./shift.ts";
import type {ComplexModulusPoint} from "./types.ts";

const TYPICAL_RATE = 0.12; // fall of lg a_T at the reference temperature [1/K], from memory
const TYPICAL_SLOPE = 0.5; // γ [–], from memory

/**
 * Between two guessed shelves the sigmoid is a plane in lg f and T: ln(s/(1 − s)) = −β + γ·lg f − γ·rate·(T − T_r), s the part of
 * the way up. Its least squares give β, γ and the rate of the shift at once.
 */
export function sigmoidStarts(points: readonly ComplexModulusPoint[], options: FitOptions): number[][] {
  const {referenceTemperature} = options;
  const shifts = shiftFamily(points, options);
  const told = knowledgeOf(points, options.shift) !== "nothing";
  const typical = {shift: shifts.make(shiftStart(options, shifts, TYPICAL_RATE)), referenceTemperature};
  const lgs = points.map(point => Math.log10(point.modulus));
  const columns = [
    points.map(() => 1),
    points.map(point => Math.log10(point.frequency) + (told ? 0 : shiftFactor(typical, point.temperature))),
    ...(told ? [points.map(point => referenceTemperature - point.temperature)] : []),
  ].map(column => Float64Array.from(column));
  const shelves = [0.1, 0.5, 1.5].flatMap(below => [0.1, 0.5].map(above => [below, above]));
  return shelves.map(([below, above]) => {
    const [lowest, highest] = [Math.min(...lgs) - below, Math.max(...lgs) + above];
    const logit = Float64Array.from(lgs, lg => Math.log((lg - lowest) / (highest - lg)));
    const [level, slope, fall] = leastSquares(columns, logit);
    if (!(slope > 0)) return [lowest, highest, 0, TYPICAL_SLOPE, ...shiftStart(options, shifts, TYPICAL_RATE)];
    const rate = fall > 0 ? fall / slope : TYPICAL_RATE;
    return [lowest, highest, -level, slope, ...shiftStart(options, shifts, rate)];
  });
}

/** Shift and shelves of the sigmoid's fit, typical exponents, and the τ that suits best of a few. */
export function twoSpringsStarts({family, residualsAt}: Problem, sigmoid: readonly number[]): number[][] {
  const [lowest, highest, , , ...shift] = sigmoid;
  const {unknowns} = family;
  const typical = unknowns.slice(0, unknowns.length - shift.length).map(unknown => unknown.typical);
  const shelves = [
    [10 ** lowest, 10 ** highest],
    [10 ** lowest / 10, 1.5 * 10 ** highest],
    [typical[0] ?? 0, typical[1] ?? 0],
  ];
  return shelves.map(own => {
    let chosen: number[] = [];
    let least = Infinity;
    for (let lg = -7; lg <= 5; lg += 0.5) {
      const start = [...own, ...typical.slice(2).map(value => value ?? 10 ** lg), ...shift];
      const squares = sumOfSquares(residualsAt(unknownsOf({family}, start)));
      if (squares < least) [chosen, least] = [start, squares];
    }
    return chosen;
  });
}
