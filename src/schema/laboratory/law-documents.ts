/** Laboratory results as law files: the engine's SI into the units of documents. */
import {
  type BeamCase,
  type Calibration,
  type FatigueResult,
  type LawEstimate,
  lawDifference,
  type MaterialFatigue,
  REFERENCE_STRAIN,
} from "../../engine/laboratory/index.ts";
import type {LawDocument} from "../law-file.ts";

const MM = 1e3; // of a metre
const MICRO = 1e6; // of a strain of one
const PA = 1e6; // of a MPa
const PA_PER_M = 1e9; // of a MPa/mm

type GrowthDocument = NonNullable<LawDocument["crack_growth"]>;

export type Provenance = LawDocument["provenance"];

/** A law file for every material that a programme says something about. */
export function lawDocuments(
  calibration: Calibration | null,
  fatigue: FatigueResult | null,
  provenance: Provenance,
): LawDocument[] {
  const growth = calibration ? growthLaws(calibration, fatigue) : new Map<string, GrowthDocument>();
  const lines = new Map((fatigue?.materials ?? []).map(m => [m.material, fatigueLine(m, fatigue!)]));
  const names = [...new Set([...growth.keys(), ...lines.keys()])];
  return names.flatMap((material): LawDocument[] => {
    const [law, line] = [growth.get(material), lines.get(material)];
    if (!law && !line) return [];
    return [
      {
        law_format: 1,
        material,
        ...(law && {crack_growth: law}),
        ...(line && {fatigue_line: line}),
        warnings: warningsOf(material, calibration, fatigue),
        provenance,
      },
    ];
  });
}

function growthLaws(calibration: Calibration, fatigue: FatigueResult | null): Map<string, GrowthDocument> {
  const {estimates, origins, cases} = calibration;
  const laws = new Map<string, GrowthDocument>();
  const put = (material: string, estimate: Estimated, found_by: GrowthDocument["found_by"]): void => {
    const modulus = modulusIn(cases, material);
    if (modulus !== null) laws.set(material, growthLaw(calibration, material, estimate, {modulus, found_by}));
  };
  for (const estimate of estimates) put(estimate.material, estimate, "beams");
  for (const [material, origin] of Object.entries(origins)) {
    if (origin.kind !== "relative") continue;
    const from = estimates.find(e => e.material === origin.to);
    if (!from) continue;
    put(material, relativeEstimate(from, origin, difference(material, origin.to, fatigue)), "fatigue lines");
  }
  return laws;
}

/** How sure the difference of two fatigue lines is; nothing is known without them. */
function difference(material: string, other: string, fatigue: FatigueResult | null) {
  const [own, reference] = [material, other].map(name => fatigue?.materials.find(m => m.material === name)?.line);
  return own && reference ? lawDifference(own, reference) : null;
}

type Estimated = Pick<LawEstimate, "exponent" | "logCoefficient" | "covariance">;

/** Another material's law moved by the difference of fatigue lines; the two are independent, so variances add. */
function relativeEstimate(
  {exponent, logCoefficient, covariance}: Estimated,
  moved: {readonly logRate: number; readonly exponent: number},
  known: ReturnType<typeof difference>,
): Estimated {
  return {
    exponent: {...exponent, value: exponent.value + moved.exponent},
    // ln A = ln rate − n·ln ε₀
    logCoefficient: logCoefficient + moved.logRate - moved.exponent * Math.log(REFERENCE_STRAIN),
    covariance: {
      logCoefficient: covariance.logCoefficient + (known?.lnCVariance ?? 0),
      exponent: covariance.exponent + (known?.kVariance ?? 0),
      both: covariance.both - (known?.covariance ?? 0), // ln A falls as ln C rises
    },
  };
}

function growthLaw(
  {request, fit}: Calibration,
  material: string,
  {exponent, logCoefficient, covariance: c}: Estimated,
  {modulus, found_by}: {readonly modulus: number; readonly found_by: GrowthDocument["found_by"]},
): GrowthDocument {
  // dc[mm]/dN = A·(ε in µε)^n: ln A in those units is ln A + ln 10³ − n·ln 10⁶
  const M = Math.log(MICRO);
  const n = exponent.value;
  return {
    A_mm_per_cycle: rounded(Math.exp(logCoefficient + Math.log(MM) - n * M)),
    n: rounded(n),
    process_zone_mm: rounded(request.choices.zoneLength[material] * MM),
    modulus_MPa: rounded(modulus / PA),
    shear_weight: request.shearWeight,
    crack_interlock_MPa_per_mm: rounded(request.choices.interlock / PA_PER_M),
    covariance: {
      ln_A: rounded(c.logCoefficient - 2 * M * c.both + M * M * c.exponent),
      n: rounded(c.exponent),
      ln_A_n: rounded(c.both - M * c.exponent),
    },
    degrees_of_freedom: fit.degrees,
    beam_scatter: rounded(fit.scatter.beam),
    upper_scatter: rounded(fit.scatter.upper),
    found_by,
  };
}

/** E of a material in the beams: their mean [Pa]. */
function modulusIn(cases: readonly BeamCase[], material: string): number | null {
  const all = cases.flatMap(({test}) =>
    [test.overlay, test.interlayer].flatMap(course => (course?.material === material ? [course.modulus] : [])),
  );
  return all.length ? all.reduce((sum, E) => sum + E, 0) / all.length : null;
}

function fatigueLine(m: MaterialFatigue, {programme}: FatigueResult): LawDocument["fatigue_line"] {
  const {line} = m;
  const strain = (m.likelihood ?? m.standard)?.strainAtMillion;
  if (!line || !strain) return undefined;
  const k = -line.slope;
  const used = m.points.filter(p => p.setAside === null).map(p => programme.specimens[p.specimen]);
  const mean = (values: readonly (number | null | undefined)[]): number | null => {
    const known = values.filter(v => v !== null && v !== undefined);
    return known.length ? known.reduce((sum, v) => sum + v, 0) / known.length : null;
  };
  const modulus = mean(used.map(s => s.history?.initialModulus ?? s.initialModulus));
  const temperature = mean(used.map(s => s.temperature));
  const frequency = mean(used.map(s => s.frequency));
  // lg ε₆ = (6 − level)/slope + centre: by the delta method its variance, and covariance with k = −slope.
  const x = Math.log10(strain) - line.centre;
  const byLevel = -1 / line.slope;
  const bySlope = -x / line.slope;
  const variance =
    byLevel ** 2 * line.levelVariance +
    2 * byLevel * bySlope * line.levelSlopeCovariance +
    bySlope ** 2 * line.slopeVariance;
  const both = -(byLevel * line.levelSlopeCovariance + bySlope * line.slopeVariance);
  return {
    strain_at_million_microstrain: rounded(strain * MICRO),
    exponent: rounded(k),
    ...(modulus !== null && {modulus_MPa: rounded(modulus / PA)}),
    ...(temperature !== null && {temperature_C: rounded(temperature)}),
    ...(frequency !== null && {frequency_Hz: rounded(frequency)}),
    covariance: {
      ln_strain_at_million: rounded(Math.LN10 ** 2 * variance),
      exponent: rounded(line.slopeVariance),
      ln_strain_exponent: rounded(Math.LN10 * both),
    },
    degrees_of_freedom: rounded(line.degrees),
    lg_life_scatter: rounded(line.sigma),
    specimens: used.length,
  };
}

function warningsOf(material: string, calibration: Calibration | null, fatigue: FatigueResult | null): string[] {
  const own = (calibration?.warnings ?? []).filter(
    w => w.subjects.includes(material) || w.code === "not converged" || w.code === "choice not known",
  );
  const findings = fatigue?.materials.find(m => m.material === material)?.findings ?? [];
  return [...own.map(w => w.text), ...findings.map(f => f.text)];
}

/** Seven figures: more than any test gives, and the same text on every machine. */
function rounded(value: number): number {
  return Number(value.toPrecision(7));
}
