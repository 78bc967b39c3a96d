/** What the laboratory commands share. */
import path from "node:path";
import type {OutputFile} from "../node/index.ts";
import type {ReportContext} from "../report/index.ts";
import {type LawDocument, lawText} from "../schema/index.ts";
import {
  formatLaboratoryFaults,
  formatUnderstanding,
  type LaboratoryFault,
  listed,
  type RefusedRow,
  type Understanding,
} from "../schema/laboratory/index.ts";
import {fileWord} from "./flags.ts";
import {reportContext} from "./reportContext.ts";
import type {Terminal} from "./terminal.ts";

/** How files were read: shown before they are used. */
export interface Reading {
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly refused: readonly RefusedRow[];
  readonly understandings: readonly Understanding[];
}

/** Columns as they were understood. */
function understandingText({understandings}: Reading): string {
  return understandings.map(formatUnderstanding).join("\n");
}

/** What `--check` prints. */
export function checkText(reading: Reading): string {
  return `${understandingText(reading)}\n${faultsText(reading) || "No faults, no warnings.\n"}`;
}

/** What a report says of the files it was made from. */
export function readingContext(reading: Reading, hashes: readonly {readonly sha256: string}[]): Promise<ReportContext> {
  return reportContext({
    inputHash: hashes[0]?.sha256 ?? "",
    sources: {"How the files were understood": understandingText(reading)},
    warnings: readingWarnings(reading),
  });
}

/** Faults, rows that were left out for them, and warnings; empty when there is nothing to say. */
export function faultsText({faults, warnings, refused}: Reading): string {
  const byName = Map.groupBy(refused, ({file, name}) => `${name ?? "rows without a name"} (${file}`);
  const left = [...byName].map(([who, rows]) => `  ${who}${rows[0].row ? `, ${listed(rows.map(r => r.row))}` : ""})`);
  return [
    formatLaboratoryFaults(faults),
    left.length ? `Left out for faults, ${refused.length} in all:\n${left.join("\n")}\n` : "",
    formatLaboratoryFaults(warnings, {one: "warning", many: "warnings"}),
  ]
    .filter(text => text !== "")
    .join("\n");
}

/**
 * One line a file: its columns that are named otherwise than the program names them, and those it only keeps, so that a slip
 * is seen without asking. `--check` shows them all.
 */
export function sayReading(reading: Reading, terminal: Terminal): void {
  for (const {file, table, rows, columns} of reading.understandings) {
    const own = ({role, unit}: (typeof columns)[number]): string => (unit ? `${role} [${unit}]` : `${role}`);
    const known = columns.filter(c => c.role !== null);
    const renamed = known.filter(c => c.header !== own(c) && c.header !== c.role).map(c => `${c.header} = ${own(c)}`);
    const kept = columns.filter(c => c.role === null).map(c => c.header);
    const notes = [
      `${known.length} columns understood`,
      ...(renamed.length ? [renamed.join(", ")] : []),
      ...(kept.length ? [`kept as they are: ${kept.join(", ")}`] : []),
    ];
    terminal.say(`${file}: ${table}, ${rows} ${rows === 1 ? "row" : "rows"}; ${notes.join("; ")}\n`);
  }
  const faults = faultsText(reading);
  if (faults) terminal.say(`\n${faults}\n`);
}

/** Warnings of reading as sentences for a report. */
function readingWarnings({faults, warnings, refused}: Reading): string[] {
  return [
    ...[...faults, ...warnings].map(
      f =>
        `${[f.file, f.row, f.column].filter(Boolean).join(", ")}: ${f.problem}; found ${f.found}, accepted ${f.accepted}`,
    ),
    ...refused.map(r => `${r.name ?? "A row"} of ${r.file}${r.row ? `, ${r.row},` : ""} was left out for faults`),
  ];
}

export function lawFiles(folder: string | undefined, laws: readonly LawDocument[]): OutputFile[] {
  if (folder === undefined) return [];
  return laws.map(law => ({path: path.join(folder, `${fileWord(law.material, "material")}.yaml`), text: lawText(law)}));
}
