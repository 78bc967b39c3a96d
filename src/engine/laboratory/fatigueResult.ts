import {compareLives, type LifeComparison} from "./comparison.ts";
import {fatigueLines} from "./fatigueLine.ts";
import type {MaterialFatigue} from "./fatigueTypes.ts";
import type {FatigueProgramme} from "./types.ts";

/** A bending programme worked out. */
export interface FatigueResult {
  readonly programme: FatigueProgramme;
  readonly materials: readonly MaterialFatigue[];
  readonly comparisons: readonly LifeComparison[]; // with the reference
  readonly probability: number; // of intervals and bands
}

/**
 * @param probability of intervals, 0.9 or 0.95
 * @param reference   material that the others are compared with; default: the first that has a line
 */
export function fatigueResult(programme: FatigueProgramme, probability: number, reference?: string): FatigueResult {
  const materials = fatigueLines(programme);
  const withLine = materials.filter(m => m.line !== null);
  const first = withLine.find(m => m.material === reference) ?? withLine[0];
  const comparisons = withLine.filter(m => m !== first).map(m => compareLives(m, first, probability));
  return {programme, materials, comparisons, probability};
}
