/** How files were read, in the words that command line, page and report have in common. */
import {formatLaboratoryFaults, type LaboratoryFault, listed, type RefusedRow} from "./fault.ts";
import {formatUnderstanding, type Understanding} from "./understanding.ts";

/** How files were read: shown before they are used. */
export interface LaboratoryReading {
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly refused: readonly RefusedRow[];
  readonly understandings: readonly Understanding[];
}

/** Several readings as one. */
export function readTogether(readings: readonly LaboratoryReading[]): LaboratoryReading {
  return {
    faults: readings.flatMap(r => r.faults),
    warnings: readings.flatMap(r => r.warnings),
    refused: readings.flatMap(r => r.refused),
    understandings: readings.flatMap(r => r.understandings),
  };
}

/** Columns as they were understood. */
export function understandingText({understandings}: LaboratoryReading): string {
  return understandings.map(formatUnderstanding).join("\n");
}

/** Rows that were left out, a line for each specimen or beam. */
export function leftOutLines(refused: readonly RefusedRow[]): string[] {
  const byName = Map.groupBy(refused, ({file, name}) => `${name ?? "rows without a name"} (${file}`);
  return [...byName].map(([who, rows]) => `${who}${rows[0].row ? `, ${listed(rows.map(r => r.row))}` : ""})`);
}

/** Faults, rows that were left out for them, and warnings; empty when there is nothing to say. */
export function readingFaultsText({faults, warnings, refused}: LaboratoryReading): string {
  const left = leftOutLines(refused).map(line => `  ${line}`);
  return [
    formatLaboratoryFaults(faults),
    left.length ? `Left out for faults, ${refused.length} in all:\n${left.join("\n")}\n` : "",
    formatLaboratoryFaults(warnings, {one: "warning", many: "warnings"}),
  ]
    .filter(text => text !== "")
    .join("\n");
}

/** Faults and warnings of reading as sentences for a report. */
export function readingWarnings({faults, warnings, refused}: LaboratoryReading): string[] {
  return [
    ...[...faults, ...warnings].map(
      f =>
        `${[f.file, f.row, f.column].filter(Boolean).join(", ")}: ${f.problem}; found ${f.found}, accepted ${f.accepted}`,
    ),
    ...refused.map(r => `${r.name ?? "A row"} of ${r.file}${r.row ? `, ${r.row},` : ""} was left out for faults`),
  ];
}
