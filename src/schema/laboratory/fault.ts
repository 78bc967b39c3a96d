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

/** Faults as readable text: a block for each file, in the order in which they were found. */
export function formatLaboratoryFaults(
  faults: readonly LaboratoryFault[],
  noun: {readonly one: string; readonly many: string} = {one: "fault", many: "faults"},
): string {
  const blocks = [...Map.groupBy(faults, ({file}) => file)].map(([file, own]) => {
    const heading = `${own.length} ${own.length === 1 ? noun.one : noun.many} in ${file}:`;
    return [heading, ...own.map(faultText)].join("\n\n");
  });
  return blocks.length === 0 ? "" : `${blocks.join("\n\n")}\n`;
}

function faultText({row, column, problem, found, accepted, suggestion}: LaboratoryFault): string {
  const place = [row, column === null ? null : column.replaceAll(/\s+/g, " ")].filter(part => part !== null).join(", ");
  const rows = [`  ${place || "file"}: ${problem}`, `    found ${found}; accepted: ${accepted}`];
  if (suggestion !== null) rows.push(`    ${suggestion}`);
  return rows.join("\n");
}
