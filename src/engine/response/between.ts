/**
 * The halved mesh's correction at one temperature from those at a few others. What the coarse mesh gives is known at all of
 * them: how well its own values follow from those at the few tells how far the correction, which is a few per cent of
 * them and as smooth, can be trusted.
 */
import type {Geometry} from "./model.ts";
import {correctionTables, type SolvedPair} from "./respond.ts";
import {addScaled, magnitude, type Patch, type ResponseTables, type WaveValues} from "./tables.ts";

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
  let doubt = 0;
  for (const name of ["opening", "shear"] as const) {
    let largest = 0;
    let missed = 0;
    coarse.forEach(({[name]: own}, k) => {
      largest = Math.max(largest, magnitude(own));
      const miss = own.slice();
      for (const pair of pairs) addScaled(miss, -pair.weight, pair.coarse[k][name]);
      missed = Math.max(missed, magnitude(miss));
    });
    const added = magnitude(correction[name]);
    if (largest > 0) doubt = Math.max(doubt, ((added / largest) * missed) / largest);
  }
  return {correction, doubt};
}
