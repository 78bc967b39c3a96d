import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {estimateWarnings, HIGHEST_VISCOSITY} from "./estimateWarnings.ts";
import {lgRankine, lgViscosity, requireTemperature} from "./shift.ts";
import type {MasterCurve} from "./types.ts";

/** Viscosity of a binder over temperature: lg lg η = A + VTS·lg T, η in centipoise and T in degrees Rankine. */
export interface ViscosityLine {
  readonly intercept: number; // A [–]
  readonly susceptibility: number; // VTS [–], < 0
}

export type BinderViscosity =
  | ({readonly kind: "line"} & ViscosityLine)
  | {
      readonly kind: "penetration";
      readonly penetration: number; // at 25 °C, 100 g, 5 s [m]
      readonly softeningPoint: number; // ring and ball [°C]
    };

/** What the predictive equation needs of a mixture. */
export interface EstimatedMix {
  readonly retained19: number; // aggregate retained on the 19 mm (3/4 in) sieve, cumulative, by mass [–]
  readonly retained9_5: number; // on the 9.5 mm (3/8 in) sieve [–]
  readonly retained4_75: number; // on the 4.75 mm (no. 4) sieve [–]
  readonly passing0_075: number; // passing the 0.075 mm (no. 200) sieve [–]
  readonly airVoids: number; // by volume of the mixture [–]
  readonly effectiveBinder: number; // volume of binder not absorbed, of the mixture [–]
  readonly binder: BinderViscosity;
  readonly referenceTemperature: number; // of the curve [°C]
}

export interface EstimatedCurve {
  readonly curve: MasterCurve;
  readonly warnings: readonly string[];
}

const PSI = 6894.757293168361; // [Pa]: 0.45359237 kg · 9.80665 m/s² on a square of 0.0254 m
const SLOPE = 0.313351; // of lg f
const VISCOSITY_SLOPE = 0.393532; // of lg η
const LG_SOFTENING_VISCOSITY = Math.log10(13_000); // at the ring and ball softening point [lg poise]
const PENETRATION_TEMPERATURE = 25; // [°C]
const LG_CENTIPOISE = 2; // in a poise

/**
 * Curve of |E*| from composition and binder, without a test:
 *
 *   lg|E*| = 3.750063 + 0.02932·ρ₂₀₀ − 0.001767·ρ₂₀₀² − 0.002841·ρ₄ − 0.058097·V_a − 0.802208·V_b/(V_b + V_a)
 *          + (3.871977 − 0.0021·ρ₄ + 0.003958·ρ₃₈ − 0.000017·ρ₃₈² + 0.00547·ρ₃₄)
 *            /(1 + exp(−0.603313 − 0.313351·lg f − 0.393532·lg η))
 *
 * with |E*| in psi, f in Hz, η in 1e6 poise, ρ, V_a and V_b in percent. In lg f it is a sigmoid, and viscosity shifts it:
 * lg a_T = 0.393532/0.313351·(lg η − lg η_r). Fitted to dense mixtures between −18 and 54 °C, 0.1 to 25 Hz.
 *
 * @throws InputError "domain" for what no mixture can be
 * @source Andrei, Witczak & Mirza 1999, used in NCHRP 1-37A 2004, part 2, chapter 2 (from memory)
 */
export function estimatedCurve(mix: EstimatedMix): EstimatedCurve {
  requireMix(mix);
  const line = viscosityLine(mix.binder);
  const curve: MasterCurve = {
    model: {kind: "sigmoid", ...shelves(mix), location: locationOf(line, mix.referenceTemperature), slope: SLOPE},
    shift: {kind: "viscosity", ...line, highest: HIGHEST_VISCOSITY, factor: VISCOSITY_SLOPE / SLOPE},
    referenceTemperature: mix.referenceTemperature,
    measured: null,
  };
  return {curve, warnings: estimateWarnings(mix, line)};
}

function shelves(mix: EstimatedMix): {readonly lowest: number; readonly span: number} {
  const percent = (value: number): number => 100 * value;
  const [r34, r38, r4] = [mix.retained19, mix.retained9_5, mix.retained4_75].map(percent);
  const [p200, air] = [mix.passing0_075, mix.airVoids].map(percent);
  const filled = mix.effectiveBinder / (mix.effectiveBinder + mix.airVoids);
  const fine = 0.02932 * p200 - 0.001767 * p200 ** 2 - 0.002841 * r4;
  return {
    lowest: Math.log10(PSI) + 3.750063 + fine - 0.058097 * air - 0.802208 * filled,
    span: 3.871977 - 0.0021 * r4 + 0.003958 * r38 - 0.000017 * r38 ** 2 + 0.00547 * r34,
  };
}

function locationOf(line: ViscosityLine, referenceTemperature: number): number {
  const lgMegapoise = Math.min(lgViscosity(line, referenceTemperature), HIGHEST_VISCOSITY) - LG_CENTIPOISE - 6;
  return -0.603313 - VISCOSITY_SLOPE * lgMegapoise;
}

/**
 * A and VTS of a binder. From penetration and softening point by two points of the line: 13,000 poise at the softening
 * point, and at 25 °C
 *
 *   lg η = 10.5012 − 2.2601·lg Pen + 0.00389·(lg Pen)², η in poise, Pen in 0.1 mm
 *
 * @throws InputError "domain" for a viscosity that does not fall with temperature
 * @source NCHRP 1-37A 2004, part 2, chapter 2 (from memory)
 */
export function viscosityLine(binder: BinderViscosity): ViscosityLine {
  if (binder.kind === "line") {
    const {intercept, susceptibility} = binder;
    if (!Number.isFinite(intercept)) throw new InputError("domain", "binder.intercept", intercept, "finite");
    if (!(susceptibility < 0 && susceptibility > -Infinity))
      throw new InputError("domain", "binder.susceptibility", susceptibility, "finite, < 0");
    return {intercept, susceptibility};
  }
  const {penetration, softeningPoint} = binder;
  requirePositive("binder.penetration", penetration, "m");
  requireTemperature("binder.softeningPoint", softeningPoint);
  const lgPenetration = Math.log10(penetration / 1e-4);
  const lgPoise = 10.5012 - 2.2601 * lgPenetration + 0.00389 * lgPenetration ** 2;
  if (softeningPoint <= PENETRATION_TEMPERATURE || lgPoise <= LG_SOFTENING_VISCOSITY) {
    const got = `${softeningPoint} °C with a penetration of ${penetration} m`;
    throw new InputError("domain", "binder", got, "softer at the softening point than at 25 °C");
  }
  const cold = Math.log10(lgPoise + LG_CENTIPOISE);
  const soft = Math.log10(LG_SOFTENING_VISCOSITY + LG_CENTIPOISE);
  const susceptibility = (soft - cold) / (lgRankine(softeningPoint) - lgRankine(PENETRATION_TEMPERATURE));
  return {intercept: cold - susceptibility * lgRankine(PENETRATION_TEMPERATURE), susceptibility};
}

/** @throws InputError "domain" */
function requireMix(mix: EstimatedMix): void {
  requireTemperature("referenceTemperature", mix.referenceTemperature);
  requireNonNegative("retained19", mix.retained19, "–");
  for (const [finer, coarser] of [
    ["retained9_5", "retained19"],
    ["retained4_75", "retained9_5"],
  ] as const)
    if (!(mix[finer] >= mix[coarser] && mix[finer] <= 1))
      throw new InputError(
        "domain",
        finer,
        mix[finer],
        `${mix[coarser]}, as on the coarser sieve, to 1: retained in all`,
      );
  if (!(mix.passing0_075 >= 0 && mix.passing0_075 <= 1 - mix.retained4_75))
    throw new InputError(
      "domain",
      "passing0_075",
      mix.passing0_075,
      `0 to ${1 - mix.retained4_75}, what passes 4.75 mm`,
    );
  requireNonNegative("airVoids", mix.airVoids, "–");
  requirePositive("effectiveBinder", mix.effectiveBinder, "–");
  if (!(mix.airVoids + mix.effectiveBinder < 1))
    throw new InputError("domain", "airVoids", mix.airVoids, "< 1 together with the binder: fractions of the volume");
}
