import {ln} from "../numeric/index.ts";
import {REFERENCE_STRAIN} from "./beamGrowth.ts";
import type {LawOrigin} from "./beamLaws.ts";
import type {BeamTest} from "./beamTypes.ts";
import {lawDifference} from "./comparison.ts";
import type {FatigueResult} from "./fatigueResult.ts";

/**
 * Laws of interlayers from fatigue lines, relative to the overlay above them in the first beam that has both lines. At equal
 * strain growth is taken as inverse to life: ln rate − ln rate_ref = −(ln N − ln N_ref), n − n_ref = k − k_ref.
 */
export function relativeLaws(
  tests: readonly BeamTest[],
  fatigue: FatigueResult | null,
): Record<string, Extract<LawOrigin, {kind: "relative"}>> {
  const lineOf = (name: string) => fatigue?.materials.find(m => m.material === name)?.line ?? null;
  const laws: Record<string, Extract<LawOrigin, {kind: "relative"}>> = {};
  for (const {overlay, interlayer} of tests) {
    if (!interlayer || laws[interlayer.material]) continue;
    const [own, reference] = [lineOf(interlayer.material), lineOf(overlay.material)];
    if (!own || !reference) continue;
    const {lnC, k} = lawDifference(own, reference);
    laws[interlayer.material] = {
      kind: "relative",
      to: overlay.material,
      logRate: k * ln(REFERENCE_STRAIN) - lnC, // ln N = ln C − k·ln ε
      exponent: k,
    };
  }
  return laws;
}
