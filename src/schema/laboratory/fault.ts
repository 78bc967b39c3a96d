/** Something wrong with a laboratory file, or (as a warning) something to look at. */
export interface LaboratoryFault {
  readonly file: string;
  readonly row: string | null; // "line 7", or "Tests!7" in a workbook; null: the whole file
  readonly column: string | null; // header as it stands in the file; null: the whole row
  readonly problem: string; // what is wrong, as a sentence without full stop
  readonly found: string;
  readonly accepted: string;
  readonly suggestion: string | null;
}

/** What is wrong with a file or a row as a whole. */
export interface WholeProblem {
  readonly problem: string;
  readonly found: string;
  readonly accepted: string;
  readonly suggestion?: string;
}

/** @param row where it is; null: the whole file */
export function wholeFault(
  file: string,
  row: string | null,
  {problem, found, accepted, suggestion}: WholeProblem,
): LaboratoryFault {
  return {file, row, column: null, problem, found, accepted, suggestion: suggestion ?? null};
}

/** A row that did not become a specimen, a beam or a reading, and why. */
export interface RefusedRow {
  readonly file: string;
  readonly row: string;
  readonly name: string | null; // of the specimen or beam
  readonly reasons: readonly string[];
}

/** Text of a file in a message: quoted, shortened. */
export function quoted(text: string): string {
  if (text === "") return "nothing (empty)";
  return JSON.stringify(text.length > 60 ? `${text.slice(0, 57)}…` : text);
}

/** A length in a message. */
export function mm(length: number): string {
  return `${Number((1000 * length).toPrecision(6))} mm`;
}

/** Faults as readable text: a block for each file, in the order in which they were found; alike ones in one. */
export function formatLaboratoryFaults(
  faults: readonly LaboratoryFault[],
  noun: {readonly one: string; readonly many: string} = {one: "fault", many: "faults"},
): string {
  const blocks = [...Map.groupBy(faults, ({file}) => file)].map(([file, own]) => {
    const heading = `${own.length} ${own.length === 1 ? noun.one : noun.many} in ${file}:`;
    const alike = Map.groupBy(own, f => JSON.stringify([f.column, f.problem, f.accepted, f.suggestion]));
    return [heading, ...[...alike.values()].map(faultText)].join("\n\n");
  });
  return blocks.length === 0 ? "" : `${blocks.join("\n\n")}\n`;
}

const SHOWN = 5; // places and values of one fault

/** Some of a list, and how many more. */
export function listed(items: readonly string[]): string {
  const more = items.length - SHOWN;
  return more > 0 ? `${items.slice(0, SHOWN).join(", ")} and ${more} more` : items.join(", ");
}

/** @param alike at least one; they differ in row and in what was found */
function faultText(alike: readonly LaboratoryFault[]): string {
  const [{column, problem, accepted, suggestion}] = alike;
  const rows = [...new Set(alike.flatMap(f => f.row ?? []))];
  const found = [...new Set(alike.map(f => f.found))];
  const place = [...(rows.length ? [listed(rows)] : []), ...(column === null ? [] : [column.replaceAll(/\s+/g, " ")])];
  const lines = [`  ${place.join(", ") || "file"}: ${problem}`, `    found ${listed(found)}; accepted: ${accepted}`];
  if (suggestion !== null) lines.push(`    ${suggestion}`);
  return lines.join("\n");
}
