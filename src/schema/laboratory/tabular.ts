import {type Cell, cellText, placeOf, type RawFile, type RawRow, type RawSheet, saysSomething} from "./cells.ts";
import {type LaboratoryFault, quoted, wholeFault} from "./fault.ts";
import {type HeaderMatch, matchHeader, nearRole} from "./headers.ts";
import {decimalMarkOf, type MarkChoice} from "./numbers.ts";
import {type Catalogue, quantityOf, type Role} from "./roles.ts";
import {type Understanding, valueText} from "./understanding.ts";
import {isDimensionless, type Unit, unitNames} from "./units.ts";

/** A column of a table, found by its header. */
export interface Column<Name extends string> {
  readonly index: number;
  readonly header: string;
  readonly role: Role<Name> | null; // null: kept as it is
  readonly unit: Unit | null;
  readonly fault: string | null; // why it cannot be read; rows that have something in it are refused
}

/** A sheet whose columns are known. */
export interface Table<Name extends string> {
  readonly roles: Catalogue<Name>;
  readonly file: string;
  readonly hash: string;
  readonly sheet: string | null;
  readonly header: RawRow;
  readonly columns: readonly Column<Name>[];
  readonly byRole: ReadonlyMap<Name, Column<Name>>; // those that can be read
  readonly rows: readonly RawRow[]; // below the header, without empty rows and comments
  readonly mark: MarkChoice;
  readonly understanding: Understanding;
}

export interface TableKind<Name extends string> {
  readonly title: string;
  readonly roles: Catalogue<Name>;
  /** Whether a header is one of such a table, by the roles in it. */
  readonly fits: (found: ReadonlySet<Name>) => boolean;
}

/** Rows among which the header is looked for. */
const headerRows = 30;

/** Columns that are looked at; a table with more is no table of a laboratory. */
const mostColumns = 500;

const isEmpty = (cell: Cell | undefined): boolean => cellText(cell) === "";

/** A comment in a workbook, as a template has them: # and a blank. A specimen may be called #12. */
function isComment({cells}: RawRow): boolean {
  const first = cells.find(cell => !isEmpty(cell));
  return typeof first === "string" && /^\s*#(\s|$)/.test(first);
}

/** Rows that say something, comments left out. */
function tellingRows(sheet: RawSheet): RawRow[] {
  return sheet.rows.filter(row => saysSomething(row) && !(sheet.name !== null && isComment(row)));
}

function matchesOf<Name extends string>(row: RawRow, roles: Catalogue<Name>): HeaderMatch<Name>[] {
  return row.cells
    .slice(0, mostColumns)
    .map(cell => (typeof cell === "string" ? matchHeader(cell, roles) : {kind: "unknown"}));
}

const rolesIn = <Name extends string>(matches: readonly HeaderMatch<Name>[]): Set<Name> =>
  new Set(matches.flatMap(match => (match.kind === "unknown" ? [] : [match.role.name])));

interface HeaderPlace<Name extends string> {
  readonly index: number; // among the telling rows
  readonly matches: readonly HeaderMatch<Name>[];
  readonly fits: boolean;
}

/** The row with the most known columns; the first of equals. */
function findHeader<Name extends string>(rows: readonly RawRow[], kind: TableKind<Name>): HeaderPlace<Name> | null {
  let best: HeaderPlace<Name> | null = null;
  let most = -1;
  for (const [index, row] of rows.slice(0, headerRows).entries()) {
    const matches = matchesOf(row, kind.roles);
    const found = rolesIn(matches);
    if (found.size > most) {
      best = {index, matches, fits: kind.fits(found)};
      most = found.size;
    }
  }
  return best;
}

/** The first sheet of a file that has the columns of such a table; null: none has. */
export function fittingSheet<Name extends string>(file: RawFile, kind: TableKind<Name>): RawSheet | null {
  return file.sheets.find(sheet => findHeader(tellingRows(sheet), kind)?.fits) ?? null;
}

/** The most columns of such a table that any sheet of a file has. */
export function knownColumns<Name extends string>(file: RawFile, kind: TableKind<Name>): number {
  return Math.max(0, ...file.sheets.map(sheet => rolesIn(findHeader(tellingRows(sheet), kind)?.matches ?? []).size));
}

/** The row of the header and the place of one column in it; −1: there is no such column. Null: there is no row at all. */
export function headerWith<Name extends string>(
  sheet: RawSheet,
  kind: TableKind<Name>,
  role: Name,
): {readonly header: RawRow; readonly index: number} | null {
  const telling = tellingRows(sheet);
  const place = findHeader(telling, kind);
  if (!place) return null;
  const index = place.matches.findIndex(match => match.kind !== "unknown" && match.role.name === role);
  return {header: telling[place.index], index};
}

/** A warning for each sheet that has the columns too and is not read. */
export function furtherSheets<Name extends string>(
  file: RawFile,
  read: RawSheet,
  kind: TableKind<Name>,
): LaboratoryFault[] {
  return file.sheets
    .filter(sheet => sheet !== read && findHeader(tellingRows(sheet), kind)?.fits)
    .map(({name}) =>
      wholeFault(file.file, null, {
        problem: `sheet ${name} has the columns of ${kind.title} too and is not read`,
        found: `${read.name}, which stands before it`,
        accepted: "one sheet of each kind in a workbook",
      }),
    );
}

/** A fault when a table has no column of any of these roles. */
export function requireOneOf<Name extends string>(
  table: Table<Name>,
  roles: readonly Name[],
  what: string,
  faults: LaboratoryFault[],
): void {
  if (table.columns.some(({role}) => role && roles.includes(role.name))) return;
  const accepted = table.roles.filter(({name}) => roles.includes(name)).map(headerText);
  faults.push(
    wholeFault(table.file, placeOf(table.sheet, table.header.row), {
      problem: `there is no column of ${what}`,
      found: quoted(table.header.cells.map(cellText).filter(Boolean).join(", ")),
      accepted: accepted.join(" or "),
    }),
  );
}

/** Finds the columns of a sheet. Null when it has no header at all, which the faults then tell. */
export function openTable<Name extends string>(
  file: RawFile,
  sheet: RawSheet,
  kind: TableKind<Name>,
  faults: LaboratoryFault[],
): Table<Name> | null {
  const telling = tellingRows(sheet);
  const place = findHeader(telling, kind);
  if (!place) {
    faults.push(
      wholeFault(file.file, null, {
        problem: "the table is empty",
        found: "no row that says something",
        accepted: `${kind.title}: a header and a row for each entry`,
      }),
    );
    return null;
  }
  const header = telling[place.index];
  const width = telling.reduce((most, {cells}) => Math.max(most, cells.length), 0);
  if (width > mostColumns) {
    faults.push(
      wholeFault(file.file, placeOf(sheet.name, header.row), {
        problem: "the table has too many columns",
        found: `${width} columns`,
        accepted: `at most ${mostColumns}`,
      }),
    );
    return null;
  }
  const rows = telling.slice(place.index + 1);
  const report = (column: string | null, fault: Omit<LaboratoryFault, "file" | "row" | "column">) =>
    faults.push({file: file.file, row: placeOf(sheet.name, header.row), column, ...fault});
  const columns = columnsOf(header, place.matches, kind, rows, report);
  const readable = columns.filter(({role, fault}) => role !== null && fault === null);
  const byRole = new Map(readable.map(column => [column.role!.name, column]));
  const numeric = readable.filter(({role}) => quantityOf(role!) !== null);
  const texts = rows.flatMap(({cells}) => numeric.map(({index}) => cells[index] ?? null));
  const mark = decimalMarkOf(texts, sheet.delimiter);
  const understanding: Understanding = {
    file: file.file,
    hash: file.hash,
    table: kind.title,
    sheet: sheet.name,
    otherSheets: file.sheets.flatMap(({name}) => (name === null || name === sheet.name ? [] : [name])),
    delimiter: sheet.delimiter,
    decimalMark: mark.sure && texts.some(cell => typeof cell === "string") ? mark.mark : null,
    headerRow: header.row,
    rowsAbove: place.index,
    comments: sheet.comments + (sheet.name === null ? 0 : sheet.rows.filter(isComment).length),
    rows: rows.length,
    columns: columns.map(({header, role, unit, index, fault}) => {
      const first = rows[0]?.cells[index] ?? null;
      return {
        header,
        role: role?.label ?? null,
        unit: unit?.shown ?? null,
        firstCell: cellText(first),
        firstValue: role && fault === null && !isEmpty(first) ? valueText(first, role, unit, mark) : null,
      };
    }),
  };
  return {
    roles: kind.roles,
    file: file.file,
    hash: file.hash,
    sheet: sheet.name,
    header,
    columns,
    byRole,
    rows,
    mark,
    understanding,
  };
}

type Report = (column: string | null, fault: Omit<LaboratoryFault, "file" | "row" | "column">) => void;

function columnsOf<Name extends string>(
  header: RawRow,
  matches: readonly HeaderMatch<Name>[],
  kind: TableKind<Name>,
  rows: readonly RawRow[],
  report: Report,
): Column<Name>[] {
  const known = rolesIn(matches);
  const absent = kind.roles.filter(({name}) => !known.has(name));
  const width = rows.reduce((most, {cells}) => Math.max(most, cells.length), header.cells.length);
  const columns: Column<Name>[] = [];
  for (let index = 0; index < width; index++) {
    const text = cellText(header.cells[index]);
    const match = matches[index] ?? {kind: "unknown"};
    if (text === "" && rows.every(({cells}) => isEmpty(cells[index]))) continue;
    const shown = text === "" ? `(column ${index + 1}, no header)` : text;
    columns.push(columnOf(index, shown, match, matches, header, report));
    const near = match.kind === "unknown" ? nearRole(text, absent) : null;
    if (near)
      report(text, {
        problem: "no such column is known; it is kept as it is",
        found: quoted(text),
        accepted: "headers as in the list of columns, or clearly different ones",
        suggestion: `did you mean ${headerText(near)}?`,
      });
  }
  for (const role of absent)
    if (role.needed === "always")
      report(null, {
        problem: `there is no column of the ${role.label}`,
        found: quoted(header.cells.map(cellText).filter(Boolean).join(", ")),
        accepted: `a column ${headerText(role)}, ${role.meaning}`,
        suggestion: null,
      });
  return columns;
}

function columnOf<Name extends string>(
  index: number,
  header: string,
  match: HeaderMatch<Name>,
  matches: readonly HeaderMatch<Name>[],
  row: RawRow,
  report: Report,
): Column<Name> {
  if (match.kind === "unknown") return {index, header, role: null, unit: null, fault: null};
  const {role} = match;
  const twins = [...matches.keys()].filter(i => {
    const other = matches[i];
    return i !== index && other.kind !== "unknown" && other.role === role;
  });
  if (twins.length > 0) {
    if (twins[0] > index)
      report(header, {
        problem: `more than one column of the ${role.label}`,
        found: [index, ...twins].map(i => quoted(cellText(row.cells[i]))).join(" and "),
        accepted: "one column of each kind",
        suggestion: "rename the one that is not meant; unknown columns are kept",
      });
    return {index, header, role, unit: null, fault: `more than one column of the ${role.label}`};
  }
  if (match.kind === "role") return {index, header, role, unit: match.unit, fault: null};
  const accepted = unitNames(quantityOf(role)!);
  const problem = match.found === null ? "the unit is missing" : "the unit is not known";
  report(header, {
    problem: `${problem} in the header of the ${role.label}`,
    found: quoted(match.found ?? header),
    accepted,
    suggestion: `write ${headerText(role)} if that is the unit`,
  });
  return {index, header, role, unit: null, fault: `${problem} in the header of the ${role.label}`};
}

/** The header of a role as templates write it. */
export function headerText(role: Role): string {
  const quantity = quantityOf(role);
  return quantity === null || isDimensionless(quantity)
    ? role.label
    : `${role.label} [${unitNames(quantity).split(", ")[0]}]`;
}
