/** Crack fronts between the steps of a history. */

import type {CrackHistory} from "../engine/life/types.ts";

export interface FrontsAtTime {
  readonly interlayer: number; // from the joint up [m]
  readonly underside: number; // from the overlay's underside up [m]
  readonly surface: number; // from the surface down [m]
}

/** A quantity kept at ascending times, read linearly between step i and the next. */
export function betweenSteps(years: ArrayLike<number>, value: (i: number) => number, i: number, time: number): number {
  const share = (time - years[i]!) / (years[i + 1]! - years[i]!);
  return value(i) + share * (value(i + 1) - value(i));
}

/**
 * The three fronts at a time, linear between steps. After failure they stay where they met. Null before the start and beyond the end
 * of a history that has not failed: nobody computed them there.
 *
 * @param time [years]
 */
export function frontsAt(history: CrackHistory, time: number): FrontsAtTime | null {
  const {years, failed} = history;
  const last = years.length - 1;
  const read = (value: (front: Float64Array) => number): FrontsAtTime => ({
    interlayer: value(history.interlayer),
    underside: value(history.underside),
    surface: value(history.surface),
  });
  if (!(time >= years[0]!)) return null;
  if (time >= years[last]!) return failed || time === years[last] ? read(front => front[last]!) : null;
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (years[middle]! <= time) low = middle;
    else high = middle;
  }
  return read(front => betweenSteps(years, i => front[i]!, low, time));
}
