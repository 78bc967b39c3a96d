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

/** Faults of one kind in one column of a file: where they are and what was found there. */
export interface FaultGroup {
  readonly place: string; // "line 3, line 7, strain [µε]", or "file"
  readonly problem: string;
  readonly found: string;
  readonly accepted: string;
  readonly suggestion: string | null;
}

/** Faults by file, in the order in which they were found; alike ones in one. */
export function groupedFaults(
  faults: readonly LaboratoryFault[],
): readonly {readonly file: string; readonly count: number; readonly groups: readonly FaultGroup[]}[] {
  return [...Map.groupBy(faults, ({file}) => file)].map(([file, own]) => {
    const alike = Map.groupBy(own, f => JSON.stringify([f.column, f.problem, f.accepted, f.suggestion]));
    return {file, count: own.length, groups: [...alike.values()].map(faultGroup)};
  });
}

/** Faults as readable text: a block for each file. */
export function formatLaboratoryFaults(
  faults: readonly LaboratoryFault[],
  noun: {readonly one: string; readonly many: string} = {one: "fault", many: "faults"},
): string {
  const blocks = groupedFaults(faults).map(({file, count, groups}) =>
    [`${count} ${count === 1 ? noun.one : noun.many} in ${file}:`, ...groups.map(groupText)].join("\n\n"),
  );
  return blocks.length === 0 ? "" : `${blocks.join("\n\n")}\n`;
}

const SHOWN = 5; // places and values of one fault

/** Some of a list, and how many more. */
export function listed(items: readonly string[]): string {
  const more = items.length - SHOWN;
  return more > 0 ? `${items.slice(0, SHOWN).join(", ")} and ${more} more` : items.join(", ");
}

/** @param alike at least one; they differ in row and in what was found */
function faultGroup(alike: readonly LaboratoryFault[]): FaultGroup {
  const [{column, problem, accepted, suggestion}] = alike;
  const rows = [...new Set(alike.flatMap(f => f.row ?? []))];
  const found = [...new Set(alike.map(f => f.found))];
  const place = [...(rows.length ? [listed(rows)] : []), ...(column === null ? [] : [column.replaceAll(/\s+/g, " ")])];
  return {place: place.join(", ") || "file", problem, found: listed(found), accepted, suggestion};
}

function groupText({place, problem, found, accepted, suggestion}: FaultGroup): string {
  const lines = [`  ${place}: ${problem}`, `    found ${found}; accepted: ${accepted}`];
  if (suggestion !== null) lines.push(`    ${suggestion}`);
  return lines.join("\n");
}
