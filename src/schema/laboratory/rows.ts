import {type Cell, cellText, isCellError, placeOf, type RawRow} from "./cells.ts";
import {readDate} from "./dates.ts";
import {type LaboratoryFault, quoted, type RefusedRow} from "./fault.ts";
import {readNumber} from "./numbers.ts";
import type {Role} from "./roles.ts";
import {type Column, headerText, type Table} from "./tabular.ts";
import {fromSi, toSi, type Unit, units} from "./units.ts";
import {flagWords, readFlag} from "./words.ts";

/** What a check says of a row; the place is added. */
export interface RowRemark<Name extends string> {
  readonly column?: Name;
  readonly problem: string;
  readonly found?: string; // default: the cell
  readonly accepted: string;
  readonly suggestion?: string | null;
}

/** A column that no one asked for, as it stands in the file. */
export interface KeptCell {
  readonly column: string;
  readonly text: string;
}

/** Where a row comes from and what else it says. */
export interface Origin {
  readonly file: string;
  readonly row: string; // "line 7" or "Tests!7"
  readonly testedOn: string | null; // YYYY-MM-DD
  readonly remarks: string | null;
  readonly kept: readonly KeptCell[];
}

/** Reads the cells of one row. What is wrong is collected; a value that cannot be had is null. */
export interface RowReader<Name extends string> {
  readonly place: string;
  readonly reasons: readonly string[]; // why the row is refused; empty: it is not
  has(role: Name): boolean; // whether there is something in the cell
  cell(role: Name): Cell;
  text(role: Name): string | null;
  flag(role: Name): boolean;
  date(role: Name): string | null;
  number(role: Name): number | null; // SI
  needed(role: Name): number | null; // SI; a fault when the cell is empty
  neededText(role: Name): string | null;
  value(role: Name, cell: Cell): number | null; // SI, of a cell that stands for that of the role
  origin(): Origin;
  column(role: Name): boolean; // whether there is such a column, readable or not
  unreadable(...roles: readonly Name[]): boolean; // whether a column of these is there and cannot be read, as told at its header
  refuse(reason: string): void; // for what is told elsewhere
  fault(remark: RowRemark<Name>): void;
}

export function readRow<Name extends string>(
  table: Table<Name>,
  row: RawRow,
  faults: LaboratoryFault[],
): RowReader<Name> {
  const place = placeOf(table.sheet, row.row);
  const reasons: string[] = [];
  const cell = (name: Name): Cell => {
    const column = table.byRole.get(name);
    return column ? (row.cells[column.index] ?? null) : null;
  };
  const roleOf = (name: Name): Role<Name> => table.roles.find(role => role.name === name)!;
  const fault = ({column, problem, found, accepted, suggestion}: RowRemark<Name>) => {
    const header = column === undefined ? null : (table.byRole.get(column)?.header ?? roleOf(column).label);
    const shown = found ?? (column === undefined ? "the row as it is" : quoted(cellText(cell(column))));
    faults.push({
      file: table.file,
      row: place,
      column: header,
      problem,
      found: shown,
      accepted,
      suggestion: suggestion ?? null,
    });
    reasons.push(header === null ? problem : `${header}: ${problem}`);
  };
  for (const {fault, index} of table.columns)
    if (fault !== null && cellText(row.cells[index]) !== "" && !reasons.includes(fault)) reasons.push(fault); // told at the header
  for (const {role, index} of table.columns)
    if (role && isCellError(row.cells[index]))
      fault({
        column: role.name,
        problem: "the cell has no value",
        found: cellText(row.cells[index]),
        accepted: "values, or formulas whose values are saved with them",
        suggestion: "open the workbook in a spreadsheet program, mend the formula and save it anew",
      });
  const has = (name: Name): boolean => cellText(cell(name)) !== "";
  const isFaultyColumn = (name: Name): boolean =>
    table.columns.some(({role, fault}) => role?.name === name && fault !== null);
  const value = (name: Name, one: Cell): number | null => {
    const column = table.byRole.get(name);
    return column?.unit && !isCellError(one)
      ? inRange(table, column, column.unit, one, remark => fault({column: name, ...remark}))
      : null;
  };
  const number = (name: Name): number | null => (has(name) ? value(name, cell(name)) : null);
  const text = (name: Name): string | null => cellText(cell(name)) || null;
  const date = (name: Name): string | null => dateOf(cell(name), remark => fault({column: name, ...remark}));
  const missing = (name: Name) => {
    const role = roleOf(name);
    if (isFaultyColumn(name)) return; // told at the header
    if (!table.byRole.has(name)) {
      if (role.needed === "always")
        reasons.push(`there is no column of the ${role.label}`); // told at the header
      else
        fault({problem: `the ${role.label} is not given`, accepted: `a column ${headerText(role)}, ${role.meaning}`});
      return;
    }
    fault({column: name, problem: `the ${role.label} is not given`, accepted: role.meaning});
  };
  return {
    place,
    reasons,
    has,
    cell,
    text,
    value,
    number,
    fault,
    column: name => table.columns.some(({role}) => role?.name === name),
    unreadable: (...names) => names.some(isFaultyColumn),
    refuse: reason => reasons.push(reason),
    flag: name => flagOf(cell(name), remark => fault({column: name, ...remark})),
    date,
    needed: name => {
      if (!has(name)) missing(name);
      return number(name);
    },
    neededText: name => {
      if (!has(name)) missing(name);
      return text(name);
    },
    origin: () => ({
      file: table.file,
      row: place,
      testedOn: date("testedOn" as Name),
      remarks: text("remarks" as Name),
      kept: table.columns.flatMap(({role, header, index}) => {
        const shown = cellText(row.cells[index]);
        return role === null && shown !== "" ? [{column: header, text: shown}] : [];
      }),
    }),
  };
}

type CellReport = (remark: Omit<RowRemark<string>, "column">) => void;

function flagOf(cell: Cell, report: CellReport): boolean {
  if (isCellError(cell)) return false; // told for the row
  const flag = typeof cell === "boolean" ? cell : readFlag(cellText(cell));
  if (flag === null)
    report({
      problem: "neither yes nor no",
      accepted: `${flagWords.yes.slice(0, 4).join(", ")} or ${flagWords.no.slice(0, 3).join(", ")}; empty is no`,
    });
  return flag ?? false;
}

function dateOf(cell: Cell, report: CellReport): string | null {
  if (cellText(cell) === "" || isCellError(cell)) return null; // an error is told for the row
  const date = readDate(cell);
  if (date === null)
    report({
      problem: "not a date",
      accepted: "dates as 2024-05-31 or 31.05.2024, or a date of the workbook",
      suggestion: /^\d{1,2}\/\d{1,2}\/\d{2,4}$/.test(cellText(cell))
        ? "days and months with slashes are ambiguous"
        : null,
    });
  return date;
}

/** A number of a column in SI, checked against what is possible; null when it is not, which the report tells. */
function inRange(
  table: Table<string>,
  column: Column<string>,
  unit: Unit,
  cell: Cell,
  report: CellReport,
): number | null {
  const role = column.role!;
  const tell = (remark: Omit<RowRemark<string>, "column" | "found">) =>
    report({...remark, found: quoted(cellText(cell))});
  const read = readNumber(cell, table.mark);
  if ("problem" in read) {
    tell(read);
    return null;
  }
  const value = toSi(read.value, unit);
  if (role.content.kind === "crack") {
    if (value >= 0 && value <= 2) return value;
    tell({
      problem: value < 0 ? "negative" : "too long for a crack",
      accepted: "lengths from 0 up to the thickness",
    });
    return null;
  }
  if (role.content.kind !== "quantity") return null;
  const {range, whole} = role.content;
  const rounded = whole && Math.abs(value - Math.round(value)) < 1e-9 * Math.abs(value) ? Math.round(value) : value; // 1.2 thousand
  if (whole && !Number.isInteger(rounded)) {
    tell({problem: "not a whole number", accepted: rangeText(role, unit)});
    return null;
  }
  if (rounded >= range[0] && rounded <= range[1]) return rounded;
  tell({
    problem: outsideText(rounded, range),
    accepted: rangeText(role, unit),
    suggestion: unitSuggestion(read.value, role, unit),
  });
  return null;
}

function outsideText(value: number, [least, most]: readonly [number, number]): string {
  if (least >= 0 && value < 0) return "negative";
  if (least > 0 && value === 0) return "zero";
  return `too ${value > most ? "large" : "small"} to be true in the unit of its header`;
}

const short = (value: number): string => String(Number(value.toPrecision(4)));

function rangeText(role: Role, unit: Unit): string {
  if (role.content.kind !== "quantity") return "";
  const [least, most] = role.content.range.map(limit => short(fromSi(limit, unit)));
  const shown = unit.shown === "–" ? "" : ` ${unit.shown}`;
  return `${role.content.whole ? "whole numbers" : "numbers"} from ${least} to ${most}${shown}`;
}

/** The other units in which a number would be possible. */
function unitSuggestion(value: number, role: Role, unit: Unit): string | null {
  if (role.content.kind !== "quantity" || value === 0) return null;
  const {quantity, range} = role.content;
  const fitting = units[quantity].filter(one => {
    const si = toSi(value, one);
    return one !== unit && si >= range[0] && si <= range[1];
  });
  if (fitting.length === 0) return null;
  const told = fitting.slice(0, 2).map((one, i) => {
    const own = short(fromSi(toSi(value, one), unit));
    return i === 0 ? `write ${own} if ${value} was meant in ${one.shown}` : `${own} if in ${one.shown}`;
  });
  return `${told.join(", ")}; or name its unit in the header`;
}

export function refusal(table: Table<string>, reader: RowReader<never>, name: string | null): RefusedRow {
  return {file: table.file, row: reader.place, name, reasons: [...reader.reasons]};
}
