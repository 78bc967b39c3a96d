/** Readings of a beam made ready for the eye: faces averaged, smoothed, and carried on to where the fronts would meet. */
import {inverseInterval, straightLine} from "../statistics/index.ts";
import {type MeanReading, meanReadings} from "./beamObservations.ts";
import type {BeamTest} from "./beamTypes.ts";

/** One front against passes, as read and smoothed so that it never goes back. */
export interface ReducedFront {
  readonly passes: Float64Array;
  readonly length: Float64Array; // mean of the faces [m]
  readonly difference: Float64Array; // of the faces; NaN with one face [m]
  readonly smooth: Float64Array; // never falling, the nearest to the readings by least squares [m]
}

export interface ReducedBeam {
  readonly name: string;
  readonly lower: ReducedFront;
  readonly upper: ReducedFront;
  /** Passes at which the fronts would meet if they went on as in the last readings; null when these do not say. */
  readonly meeting: {
    readonly passes: number;
    readonly low: number;
    readonly high: number;
    readonly from: number;
  } | null;
}

/** @param level of the meeting's interval, such as 0.9 */
export function reduceBeam(test: BeamTest, level: number): ReducedBeam {
  const means = meanReadings(test);
  const front = (which: MeanReading["front"]): ReducedFront => {
    const own = means.filter(m => m.front === which);
    const length = Float64Array.from(own, m => m.length);
    return {
      passes: Float64Array.from(own, m => m.passes),
      length,
      difference: Float64Array.from(own, m => m.difference ?? Number.NaN),
      smooth: neverFalling(length),
    };
  };
  const [lower, upper] = [front("lower"), front("upper")];
  return {name: test.name, lower, upper, meeting: meetingOf(test, lower, upper, level)};
}

/**
 * Least squares under the condition that no value is less than the one before: neighbours that go down are pooled.
 *
 * @source pool adjacent violators, Ayer, Brunk, Ewing, Reid & Silverman 1955, doi:10.1214/aoms/1177728423
 */
export function neverFalling(values: Float64Array): Float64Array {
  const pools: {sum: number; count: number}[] = [];
  for (const value of values) {
    pools.push({sum: value, count: 1});
    for (let last = pools.length - 1; last > 0; last--) {
      const [before, own] = [pools[last - 1], pools[last]];
      if (before.sum / before.count <= own.sum / own.count) break;
      pools.splice(last - 1, 2, {sum: before.sum + own.sum, count: before.count + own.count});
    }
  }
  return Float64Array.from(pools.flatMap(({sum, count}) => Array<number>(count).fill(sum / count)));
}

const FEWEST = 4; // readings that a straight line is laid through
const FARTHEST = 2; // times the last reading: beyond it nothing is said

/**
 * A straight line through the last readings of both fronts together, carried on to the whole thickness. Cracks that speed up
 * or slow down do not follow it: it is shown as what it is, and the fit of a growth law does not use it.
 */
function meetingOf(test: BeamTest, lower: ReducedFront, upper: ReducedFront, level: number): ReducedBeam["meeting"] {
  const whole = test.overlay.thickness + (test.interlayer?.thickness ?? 0);
  const both = [...lower.passes.keys()]
    .map(k => {
      const n = lower.passes[k];
      const other = upper.passes.findLastIndex(passes => passes <= n);
      return {n, depth: lower.smooth[k] + (other < 0 ? 0 : upper.smooth[other])};
    })
    .slice(-FEWEST);
  if (both.length < FEWEST) return null;
  const line = straightLine(
    both.map(p => p.n),
    both.map(p => p.depth),
  );
  // Readings that happen to lie on a line are not better than the reading error.
  const variance = line.sigma ** 2 + test.readingError ** 2 / 2;
  const known = {...line, levelVariance: variance / FEWEST, slopeVariance: variance / line.sumXX};
  const interval = inverseInterval(known, whole, level);
  const passes = line.centre + (whole - line.level) / line.slope;
  const from = both[FEWEST - 1].n;
  if (!(line.slope > 0 && interval && passes > from && passes <= FARTHEST * from)) return null;
  return {passes, ...interval, from};
}
