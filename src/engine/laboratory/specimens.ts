/** Beam theory of bending specimens: strain, modulus and phase from what a machine measures. Shear is left out, as in EN 12697. */
import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import type {Specimen, SpecimenShape} from "./types.ts";

type Trapezoid = Extract<SpecimenShape, {kind: "trapezoid"}>;
type Prism = Extract<SpecimenShape, {kind: "prism"}>;

export interface BendingConstants {
  readonly strainPerDisplacement: number; // K: ε = K·z, ε the largest in the specimen, z of the head or of mid-span [1/m]
  readonly stiffnessFactor: number; // γ: E = γ·F/z [1/m]
  readonly stressPerForce: number; // σ = E·ε = K·γ·F [1/m²]
  /** Where strain is largest, from the clamp of a trapezoid; null for a prism: all along between the inner clamps. */
  readonly criticalHeight: number | null; // [m]
}

/** @throws InputError "domain" for impossible sizes, and for a trapezoid with B < 2b */
export function bendingConstants(shape: SpecimenShape, path = "shape"): BendingConstants {
  return shape.kind === "trapezoid" ? trapezoidConstants(shape, path) : prismConstants(shape, path);
}

/**
 * Cantilever clamped at its wide end B, deflected by z at its head b. With W(x) = b + (B−b)·x/h from the head,
 * M = F·x and ε = 6·F·x/(E·e·W²), which is largest where W = 2b, at h·(B−2b)/(B−b) above the clamp:
 *
 *   q = ln(B/b) + 2b/B − b²/(2B²) − 3/2
 *   K = (B−b)²/(8·b·h²·q)    γ = 12·h³/(e·(B−b)³)·q
 *
 * With B < 2b strain is largest at the clamp, where it also concentrates: K does not hold, and the specimen is refused.
 *
 * @source EN 12697-24 annex A, EN 12697-26 annex A (from memory; derived anew, docs/theory/laboratory.md Eq. 1–3)
 */
function trapezoidConstants(shape: Trapezoid, path: string): BendingConstants {
  const {baseWidth: B, topWidth: b, height: h, thickness: e} = shape;
  requirePositive(`${path}.baseWidth`, B, "m");
  requirePositive(`${path}.topWidth`, b, "m");
  requirePositive(`${path}.height`, h, "m");
  requirePositive(`${path}.thickness`, e, "m");
  if (B < 2 * b)
    throw new InputError(
      "domain",
      `${path}.baseWidth`,
      B,
      `≥ ${2 * b} [m], twice the head: else it breaks in the clamp`,
    );
  const q = ln(B / b) + (2 * b) / B - (b * b) / (2 * B * B) - 1.5;
  const strainPerDisplacement = (B - b) ** 2 / (8 * b * h * h * q);
  const stiffnessFactor = ((12 * h ** 3) / (e * (B - b) ** 3)) * q;
  return {
    strainPerDisplacement,
    stiffnessFactor,
    stressPerForce: strainPerDisplacement * stiffnessFactor,
    criticalHeight: (h * (B - 2 * b)) / (B - b),
  };
}

/**
 * Beam on two outer clamps L apart, half the force F at each inner clamp, a from the outer one. δ is the deflection of
 * mid-span against the outer clamps:
 *
 *   ε = 12·h·δ/(3L² − 4a²)    σ = 3·a·F/(b·h²)    γ = σ/ε·δ/F = a·(3L² − 4a²)/(4·b·h³)
 *
 * @source EN 12697-24 annex D, ASTM D7460 (from memory; derived from beam theory)
 */
function prismConstants(shape: Prism, path: string): BendingConstants {
  const {outerSpan: L, height: h, width: b} = shape;
  requirePositive(`${path}.outerSpan`, L, "m");
  requirePositive(`${path}.height`, h, "m");
  requirePositive(`${path}.width`, b, "m");
  const a = shearSpan(shape, path);
  const strainPerDisplacement = (12 * h) / (3 * L * L - 4 * a * a);
  const stressPerForce = (3 * a) / (b * h * h);
  return {
    strainPerDisplacement,
    stressPerForce,
    stiffnessFactor: stressPerForce / strainPerDisplacement,
    criticalHeight: null,
  };
}

/** From an outer clamp to the inner one next to it, a [m]. */
function shearSpan({outerSpan, innerSpan}: Prism, path: string): number {
  if (!(innerSpan >= 0 && innerSpan < outerSpan))
    throw new InputError("domain", `${path}.innerSpan`, innerSpan, `≥ 0, < outer span ${outerSpan} [m]`);
  return (outerSpan - innerSpan) / 2;
}

/** Deflection of mid-span over that of an inner clamp, (3L² − 4a²)/(4a·(3L − 4a)) [–]: some machines measure there. */
export function midSpanRatio(shape: Prism): number {
  const a = shearSpan(shape, "shape");
  const L = shape.outerSpan;
  return (3 * L * L - 4 * a * a) / (4 * a * (3 * L - 4 * a));
}

/**
 * Mass that swings with z, as the modulus sees it, μ [kg]:
 *
 *   trapezoid  μ = 0.135·M + m
 *   prism      μ = R·M/π⁴ + m/ρ,  R = 12·L/a/(3/4 − a²/L²),  ρ the ratio of `midSpanRatio`
 *
 * Rayleigh's method gives 0.126 to 0.146 for the usual trapezoids in place of 0.135, and R/π⁴ within 0.3 %.
 *
 * @param masses  of the specimen M and of the parts moving with head or inner clamps m [kg]
 * @source EN 12697-26 annexes A and B (from memory)
 */
export function swingingMass(
  shape: SpecimenShape,
  masses: {readonly specimen: number; readonly movingParts: number},
): number {
  requireNonNegative("masses.specimen", masses.specimen, "kg");
  requireNonNegative("masses.movingParts", masses.movingParts, "kg");
  if (shape.kind === "trapezoid") return 0.135 * masses.specimen + masses.movingParts;
  const a = shearSpan(shape, "shape");
  const L = shape.outerSpan;
  const form = (12 * L) / a / (0.75 - (a * a) / (L * L));
  return (form * masses.specimen) / Math.PI ** 4 + masses.movingParts / midSpanRatio(shape);
}

/** Amplitudes of one sine, as a machine records them. */
export interface BendingReading {
  readonly force: number; // F [N]
  readonly displacement: number; // z [m]
  readonly phaseLag: number; // of displacement behind force, φ [rad]
  readonly frequency: number; // [Hz]
}

export interface ComplexModulus {
  readonly storage: number; // E₁ [Pa]
  readonly loss: number; // E₂ [Pa]
  readonly modulus: number; // |E*| [Pa]
  readonly phase: number; // of the material [rad]
}

/**
 * E* = γ·(F/z·e^{iφ} + μ·ω²): part of the force moves the mass to and fro, which a stiff machine shows as less force.
 *
 * @param mass μ of `swingingMass` [kg]; 0 leaves inertia out
 * @source EN 12697-26 annex A (from memory), there with mm and g
 */
export function complexModulus(shape: SpecimenShape, reading: BendingReading, mass: number): ComplexModulus {
  requirePositive("reading.force", reading.force, "N");
  requirePositive("reading.displacement", reading.displacement, "m");
  requirePositive("reading.frequency", reading.frequency, "Hz");
  requireNonNegative("mass", mass, "kg");
  if (!(Math.abs(reading.phaseLag) <= Math.PI))
    throw new InputError("domain", "reading.phaseLag", reading.phaseLag, "from −π to π [rad]");
  const {stiffnessFactor} = bendingConstants(shape);
  const omega = 2 * Math.PI * reading.frequency;
  const stiffness = reading.force / reading.displacement;
  const storage = stiffnessFactor * (stiffness * Math.cos(reading.phaseLag) + mass * omega * omega);
  const loss = stiffnessFactor * stiffness * Math.sin(reading.phaseLag);
  return {storage, loss, modulus: Math.hypot(storage, loss), phase: Math.atan2(loss, storage)};
}

/**
 * Largest strain amplitude in a specimen [–], whichever amplitude its machine was told.
 *
 * @throws InputError "domain" when a displacement comes without a shape
 */
export function specimenStrain(specimen: Pick<Specimen, "amplitude" | "shape">, path = "specimen"): number {
  const {amplitude, shape} = specimen;
  if (amplitude.kind === "strain") {
    requirePositive(`${path}.amplitude.strain`, amplitude.strain, "–");
    return amplitude.strain;
  }
  requirePositive(`${path}.amplitude.displacement`, amplitude.displacement, "m");
  if (shape === null)
    throw new InputError("domain", `${path}.shape`, shape, "a shape: the strain is to come from a displacement");
  return bendingConstants(shape, `${path}.shape`).strainPerDisplacement * amplitude.displacement;
}
