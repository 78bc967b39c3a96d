/** Results as comma-separated values (RFC 4180: CRLF, quotes doubled). */

import type {CrackHistory, Treatment, TreatmentLife} from "../engine/life/types.ts";
import type {RiskResult} from "../engine/uncertainty/index.ts";

const EQUIVALENCE_COLUMNS = [
  "treatment",
  "load_class",
  "group",
  "load_kN",
  "passes_per_year",
  "passes_to_failure_alone",
  "factor",
  "fourth_power_factor",
  "share_of_damage",
  "passes_per_coverage",
] as const;

const FRONT_COLUMNS = [
  "treatment",
  "scenario",
  "time_years",
  "passes",
  "interlayer_front_mm",
  "underside_front_mm",
  "surface_front_mm",
] as const;

/** Digits written: more than the engine's accuracy, fewer than the noise of the last bits. */
const DIGITS = 9;

/** A cell; null and NaN are not known, and stay empty. */
export type CsvValue = string | number | null;

function field(value: CsvValue): string {
  if (value === null || Number.isNaN(value)) return "";
  const text = typeof value === "number" ? String(Number(value.toPrecision(DIGITS))) : inert(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * A name that a spreadsheet would take for a formula gets an apostrophe before it: names come from documents, and those from
 * anybody. Numbers are never names, so a minus of a number stays as it is.
 */
function inert(text: string): string {
  return /^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text;
}

/** @param heading names of the columns */
export function csvText(heading: readonly string[], rows: readonly (readonly CsvValue[])[]): string {
  return `${[heading, ...rows].map(row => row.map(field).join(",")).join("\r\n")}\r\n`;
}

/** One row a load class: what it is worth on this section. Null without traffic. */
export function equivalenceCsv({treatment, equivalence}: TreatmentLife): string | null {
  if (!equivalence) return null;
  const rows = equivalence.classes.map(c => [
    treatment.name,
    c.loadClass,
    c.group ?? "",
    c.load / 1e3,
    c.passesPerYear,
    c.passesToFailure,
    c.factor,
    c.fourthPower,
    c.share,
    c.passesPerCoverage,
  ]);
  const lines = [EQUIVALENCE_COLUMNS.join(","), ...rows.map(row => row.map(field).join(","))];
  return `${lines.join("\r\n")}\r\n`;
}

/**
 * One row an accepted step. Fronts are lengths from where each starts: interlayer from the joint up, underside from the overlay's underside
 * up, surface from the surface down.
 */
export function frontsCsv(history: CrackHistory, treatment: Treatment): string {
  const rows: string[] = [FRONT_COLUMNS.join(",")];
  for (let i = 0; i < history.years.length; i++) {
    const row = [
      treatment.name,
      history.scenario,
      history.years[i]!,
      history.passes[i]!,
      history.interlayer[i]! * 1e3,
      history.underside[i]! * 1e3,
      history.surface[i]! * 1e3,
    ];
    rows.push(row.map(field).join(","));
  }
  return `${rows.join("\r\n")}\r\n`;
}

/** One row a sample and treatment. A life that outlasts the horizon is marked as censored. */
export function riskCsv({samples, treatments}: RiskResult): string {
  const rows = samples.flatMap(({lives}, i) =>
    lives.map(({years, censored, mechanism}, k) =>
      [i + 1, treatments[k].name, years, censored ? "yes" : "no", mechanism].map(field).join(","),
    ),
  );
  return `${["sample,treatment,life_years,censored,mechanism", ...rows].join("\r\n")}\r\n`;
}
