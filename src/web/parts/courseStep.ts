import type {UnitSystem} from "../../report/live/index.ts";

/** Usual steps of courses, and those of thin layers [mm] (common practice, no source). */
const STEPS: Readonly<Record<UnitSystem, {readonly usual: number; readonly thin: number}>> = {
  metric: {usual: 5, thin: 1},
  us: {usual: 6.35, thin: 1.5875}, // a quarter and a sixteenth of an inch
};
const THIN = 20; // [mm]

/** In which a layer of this thickness is made thicker or thinner [mm]. */
export function courseStep(thickness: number, units: UnitSystem): number {
  return STEPS[units][thickness < THIN ? "thin" : "usual"];
}
