import {InputError} from "../errors.ts";
import {lgRankine, lgViscosity, requireTemperature} from "./shift.ts";
import type {MasterCurve} from "./types.ts";

/** Viscosity of a binder over temperature: lg lg η = A + VTS·lg T, η in centipoise and T in degrees Rankine. */
export type BinderViscosity =
  | {readonly kind: "line"; readonly intercept: number; readonly susceptibility: number} // A [–], VTS [–]
  | {
      readonly kind: "penetration";
      readonly penetration: number; // at 25 °C, 100 g, 5 s [m]
      readonly softeningPoint: number; // ring and ball [°C]
    };

/** What the predictive equation needs of a mixture; parts by mass or volume are fractions. */
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
const SOFTENING_VISCOSITY = 13_000; // at the ring and ball softening point [poise]

/**
 * Curve of |E*| from composition and binder, without a test:
 *
 *   lg|E*| = 3.750063 + 0.02932·ρ₂₀₀ − 0.001767·ρ₂₀₀² − 0.002841·ρ₄ − 0.058097·V_a − 0.802208·V_b/(V_b + V_a)
 *          + (3.871977 − 0.0021·ρ₄ + 0.003958·ρ₃₈ − 0.000017·ρ₃₈² + 0.00547·ρ₃₄)
 *            /(1 + exp(−0.603313 − 0.313351·lg f − 0.393532·lg η))
 *
 * with |E*| in psi, f in Hz, η in 1e6 poise, ρ, V_a and V_b in percent. In lg f it is a sigmoid, and viscosity shifts it:
 * lg a_T = 0.393532/0.313351·(lg η − lg η_r).
 *
 * @throws InputError "domain" for what no mixture can be
 * @source Andrei, Witczak & Mirza 1999; NCHRP 1-37A, part 2, chapter 2 (from memory)
 */
export function estimatedCurve(mix: EstimatedMix): EstimatedCurve {
  requireTemperature("referenceTemperature", mix.referenceTemperature);
  const percent = (value: number): number => 100 * value;
  const [r34, r38, r4] = [mix.retained19, mix.retained9_5, mix.retained4_75].map(percent);
  const [p200, air, binder] = [mix.passing0_075, mix.airVoids, mix.effectiveBinder].map(percent);
  const line = viscosityLine(mix.binder);
  const factor = 0.393532 / 0.313351;
  const lgReference = lgViscosity(line, mix.referenceTemperature) - 8; // of centipoise, in 1e6 poise
  const curve: MasterCurve = {
    model: {
      kind: "sigmoid",
      lowest:
        Math.log10(PSI) +
        3.750063 +
        0.02932 * p200 -
        0.001767 * p200 ** 2 -
        0.002841 * r4 -
        0.058097 * air -
        (0.802208 * binder) / (binder + air),
      span: 3.871977 - 0.0021 * r4 + 0.003958 * r38 - 0.000017 * r38 ** 2 + 0.00547 * r34,
      location: -0.603313 - 0.393532 * lgReference,
      slope: 0.313351,
    },
    shift: {kind: "viscosity", ...line, factor},
    referenceTemperature: mix.referenceTemperature,
    measured: null,
  };
  return {curve, warnings: []};
}

/**
 * A and VTS of a binder. From penetration and softening point by two points of the line: 13,000 poise at the softening
 * point, and at 25 °C
 *
 *   lg η = 10.5012 − 2.2601·lg Pen + 0.00389·(lg Pen)², η in poise, Pen in 0.1 mm
 *
 * @source NCHRP 1-37A, part 2, chapter 2 (from memory)
 */
export function viscosityLine(binder: BinderViscosity): {readonly intercept: number; readonly susceptibility: number} {
  if (binder.kind === "line") return {intercept: binder.intercept, susceptibility: binder.susceptibility};
  const lgPenetration = Math.log10(binder.penetration / 1e-4);
  const twice = (lgPoise: number): number => Math.log10(lgPoise + 2); // lg lg of centipoise
  const at25 = twice(10.5012 - 2.2601 * lgPenetration + 0.00389 * lgPenetration ** 2);
  const soft = twice(Math.log10(SOFTENING_VISCOSITY));
  const susceptibility = (soft - at25) / (lgRankine(binder.softeningPoint) - lgRankine(25));
  if (!(susceptibility < 0))
    throw new InputError("domain", "softeningPoint", binder.softeningPoint, "higher: viscosity falls with temperature");
  return {intercept: at25 - susceptibility * lgRankine(25), susceptibility};
}
