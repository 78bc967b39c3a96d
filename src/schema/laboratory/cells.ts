/** What a cell of a file holds. Text of a CSV file is not trimmed yet; dates come from workbooks, at midnight UTC. */
export type Cell = string | number | boolean | Date | CellError | null;

/** A cell of a workbook that has no value: an error such as #DIV/0!, or a formula that was never computed. */
export interface CellError {
  readonly error: string;
}

export function isCellError(cell: Cell | undefined): cell is CellError {
  return typeof cell === "object" && cell !== null && "error" in cell;
}

export interface RawRow {
  readonly row: number; // line of the file, or row of the sheet, from 1
  readonly cells: readonly Cell[];
}

export type Delimiter = "," | ";" | "\t";

/** The rows of a CSV file, or of one sheet of a workbook. */
export interface RawSheet {
  readonly name: string | null; // null: a CSV file
  readonly delimiter: Delimiter | null; // null: a workbook
  readonly rows: readonly RawRow[];
  readonly comments: number; // lines that begin with # and are left out of the rows
}

/** One file as rows of cells, with nothing interpreted. */
export interface RawFile {
  readonly file: string; // as it is named in messages
  readonly hash: string; // SHA-256 of its bytes, in hexadecimal
  readonly sheets: readonly RawSheet[];
}

/** The delimiter of a CSV text: the most frequent in its first line that is no comment, quoted text not counted. */
export function delimiterOf(head: string): Delimiter {
  const line =
    head
      .replace(/^\uFEFF/, "")
      .split(/\r\n|\r|\n/)
      .find(text => text.trim() !== "" && !text.startsWith("#")) ?? "";
  const bare = line.replaceAll(/"(?:[^"]|"")*"/g, "");
  const count = (delimiter: string): number => bare.split(delimiter).length;
  return ([";", "\t", ","] as const).reduce((best, one) => (count(one) > count(best) ? one : best));
}

/** A cell as it is shown to a person. */
export function cellText(cell: Cell | undefined): string {
  if (cell === null || cell === undefined) return "";
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? "" : cell.toISOString().slice(0, 10);
  return isCellError(cell) ? cell.error : String(cell).trim();
}

/** Whether there is something in a row. */
export function saysSomething({cells}: RawRow): boolean {
  return cells.some(cell => cellText(cell) !== "");
}

/** "line 7" of a CSV file, "Tests!7" of a workbook. */
export function placeOf(sheet: string | null, row: number): string {
  return sheet === null ? `line ${row}` : `${sheet}!${row}`;
}
