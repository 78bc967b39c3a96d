import {parse} from "csv-parse/browser/esm/sync"; // without Buffer: the same in Node and in a page
import type {DocumentPath, Findings} from "./fault.ts";
import {nearest} from "./nearest.ts";

/** Fetches a file that the study names: its text, or why it cannot be had. Must not throw. */
export type ReadCsv = (path: string) => string | {readonly problem: string};

/** Columns of a CSV file as text, with the line of the file for each row. */
export interface Table {
  readonly columns: Readonly<Record<string, readonly string[]>>; // by role, such as "temperature"
  readonly lines: Int32Array; // line in the file of each row, from 1
  readonly cleaned?: true; // what was not recorded is empty already: numbers that elsewhere mean so are values here
}

/** Rows listed in a message before it goes on to count. */
const shownRows = 5;

/** "lines 7, 12 and 30", "lines 1, 2, 3, 4, 5 and 17 more". */
export function linesText(lines: readonly number[]): string {
  if (lines.length === 1) return `line ${lines[0]}`;
  if (lines.length <= shownRows) return `lines ${lines.slice(0, -1).join(", ")} and ${lines[lines.length - 1]}`;
  return `lines ${lines.slice(0, shownRows).join(", ")} and ${lines.length - shownRows} more`;
}

/** Reads the named columns of a CSV file. Null when something is wrong, which the findings then tell. */
export function readTable(
  options: {
    readonly file: string;
    readonly headerLine: number;
    readonly columns: Readonly<Record<string, string | undefined>>; // role → column name
  },
  path: DocumentPath,
  readCsv: ReadCsv,
  findings: Findings,
): Table | null {
  const text = readCsv(options.file);
  if (typeof text !== "string") {
    findings.fault([...path, "file"], {
      problem: `the file cannot be read: ${text.problem}`,
      accepted: "a CSV file, its path relative to the study",
    });
    return null;
  }
  const rows = parseRows(text, options, path, findings);
  if (!rows) return null;
  const [header, ...body] = rows;
  const names = header.record.map(name => name.trim());
  const indices = columnIndices(names, options, path, findings);
  if (!indices) return null;
  if (body.length === 0) {
    findings.fault([...path, "file"], {
      problem: "the file has no rows below its header",
      accepted: "a row for each reading",
    });
    return null;
  }
  const columns = Object.fromEntries(
    Object.entries(indices).map(([role, index]) => [role, body.map(({record}) => (record[index] ?? "").trim())]),
  );
  return {columns, lines: Int32Array.from(body, ({line}) => line)};
}

interface Row {
  readonly record: readonly string[];
  readonly line: number;
}

function parseRows(
  text: string,
  options: {readonly file: string; readonly headerLine: number},
  path: DocumentPath,
  findings: Findings,
): Row[] | null {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
  const header = lines[options.headerLine - 1];
  if (header === undefined || header.trim() === "") {
    findings.fault([...path, "file"], {
      problem: `line ${options.headerLine} of the file, where the column names should be, is ${header === undefined ? "not there" : "empty"}`,
      accepted: "a CSV file; header_line says which line has the column names",
    });
    return null;
  }
  const delimiter = delimiterOf(header);
  try {
    const parsed = parse(lines.slice(options.headerLine - 1).join("\n"), {
      delimiter,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
    }) as unknown as {record: string[]; info: {lines: number}}[];
    return parsed.map(({record, info}) => ({record, line: info.lines + options.headerLine - 1}));
  } catch (error) {
    // csv-parse throws at unbalanced quotes and the like; its message names the line
    findings.fault([...path, "file"], {
      problem: `the file is not proper CSV: ${(error as Error).message}`,
      accepted: "comma, semicolon or tab separated columns",
    });
    return null;
  }
}

function columnIndices(
  names: readonly string[],
  options: {readonly file: string; readonly columns: Readonly<Record<string, string | undefined>>},
  path: DocumentPath,
  findings: Findings,
): Record<string, number> | null {
  const indices: Record<string, number> = {};
  let complete = true;
  for (const [role, name] of Object.entries(options.columns)) {
    if (name === undefined) continue;
    const index = names.indexOf(name);
    if (index >= 0 && names.indexOf(name, index + 1) < 0) {
      indices[role] = index;
      continue;
    }
    complete = false;
    const meant = nearest(name, names);
    findings.fault([...path, "columns", role], {
      problem: index < 0 ? `${options.file} has no such column` : `${options.file} has this column twice`,
      accepted: names.join(", "),
      suggestion: index < 0 && meant !== null ? `did you mean ${meant}?` : null,
    });
  }
  return complete ? indices : null;
}

/** Values that loggers and archives write for "not recorded". */
const sentinels: ReadonlySet<number> = new Set([
  -9999, -999.9, -999, -99.9, -99, -9999.9, 999, 999.9, 9999, 99999, -99999, 9999.9, -6999, -7999,
]);

/** Column names in a file; none where the line is not there. */
export function headerNames(text: string, headerLine: number): string[] {
  const line = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/)[headerLine - 1] ?? "";
  return line.split(delimiterOf(line)).map(name => name.trim().replace(/^"(.*)"$/, "$1"));
}

/** The separator that a line has most of. */
function delimiterOf(line: string): string {
  return [",", ";", "\t"].reduce((best, candidate) =>
    line.split(candidate).length > line.split(best).length ? candidate : best,
  );
}

/** A column of numbers; NaN where nothing was recorded. */
export interface NumberColumn {
  readonly values: Float64Array;
  readonly sentinelsFound: readonly number[]; // which marks of "not recorded" were met
}

/**
 * Turns cells into numbers. Empty cells and sentinels become NaN; anything else that is no number is a fault.
 *
 * @param marks  values that stand for "not recorded"; a modulus may well be 999
 */
export function numberColumn(
  table: Table,
  role: string,
  path: DocumentPath,
  findings: Findings,
  marks: ReadonlySet<number> = sentinels,
): NumberColumn | null {
  const cells = table.columns[role];
  const values = new Float64Array(cells.length);
  const bad: number[] = [];
  const found = new Set<number>();
  for (const [i, cell] of cells.entries()) {
    if (cell === "") values[i] = Number.NaN;
    else if (/^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d{1,3})?$/.test(cell)) {
      const value = Number(cell);
      const isMark = !table.cleaned && marks.has(value);
      if (isMark) found.add(value);
      values[i] = isMark ? Number.NaN : value;
    } else bad.push(i);
  }
  if (bad.length > 0) {
    const first = cells[bad[0]];
    findings.fault([...path, "columns", role], {
      problem: `not a number in ${linesText(bad.map(i => table.lines[i]))} of the file`,
      found: `${JSON.stringify(first.slice(0, 30))} in line ${table.lines[bad[0]]}`,
      accepted: "numbers with a decimal point; an empty cell where nothing was recorded",
      suggestion: /^[-+]?\d+,\d+$/.test(first) ? "write decimal points instead of decimal commas" : null,
    });
    return null;
  }
  return {values, sentinelsFound: [...found]};
}
