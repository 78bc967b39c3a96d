import type {GrowthLaw} from "../section/types.ts";

/**
 * Coefficient of a growth law at the modulus at hand, A·(E/E₀)^m [m/cycle]; A itself without a shift.
 *
 * @param modulus  E of the layer that the tip is in [Pa]
 */
export function growthCoefficient(law: GrowthLaw, modulus: number): number {
  if (law.referenceModulus === null || law.stiffnessExponent === 0) return law.coefficient;
  return law.coefficient * (modulus / law.referenceModulus) ** law.stiffnessExponent;
}

/** Mean tractions over a process zone. */
export interface ZoneMeans {
  readonly opening: number; // ⟨σx⟩, own mode I; compression counts as none [Pa]
  readonly shearXZ: number; // ⟨τxz⟩ [Pa]
  readonly shearXY: number; // ⟨τxy⟩ [Pa]
}

/**
 * Tip strain ε_tip = (1/E')·√(⟨σx⟩₊² + s·(⟨τxz⟩² + ⟨τxy⟩²/(1−ν))), E' = E/(1−ν²) of the layer that the tip is in and s
 * the weight of shear. With s = 1 it adds energy release rates: for a long crack ε_tip = K_eq/E'·√(2/(πd)),
 * K_eq² = K_I² + K_II² + K_III²/(1−ν).
 *
 * @source line method of the theory of critical distances, Taylor 2007, applied to strain; docs/theory/crack.md
 */
export function tipStrain(
  means: ZoneMeans,
  elastic: {readonly planeStrainModulus: number; readonly poisson: number},
  shearWeight: number,
): number {
  const opening = Math.max(means.opening, 0);
  const shear = means.shearXZ * means.shearXZ + (means.shearXY * means.shearXY) / (1 - elastic.poisson);
  return Math.sqrt(opening * opening + shearWeight * shear) / elastic.planeStrainModulus;
}

/**
 * Stress intensity that a tip strain stands for, K_eq = ε·E'·√(πd/2) [Pa·√m]: exact for a crack long against d.
 *
 * @param planeStrainModulus E' [Pa]
 * @param zoneLength d [m]
 */
export function equivalentIntensity(strain: number, planeStrainModulus: number, zoneLength: number): number {
  return strain * planeStrainModulus * Math.sqrt((Math.PI * zoneLength) / 2);
}
