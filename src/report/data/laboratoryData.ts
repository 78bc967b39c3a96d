/** Numbers behind the pictures of laboratory programmes: fatigue lines, beams, growth laws. */

import type {
  BeamPrediction,
  FatigueBand,
  FittedFronts,
  LifeComparison,
  MaterialFatigue,
  ReducedFront,
  Specimen,
} from "../../engine/laboratory/index.ts";
import type {BeamPicture, LawCurve} from "../charts/index.ts";
import {isMet} from "../charts/laws.ts";
import {csvText} from "../csv.ts";

/** One row a specimen, those set aside too, with the reason. */
export function specimensCsv(materials: readonly MaterialFatigue[]): string {
  return csvText(
    ["material", "specimen", "strain_microstrain", "cycles", "run_out", "set_aside"],
    materials.flatMap(({material, points}) =>
      points.map(p => [material, p.name, p.strain * 1e6, p.cycles, p.runOut ? "yes" : "no", p.setAside]),
    ),
  );
}

/** One row a strain of each line, with the interval of the line and that of one more specimen. */
export function fatigueLinesCsv(materials: readonly MaterialFatigue[], probability: number): string {
  const rowsOf = (material: string, b: FatigueBand) =>
    Array.from(b.strains, (strain, i) => [
      material,
      strain * 1e6,
      b.cycles[i]!,
      b.confidenceLow[i]!,
      b.confidenceHigh[i]!,
      b.predictionLow[i]!,
      b.predictionHigh[i]!,
      100 * b.probability,
    ]);
  return csvText(
    [
      "material",
      "strain_microstrain",
      "cycles",
      "line_low_cycles",
      "line_high_cycles",
      "specimen_low_cycles",
      "specimen_high_cycles",
      "probability_percent",
    ],
    materials.flatMap(({material, bands}) =>
      bands.filter(b => b.probability === probability).flatMap(b => rowsOf(material, b)),
    ),
  );
}

/** One row a strain: life over that of the reference. */
export function comparisonCsv(comparisons: readonly LifeComparison[]): string {
  return csvText(
    ["material", "reference", "strain_microstrain", "ratio", "low", "high", "extrapolated"],
    comparisons.flatMap(c =>
      Array.from(c.strains, (strain, i) => [
        c.material,
        c.reference,
        strain * 1e6,
        c.ratio[i]!,
        c.low[i]!,
        c.high[i]!,
        c.extrapolated[i] ? "yes" : "no",
      ]),
    ),
  );
}

/** One row a kept point of each stiffness history. */
export function historiesCsv(specimens: readonly Specimen[]): string {
  return csvText(
    ["material", "specimen", "cycles", "modulus_MPa", "ratio_to_initial"],
    specimens.flatMap(({material, name, history: h}) =>
      h
        ? Array.from(h.cycles, (n, i) => [material, name, n, h.modulus[i]! / 1e6, h.modulus[i]! / h.initialModulus])
        : [],
    ),
  );
}

/** All that is drawn of a beam: lengths as read and smoothed, as fitted, and as predicted without it. */
export function beamCsv({test, reduced, fitted, prediction}: BeamPicture): string {
  const fronts = ["lower", "upper"] as const;
  const rows = fronts.flatMap(front => [
    ...readRows(reduced[front]).map(row => [test.name, front, ...row]),
    ...(fitted ? fittedRows(fitted, front).map(row => [test.name, front, ...row]) : []),
    ...(prediction ? predictedRows(prediction, front).map(row => [test.name, front, ...row]) : []),
  ]);
  return csvText(["beam", "front", "length_is", "passes", "length_mm", "low_mm", "high_mm"], rows);
}

type Row = (string | number | null)[];

function readRows({passes, length, difference, smooth}: ReducedFront): Row[] {
  return Array.from(passes, (n, k): Row[] => {
    const [middle, half] = [length[k]! * 1e3, (difference[k]! / 2) * 1e3]; // half is NaN with one face
    return [
      ["read", n, middle, middle - half, middle + half],
      ["smoothed", n, smooth[k]! * 1e3, null, null],
    ];
  }).flat();
}

function fittedRows(fitted: FittedFronts, front: "lower" | "upper"): Row[] {
  return Array.from(fitted.passes, (n, k): Row => ["fitted", n, fitted[front][k]! * 1e3, null, null]);
}

function predictedRows(prediction: BeamPrediction, front: "lower" | "upper"): Row[] {
  const {low, middle, high} = prediction[front];
  return Array.from(
    prediction.passes,
    (n, k): Row => ["predicted without it", n, middle[k]! * 1e3, low[k]! * 1e3, high[k]! * 1e3],
  );
}

/** One row a beam: passes until it broke, predicted by the others and observed. Without an end it had not broken at the stop. */
export function predictionsCsv(predictions: readonly BeamPrediction[]): string {
  return csvText(
    [
      "beam",
      "observed_after_passes",
      "observed_before_passes",
      "predicted_passes",
      "predicted_low_passes",
      "predicted_high_passes",
      "within",
    ],
    predictions.map(({name, observed, life, within}) => [
      name,
      observed.after,
      observed.before,
      life.middle,
      life.low,
      life.high,
      within ? "yes" : "no",
    ]),
  );
}

/** One row a strain of each growth law; `met` says whether cracks in the beams went through it. */
export function growthLawsCsv(laws: readonly (LawCurve & {readonly material: string})[]): string {
  return csvText(
    [
      "material",
      "tip_strain_microstrain",
      "growth_mm_per_cycle",
      "low_mm_per_cycle",
      "high_mm_per_cycle",
      "met_in_beams",
    ],
    laws.flatMap(({material, strain, rate, low, high, met}) =>
      Array.from(strain, (s, i) => [
        material,
        s * 1e6,
        rate[i]! * 1e3,
        low[i]! * 1e3,
        high[i]! * 1e3,
        isMet({met}, s) ? "yes" : "no",
      ]),
    ),
  );
}
