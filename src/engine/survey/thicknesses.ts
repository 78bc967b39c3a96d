/** Thicknesses that can be built, in equal steps. */

export interface ThicknessRange {
  readonly from: number; // thinnest [mm]
  readonly to: number; // thickest [mm]
  readonly step: number; // [mm]
}

export type RangeFault =
  | {readonly kind: "not positive"; readonly which: keyof ThicknessRange}
  | {readonly kind: "reversed"; readonly which: "from"}
  | {readonly kind: "too wide"; readonly which: "step"}
  | {readonly kind: "too many"; readonly which: "step"; readonly count: number};

/** The study is read at every thickness before the first is computed. */
export const MOST_THICKNESSES = 500;

/** All that is wrong with a range. */
export function rangeFaults(range: ThicknessRange): RangeFault[] {
  const bad = (["from", "to", "step"] as const).filter(which => !(range[which] > 0 && Number.isFinite(range[which])));
  if (bad.length > 0) return bad.map(which => ({kind: "not positive", which}));
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
