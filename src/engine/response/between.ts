/**
 * The halved mesh's correction at one temperature from those at a few others. What the coarse mesh gives is known at all of
 * them: how well its own values follow from those at the few tells how far the correction, which is a few per cent of
 * them and as smooth, can be trusted.
 */
import type {Geometry} from "./model.ts";
import {correctionTables, type SolvedPair} from "./respond.ts";
import type {Patch, ResponseTables, WaveValues} from "./tables.ts";

export interface BetweenTables {
  readonly correction: ResponseTables;
  readonly doubt: number; // estimated error of the correction, relative to the largest of all values [–]
}

/**
 * @param coarse  the coarse mesh's values at the temperature asked for, by the corrections' wavenumbers
 * @param pairs   their weights sum to 1
 */
export function correctionBetween(
  geometry: Geometry,
  patches: readonly Patch[],
  coarse: readonly WaveValues[],
  pairs: readonly SolvedPair[],
): BetweenTables {
  const correction = correctionTables(geometry, patches, pairs);
  const weights = pairs.map(p => p.weight);
  let doubt = 0;
  for (const name of ["opening", "shear"] as const) {
    let largest = 0;
    let missed = 0;
    for (let k = 0; k < coarse.length; k++) {
      const own = coarse[k][name];
      const others = pairs.map(p => p.coarse[k][name]);
      for (let i = 0; i < own.length; i++) {
        let sum = 0;
        for (let p = 0; p < others.length; p++) sum += weights[p] * others[p][i];
        largest = Math.max(largest, Math.abs(own[i]));
        missed = Math.max(missed, Math.abs(own[i] - sum));
      }
    }
    const added = correction[name].reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    if (largest > 0) doubt = Math.max(doubt, ((added / largest) * missed) / largest);
  }
  return {correction, doubt};
}
