import {type Cell, cellText, type Delimiter} from "./cells.ts";
import {readDate} from "./dates.ts";
import {type MarkChoice, readNumber} from "./numbers.ts";
import {quantityOf, type Role} from "./roles.ts";
import {siUnit, toSi, type Unit} from "./units.ts";
import {readFlag} from "./words.ts";

/** How one column was understood. */
export interface UnderstoodColumn {
  readonly header: string; // as it stands in the file
  readonly role: string | null; // label; null: kept as it is
  readonly unit: string | null;
  readonly firstCell: string; // below the header
  readonly firstValue: string | null; // converted, with its unit; null: kept as it is, or not readable
}

/** How a file was understood: to be shown before it is used. */
export interface Understanding {
  readonly file: string;
  readonly hash: string; // SHA-256 of the file's bytes, in hexadecimal
  readonly table: string; // what it was taken for
  readonly sheet: string | null; // null: a CSV file
  readonly otherSheets: readonly string[]; // not read as this table
  readonly delimiter: Delimiter | null; // null: a workbook
  readonly decimalMark: "." | "," | null; // null: no number of the file is text, or none tells
  readonly headerRow: number; // line of the file or row of the sheet, from 1
  readonly rowsAbove: number; // before the header, not read
  readonly comments: number; // lines that begin with #, not read
  readonly rows: number; // below the header, empty ones and comments not counted
  readonly columns: readonly UnderstoodColumn[];
}

/** What a cell becomes under its role, as text with its unit; null: it cannot be read. */
export function valueText(cell: Cell, role: Role, unit: Unit | null, mark: MarkChoice): string | null {
  const quantity = quantityOf(role);
  if (quantity !== null && unit !== null) {
    const bare = typeof cell === "string" ? cell.replace(/^\s*[>≥]=?|\+\s*$/g, "") : cell;
    const read = readNumber(bare, mark);
    if ("problem" in read) return null;
    const own = siUnit[quantity] === "–" ? "" : ` ${siUnit[quantity]}`;
    const value = toSi(read.value, unit);
    const [shown, si] = own === " Pa" && Math.abs(value) >= 1e6 ? [value / 1e6, " MPa"] : [value, own];
    return `${Number(shown.toPrecision(10))}${si}`;
  }
  if (role.content.kind === "flag") {
    const flag = typeof cell === "boolean" ? cell : readFlag(cellText(cell));
    return flag === null ? null : flag ? "yes" : "no";
  }
  if (role.content.kind === "date") return readDate(cell);
  return cellText(cell);
}

const delimiterNames: Readonly<Record<Delimiter, string>> = {",": "comma", ";": "semicolon", "\t": "tab"};

/** An understanding as text for a terminal. */
export function formatUnderstanding(one: Understanding): string {
  const facts = [
    `${one.table}: ${one.rows} ${one.rows === 1 ? "row" : "rows"} below the header in ${one.sheet === null ? "line" : `sheet ${one.sheet}, row`} ${one.headerRow}`,
    ...(one.rowsAbove > 0 ? [`${one.rowsAbove} above it not read`] : []),
    ...(one.comments > 0 ? [`${one.comments} ${one.comments === 1 ? "comment" : "comments"} passed over`] : []),
    ...(one.delimiter === null ? [] : [`columns parted by ${delimiterNames[one.delimiter]}`]),
    ...(one.decimalMark === null ? [] : [`decimal ${one.decimalMark === "," ? "comma" : "point"}`]),
    ...(one.otherSheets.length > 0 ? [`other sheets: ${one.otherSheets.join(", ")}`] : []),
  ];
  const rows = one.columns.map(({header, role, unit, firstCell, firstValue}) => [
    header,
    role === null ? "kept as it is" : role,
    unit ?? "",
    firstValue === null ? shorten(firstCell) : `${shorten(firstCell)} → ${shorten(firstValue)}`,
  ]);
  const widths = [0, 1, 2].map(i => Math.max(0, ...rows.map(row => row[i].length)));
  const lines = rows.map(row => `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join("  ")}`.trimEnd());
  return `${one.file}\n  ${facts.join("; ")}\n${lines.join("\n")}\n`;
}

function shorten(text: string): string {
  const plain = cellText(text).replaceAll(/\s+/g, " ");
  return plain.length > 40 ? `${plain.slice(0, 39)}…` : plain;
}
