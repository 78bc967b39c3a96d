import {z} from "zod";
import {quantity, words} from "./quantity.ts";
import {masterCurveFields} from "./stiffness-fields.ts";

export const materialKinds = ["asphalt", "interlayer", "concrete", "cement-bound", "granular", "soil"] as const;
export type MaterialKind = (typeof materialKinds)[number];

/**
 * Thermal properties by kind [W/(m·K)], [kg/m³], [J/(kg·K)]: middle of the traditional design ranges, asphalt
 * k 1.2–1.5, c 840–920, ρ 2300–2400; concrete k 1.5–2.2, c 880–1000. The other rows are estimates of the same order:
 * at their depth they hardly move the temperatures of overlay and slab.
 */
export const thermalDefaults: Readonly<
  Record<MaterialKind, {readonly conductivity: number; readonly density: number; readonly heatCapacity: number}>
> = {
  asphalt: {conductivity: 1.4, density: 2350, heatCapacity: 920},
  interlayer: {conductivity: 1.2, density: 2300, heatCapacity: 920},
  concrete: {conductivity: 1.75, density: 2400, heatCapacity: 960},
  "cement-bound": {conductivity: 1.5, density: 2250, heatCapacity: 950},
  granular: {conductivity: 1.4, density: 2100, heatCapacity: 900},
  soil: {conductivity: 1.5, density: 1900, heatCapacity: 1100},
};

/** Smallest usual process zone [mm]. */
const smallestZone_mm = 5;

/** Process zone of a mix whose own was not measured: the larger of 5 mm and half the nominal aggregate size [mm]. */
export function usualZone_mm(aggregate_mm: number): number {
  return Math.max(smallestZone_mm, aggregate_mm / 2);
}

const modulus = (description: string) =>
  quantity("MPa", description, {
    above: 0,
    max: 500_000,
    typical: [1, 60_000],
    why: "a modulus is positive and no pavement material is stiffer than steel",
  });

const growthFields = z.strictObject({
  A_mm_per_cycle: quantity("mm/cycle, ε in µε", "A of dc/dN = A·ε^n: crack advance per cycle at a tip strain of 1 µε", {
    above: 0,
    max: 1,
    why: "A is a tiny positive number: with n = 4 usually 1e-20 to 1e-12",
  }),
  n: quantity("–", "n of dc/dN = A·ε^n", {above: 0, max: 12, typical: [2, 8], why: "the exponent is usually 3 to 6"}),
  process_zone_mm: quantity(
    "mm",
    "d, length ahead of the tip over which stress is averaged; a law holds only with its own. Left out: the larger of 5 mm and half of aggregate_mm",
    {above: 0, max: 100, typical: [2, 30], why: "the process zone is a few millimetres, about half the aggregate size"},
  ).optional(),
  aggregate_mm: quantity("mm", "Nominal aggregate size, from which the process zone follows when it is left out", {
    above: 0,
    max: 100,
    typical: [2, 40],
  }).optional(),
  stiffness_shift: z
    .strictObject({
      reference_modulus_MPa: modulus("E₀, modulus at which A was measured"),
      exponent: quantity("–", "m of A = A₀·(E/E₀)^m", {min: -6, max: 6}),
    })
    .meta({description: "For use at another temperature or loading time than A was measured at. Left out: none"})
    .optional(),
});

export const materialFields = z.strictObject({
  kind: z.enum(materialKinds).meta({description: "Chooses the defaults of `thermal`"}),
  modulus_MPa: modulus("Young's modulus at wheel loading time, the same at all temperatures").optional(),
  modulus_by_temperature: z
    .array(
      z.strictObject({
        temperature_C: quantity("°C", "Temperature", {
          min: -80,
          max: 120,
          why: "no pavement is that cold or hot in °C",
        }),
        modulus_MPa: modulus("Young's modulus at wheel loading time"),
      }),
    )
    .min(2, {error: "a table has at least two rows; for one value use modulus_MPa"})
    .max(200, {error: "the table is too long"})
    .meta({
      description:
        "Instead of modulus_MPa: a table with ascending temperature. It must cover every temperature bin; nothing is extrapolated",
    })
    .optional(),
  master_curve: masterCurveFields
    .meta({
      description:
        "Instead of modulus_MPa and modulus_by_temperature: stiffness over temperature and loading frequency. One of tests, parameters, estimate",
    })
    .optional(),
  modulus_from: z
    .strictObject({
      cbr_percent: quantity("%", "California bearing ratio", {above: 0, max: 150}).optional(),
      k_MPa_per_m: quantity("MPa/m", "Modulus of subgrade reaction, plate of 762 mm", {above: 0, max: 1000}).optional(),
      relation: z
        .enum(["power", "linear", "plate"])
        .meta({
          description:
            "power: E = 17.6·CBR^0.64 MPa, or E = 20.15·k^1.284 in psi and psi/inch; linear: E = 10·CBR MPa; plate: half-space under the plate. Left out: power",
        })
        .optional(),
    })
    .meta({
      description:
        "Instead of modulus_MPa, of soil and granular where no stiffness was tested: an estimate, shown as one. Either the CBR or k",
    })
    .optional(),
  relaxation_modulus_MPa: modulus(
    "Modulus at the loading time of a daily temperature cycle (hours), never the wheel-speed modulus. May be left out with a master curve, from which it then follows, and for concrete, cement-bound, granular and soil (then equal to modulus_MPa)",
  ).optional(),
  poisson: quantity("–", "Poisson ratio", {
    min: 0,
    below: 0.5,
    typical: [0.1, 0.49],
    why: "a Poisson ratio of 0.5 or more would make the material incompressible or worse; below 0 it would swell when stretched",
  }),
  expansion_per_C: quantity("1/°C", "Thermal expansion. May be left out (then 0) for granular and soil", {
    min: 0,
    max: 2e-4,
    typical: [0, 6e-5],
    why: "thermal expansion is about 1e-5 to 3e-5 per °C",
  }).optional(),
  thermal: z
    .strictObject({
      conductivity_W_per_mK: quantity("W/(m·K)", "Heat conductivity", {
        above: 0,
        max: 10,
        typical: [0.5, 4],
      }).optional(),
      density_kg_per_m3: quantity("kg/m³", "Density", {above: 100, max: 5000, typical: [1200, 2800]}).optional(),
      heat_capacity_J_per_kgK: quantity("J/(kg·K)", "Heat capacity", {
        above: 100,
        max: 5000,
        typical: [700, 2000],
      }).optional(),
    })
    .meta({description: "Left out, whole or in part: the usual values of the kind"})
    .optional(),
  crack_growth: growthFields
    .meta({description: "Crack growth law; required for the overlay and for an interlayer"})
    .optional(),
  fatigue_line: z
    .strictObject({
      strain_at_million_microstrain: quantity("µε", "ε₆, strain amplitude for a million cycles", {
        above: 0,
        max: 20_000,
        typical: [40, 3000],
      }),
      exponent: quantity("–", "k of N = 10⁶·(ε₆/ε)^k", {above: 0, max: 15, typical: [3, 8]}),
      stiffness_shift: z
        .strictObject({
          reference_modulus_MPa: modulus("E₀, modulus at which ε₆ was measured"),
          exponent: quantity("–", "s of ε₆(E) = ε₆·(E₀/E)^s; 0.5 in the French design method", {
            min: 0,
            max: 2,
            typical: [0.2, 1],
          }),
        })
        .meta({description: "For use at other temperatures than ε₆ was measured at. Left out: none"})
        .optional(),
    })
    .meta({
      description: "Fatigue line. Left out: ordinary fatigue away from the joint is not computed in this material",
    })
    .optional(),
  law_file: words(
    "Law file that a laboratory programme wrote, relative to the study: instead of crack_growth, and of fatigue_line when it holds one",
  ).optional(),
  law_shift: z
    .strictObject({
      growth_exponent: quantity("–", "m of A = A₀·(E/E₀)^m, E₀ the modulus in the tests", {
        min: -6,
        max: 6,
      }).optional(),
      fatigue_exponent: quantity("–", "s of ε₆(E) = ε₆·(E₀/E)^s, E₀ that of the specimens", {
        min: 0,
        max: 2,
      }).optional(),
    })
    .meta({description: "For using the laws of law_file at other moduli than in the tests. Left out: none"})
    .optional(),
  process_zone_mm: quantity(
    "mm",
    "What you think the process zone of law_file's growth law is; another one there is a fault. May be left out",
    {above: 0, max: 100},
  ).optional(),
  source: words(
    "Where the numbers come from, shown in the report; required with crack_growth. May say 'invented'",
  ).optional(),
});
