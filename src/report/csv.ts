/** Crack fronts against time as comma-separated values (RFC 4180: CRLF, quotes doubled). */

import type {CrackHistory, Treatment} from "../engine/life/types.ts";

const COLUMNS = [
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

function field(value: string | number): string {
  const text = typeof value === "number" ? String(Number(value.toPrecision(DIGITS))) : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * One row an accepted step. Fronts are lengths from where each starts: interlayer from the joint up, underside from the overlay's underside
 * up, surface from the surface down.
 */
export function frontsCsv(history: CrackHistory, treatment: Treatment): string {
  const rows: string[] = [COLUMNS.join(",")];
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
