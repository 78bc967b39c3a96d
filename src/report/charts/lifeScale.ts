/** A logarithmic axis of lives, with finer ticks where it spans less than a decade. */
import {levelsFor} from "./contours.ts";
import {logTicks} from "./frame.ts";

const FINER = [[1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9]] as const;
const FEW = 4; // ticks
const ROOM = 1.2; // beyond the lives [–]

export interface LifeScale {
  readonly domain: [number, number]; // [years]
  readonly ticks: number[]; // [years]
}

/** @param lives  all that are to be seen [years] */
export function lifeScaleOf(lives: readonly number[]): LifeScale {
  const domain: [number, number] = [Math.min(...lives) / ROOM, Math.max(...lives) * ROOM];
  const usual = logTicks(...domain);
  return {domain, ticks: usual.length < FEW ? levelsFor(...domain, FINER) : usual};
}
