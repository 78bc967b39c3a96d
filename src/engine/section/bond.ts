import {InputError} from "../errors.ts";
import type {Section} from "./types.ts";

/**
 * Shear spring between a layer and the one below it [Pa/m]; Infinity: full bond; 0: free slip. Of the lowest jointed layer
 * above a foundation it is `slabFriction`. The same spring acts under wheels and under temperature, on u and v;
 * w is shared: layers do not part.
 *
 * @throws InputError "domain" when a layer has a bond where none can be
 */
export function bondBelow({layers, slabFriction}: Section, k: number): number {
  const {role, bondBelow: given = Infinity} = layers[k];
  if (!(given >= 0)) throw new InputError("domain", `layers[${k}].bondBelow`, given, "≥ 0 [Pa/m]");
  const below = layers[k + 1]?.role;
  if (given !== Infinity) {
    if (below === undefined) throw misplaced(k, given, "none on the lowest layer");
    if (role === "foundation") throw misplaced(k, given, "none within the foundation");
    if (below === "foundation") throw misplaced(k, given, "none: slabFriction holds there");
  }
  return role === "jointed" && below === "foundation" ? slabFriction : given;
}

function misplaced(k: number, given: number, need: string): InputError {
  return new InputError("domain", `layers[${k}].bondBelow`, given, need);
}
