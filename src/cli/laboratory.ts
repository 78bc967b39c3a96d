/** What the laboratory commands share. */
import path from "node:path";
import type {OutputFile} from "../node/index.ts";
import type {ReportContext} from "../report/index.ts";
import type {LawDocument} from "../schema/index.ts";
import {
  type LaboratoryReading,
  lawTexts,
  readingFaultsText,
  readingWarnings,
  understandingText,
} from "../schema/laboratory/index.ts";
import {reportContext} from "./reportContext.ts";
import type {Terminal} from "./terminal.ts";

/** What `--check` prints. */
export function checkText(reading: LaboratoryReading): string {
  return `${understandingText(reading)}\n${readingFaultsText(reading) || "No faults, no warnings.\n"}`;
}

/** What a report says of the files it was made from. */
export function readingContext(
  reading: LaboratoryReading,
  hashes: readonly {readonly sha256: string}[],
): Promise<ReportContext> {
  return reportContext({
    inputHash: hashes[0]?.sha256 ?? "",
    sources: {"How the files were understood": understandingText(reading)},
    warnings: readingWarnings(reading),
  });
}

/**
 * One line a file: its columns that are named otherwise than the program names them, and those it only keeps, so that a slip
 * is seen without asking. `--check` shows them all.
 */
export function sayReading(reading: LaboratoryReading, terminal: Terminal): void {
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
  const faults = readingFaultsText(reading);
  if (faults) terminal.say(`\n${faults}\n`);
}

export function lawFiles(folder: string | undefined, laws: readonly LawDocument[]): OutputFile[] {
  if (folder === undefined) return [];
  return lawTexts(laws).map(({fileName, text}) => ({path: path.join(folder, fileName), text}));
}
