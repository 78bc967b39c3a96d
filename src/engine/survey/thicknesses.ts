/** Thicknesses that can be built, in equal steps. */
import {LIFE_CAP} from "./lifeCap.ts";

export interface ThicknessRange {
  readonly from: number; // thinnest [mm]
  readonly to: number; // thickest [mm]
  readonly step: number; // [mm]
}

/** What a search is to find. */
export interface ThicknessGoal extends ThicknessRange {
  readonly target: number; // life to be reached [years]
}

export type ThicknessFault =
  | {readonly kind: "not positive"; readonly which: keyof ThicknessGoal}
  | {readonly kind: "too long"; readonly which: "target"}
  | {readonly kind: "reversed"; readonly which: "from"}
  | {readonly kind: "too wide"; readonly which: "step"}
  | {readonly kind: "too many"; readonly which: "step"; readonly count: number};

/** The study is read at every thickness before the first is computed. */
export const MOST_THICKNESSES = 500;

/** All that is wrong with a goal. */
export function thicknessFaults(goal: ThicknessGoal): ThicknessFault[] {
  const bad = (["target", "from", "to", "step"] as const).filter(w => !(goal[w] > 0 && Number.isFinite(goal[w])));
  return [
    ...(goal.target > LIFE_CAP ? [{kind: "too long", which: "target"} as const] : []),
    ...bad.map(which => ({kind: "not positive", which}) as const),
    ...(bad.some(which => which !== "target") ? [] : rangeFaults(goal)),
  ];
}

function rangeFaults(range: ThicknessRange): ThicknessFault[] {
  if (range.from > range.to) return [{kind: "reversed", which: "from"}];
  if (range.from < range.to && range.step > range.to - range.from) return [{kind: "too wide", which: "step"}];
  const count = countOf(range);
  return count > MOST_THICKNESSES ? [{kind: "too many", which: "step", count}] : [];
}

const DIGITS = 12; // keeps 0.1 + 0.2 out of keys and tables

/** From the thinnest on, none beyond the thickest [mm]. */
export function thicknessSteps(range: ThicknessRange): number[] {
  return Array.from({length: countOf(range)}, (_, k) => Number((range.from + k * range.step).toPrecision(DIGITS)));
}

const countOf = ({from, to, step}: ThicknessRange): number => Math.floor((to - from) / step + 1e-9) + 1;
