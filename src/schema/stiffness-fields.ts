import {z} from "zod";
import {count, quantity, words} from "./quantity.ts";

/** Models of a master curve, as they are written in a study. */
export const curveModels = ["2S2P1D", "Huet-Sayegh", "sigmoid"] as const;
export const shiftKinds = ["WLF", "Arrhenius"] as const;

/** Reference temperature of a curve when nothing else is said [°C]. */
const usualReference_C = 15;

const reference = (description: string) =>
  quantity("°C", description, {min: -30, max: 60, typical: [-10, 30], why: "no curve is told at such a temperature"});

const modulus = (description: string, min: {above: number} | {min: number}) =>
  quantity("MPa", description, {...min, max: 100_000, why: "asphalt is not stiffer than 60000 MPa"});

const column = (what: string) => words(`Column name: ${what}`);

/** Columns of a file of tests by role; each is looked for by the role itself when nothing else is said. */
export const testColumns = z.strictObject({
  temperature_C: column("temperature in °C").default("temperature_C"),
  frequency_Hz: column("loading frequency in Hz").default("frequency_Hz"),
  modulus_MPa: column("norm of the complex modulus |E*| in MPa").default("modulus_MPa"),
  phase_deg: column(
    "phase angle in degrees. Left out: phase_deg where the file has it, else there is no phase",
  ).optional(),
});

export const testsFields = z.strictObject({
  file: words("CSV file, relative to the study: one row a reading"),
  header_line: count("Line of the file with the column names; lines above it are skipped", 1, 1000).default(1),
  columns: testColumns.meta({description: "Left out: columns are named as the roles are"}).prefault({}),
  model: z
    .enum(curveModels)
    .meta({description: "What is fitted. Left out: 2S2P1D where there is a phase, else sigmoid"})
    .optional(),
  shift: z.enum(shiftKinds).meta({description: "How the curve shifts with temperature"}).default("WLF"),
  reference_temperature_C: reference("Temperature of the curve").default(usualReference_C),
});

const springsFields = {
  static_modulus_MPa: modulus("E₀₀, at vanishing frequency", {min: 0}),
  glassy_modulus_MPa: modulus("E₀, at infinite frequency", {above: 0}),
  delta: quantity("–", "δ", {above: 0, max: 100, typical: [1, 4]}),
  k: quantity("–", "k, less than h", {above: 0, below: 1, typical: [0.1, 0.3]}),
  h: quantity("–", "h", {above: 0, below: 1, typical: [0.35, 0.75]}),
  time_s: quantity("s", "τ at the reference temperature", {above: 0, max: 1e6}),
};

const parametersFields = z.strictObject({
  "2S2P1D": z
    .strictObject({...springsFields, beta: quantity("–", "β, of the dashpot", {above: 0, max: 1e12})})
    .meta({description: "Two springs, two parabolic elements, one dashpot"})
    .optional(),
  "Huet-Sayegh": z.strictObject(springsFields).meta({description: "The same without the dashpot"}).optional(),
  sigmoid: z
    .strictObject({
      lowest_lg_MPa: quantity("lg MPa", "δ, lg of the modulus at vanishing frequency", {min: -3, max: 5}),
      span: quantity("–", "α, from there to the lg of the highest", {above: 0, max: 8, typical: [1, 5]}),
      location: quantity("–", "β", {min: -20, max: 20}),
      slope: quantity("–", "γ, > 0: stiffer with frequency", {above: 0, max: 5, typical: [0.2, 1]}),
    })
    .meta({description: "lg |E*| = δ + α/(1 + exp(β − γ·lg f_r)), |E*| in MPa and f_r in Hz"})
    .optional(),
  shift: z
    .strictObject({
      WLF: z
        .strictObject({
          c1: quantity("–", "C₁ of lg a_T = −C₁(T − T_r)/(C₂ + T − T_r)", {above: 0, max: 1000, typical: [5, 50]}),
          c2_K: quantity("K", "C₂", {above: 0, max: 10_000, typical: [70, 400]}),
        })
        .optional(),
      Arrhenius: z
        .strictObject({
          activation_energy_kJ_per_mol: quantity("kJ/mol", "Of lg a_T = E_a/(R·ln 10)·(1/T − 1/T_r)", {
            above: 0,
            max: 2000,
            typical: [100, 300],
          }),
        })
        .optional(),
    })
    .meta({description: "One of the two"}),
  reference_temperature_C: reference("T_r, temperature of the curve"),
});

const retained = (sieve: string) =>
  quantity("%", `Aggregate retained on the ${sieve} sieve and above, by mass`, {min: 0, max: 100});

const estimateFields = z.strictObject({
  binder: z
    .strictObject({
      penetration_tenth_mm: quantity("0.1 mm", "Penetration at 25 °C; with the softening point", {
        above: 0,
        max: 500,
        typical: [10, 250],
      }).optional(),
      softening_point_C: quantity("°C", "Ring and ball", {min: 20, max: 150, typical: [35, 80]}).optional(),
      viscosity_A: quantity("–", "A of lg lg η = A + VTS·lg T, η in centipoise and T in degrees Rankine", {
        min: 0,
        max: 30,
        typical: [8, 14],
      }).optional(),
      viscosity_VTS: quantity("–", "VTS, negative", {min: -10, below: 0, typical: [-5, -2.5]}).optional(),
    })
    .meta({description: "Penetration and softening point, or the viscosity line"}),
  retained_19_mm_percent: retained("19 mm"),
  retained_9_5_mm_percent: retained("9.5 mm"),
  retained_4_75_mm_percent: retained("4.75 mm"),
  passing_0_075_mm_percent: quantity("%", "Aggregate passing the 0.075 mm sieve, by mass", {
    min: 0,
    max: 30,
    typical: [1, 12],
  }),
  air_voids_percent: quantity("%", "Air voids, by volume of the mix", {min: 0, max: 40, typical: [1, 12]}),
  effective_binder_percent: quantity("%", "Binder that is not absorbed, by volume of the mix", {
    above: 0,
    max: 40,
    typical: [6, 18],
  }),
  reference_temperature_C: reference("Temperature of the curve").default(usualReference_C),
});

export const masterCurveFields = z.strictObject({
  tests: testsFields.meta({description: "Fitted to tests of the complex modulus"}).optional(),
  parameters: parametersFields
    .meta({description: "Given parameters: one of 2S2P1D, Huet-Sayegh and sigmoid, with a shift"})
    .optional(),
  estimate: estimateFields
    .meta({description: "Estimated from the mix, without a test: a predictive equation, good to a factor of two or so"})
    .optional(),
});

export const thermalLoadingFields = z.strictObject({
  daily_loading_time_h: quantity("h", "Loading time of a daily temperature cycle", {
    above: 0,
    max: 24,
    typical: [2, 12],
  }).default(6),
  seasonal_loading_time_h: quantity("h", "Loading time of the seasons", {
    above: 0,
    max: 8760,
    typical: [700, 4400],
  }).default(2000),
  temperature_C: quantity("°C", "At which they load. Left out: mean of the record, 15 without one", {
    min: -40,
    max: 60,
    typical: [-10, 35],
  }).optional(),
});

export type MasterCurveDocument = z.output<typeof masterCurveFields>;
export type TestsDocument = z.output<typeof testsFields>;
export type ParametersDocument = z.output<typeof parametersFields>;
export type EstimateDocument = z.output<typeof estimateFields>;
