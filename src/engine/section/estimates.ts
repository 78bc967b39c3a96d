/**
 * Moduli of soils where no test of stiffness was made. Regressions over many soils, about which single ones scatter by a
 * factor of two and more: a start, never a substitute for a test.
 */
import {InputError, requirePositive} from "../errors.ts";

/** A modulus and for which values of what it was estimated from the relation is meant. */
export interface ModulusEstimate {
  readonly modulus: number; // [Pa]
  readonly range: readonly [number, number]; // in the unit of the argument
  readonly inside: boolean;
}

export type CbrRelation = "power" | "linear";
export type ReactionRelation = "power" | "plate";

/**
 * From the California bearing ratio:
 *
 *   power   E = 17.6·CBR^0.64 MPa   for 2 to 12 %: Powell, Potter, Mayhew & Nunn 1984, TRRL Laboratory Report 1132 (from
 *           memory; read as 2554·CBR^0.64 psi, which is the same)
 *   linear  E = 10·CBR MPa          for up to 10 %: Heukelom & Klomp 1962 (from memory)
 *
 * @param cbr  [%]
 * @throws InputError "domain"
 */
export function modulusFromCbr(cbr: number, relation: CbrRelation): ModulusEstimate {
  requirePositive("cbr", cbr, "%");
  if (relation === "power") return estimate(17.6e6 * cbr ** 0.64, cbr, [2, 12]);
  return estimate(10e6 * cbr, cbr, [1, 10]);
}

const RADIUS = 0.381; // of the plate with which k is measured, 30 inches across [m]
const PCI = 6894.757 / 0.0254; // 1 psi/inch [Pa/m]
const PSI = 6894.757; // [Pa]

/**
 * From the modulus of subgrade reaction k, pressure over deflection of a plate 762 mm across:
 *
 *   power  E = 20.15·k^1.284, in psi and psi/inch: the relation of airfield design for E of the soil under slabs (read in a
 *          secondary source; range from memory)
 *   plate  E = k·π·a·(1 − ν²)/2: the half-space under a rigid plate, w = π(1−ν²)qa/2E (Boussinesq). It is the stiffness
 *          under a slow load, and a third or less of what the first one gives
 *
 * @param k  [Pa/m]
 * @throws InputError "domain"
 */
export function modulusFromReaction(k: number, relation: ReactionRelation, poisson: number): ModulusEstimate {
  requirePositive("k", k, "Pa/m");
  if (!(poisson >= 0 && poisson <= 0.5)) throw new InputError("domain", "poisson", poisson, "0 to 0.5 [–]");
  if (relation === "power") return estimate(20.15 * (k / PCI) ** 1.284 * PSI, k, [7e6, 120e6]);
  return estimate((k * Math.PI * RADIUS * (1 - poisson * poisson)) / 2, k, [5e6, 300e6]);
}

function estimate(modulus: number, from: number, range: readonly [number, number]): ModulusEstimate {
  return {modulus, range, inside: from >= range[0] && from <= range[1]};
}
