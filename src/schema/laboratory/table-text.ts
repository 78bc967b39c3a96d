import {type Cell, cellText, isCellError, type RawSheet, saysSomething} from "./cells.ts";
import {decimalMarkOf} from "./numbers.ts";

/**
 * A table as CSV text that is read as the same table: a record of what was evaluated. Comments and empty rows are not in it.
 *
 * Cells are quoted as RFC 4180 has it. A spreadsheet program takes text that begins with = + - @, a tab or a carriage return
 * for a formula; such cells get an apostrophe before them unless they are numbers or a lone sign.
 */
export function tableText(sheet: RawSheet): string {
  const rows = sheet.rows.filter(saysSomething);
  const width = rows.reduce((most, {cells}) => Math.max(most, cells.length), 0);
  // A workbook in which numbers are typed as text with commas stays such a table.
  const {mark, sure} = decimalMarkOf(
    rows.flatMap(({cells}) => cells),
    sheet.delimiter,
  );
  const hasCommas = sheet.delimiter === null && sure && mark === ",";
  const delimiter = sheet.delimiter ?? (hasCommas ? ";" : ",");
  const text = (cell: Cell | undefined): string => {
    const plain = typeof cell === "string" || isCellError(cell) ? cellText(cell) : numberText(cell ?? null, hasCommas);
    return quotedCell(isFormula(plain) ? `'${plain}` : plain);
  };
  // Every row has all columns, so that the first one tells the delimiter.
  return rows.map(({cells}) => `${Array.from({length: width}, (_, i) => text(cells[i])).join(delimiter)}\r\n`).join("");
}

const numberText = (cell: Cell, hasCommas: boolean): string => {
  const text = cellText(cell);
  return typeof cell === "number" && hasCommas ? text.replace(".", ",") : text;
};

/** Whether a spreadsheet program would compute this. */
function isFormula(text: string): boolean {
  return /^[=+\-@\t\r]/.test(text) && !/^[-+]?(?:[\d.,]+(?:e[-+]?\d+)?)?$/i.test(text);
}

/** Quoted too where a later reader might take a delimiter, a comment or a blank for something else. */
function quotedCell(text: string): string {
  return /[",;\t\r\n]|^#|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
