import type {RawFile, RawRow, RawSheet} from "./cells.ts";
import {type LaboratoryFault, wholeFault} from "./fault.ts";
import {type HistoryRole, historyRoles} from "./history-roles.ts";
import {readRow} from "./rows.ts";
import {fittingSheet, openTable, requireOneOf, type TableKind} from "./tabular.ts";
import type {Understanding} from "./understanding.ts";

/** One row of a history, SI. */
export interface HistoryRow {
  readonly cycle: number;
  readonly value: number | {readonly force: number; readonly displacement: number}; // modulus [Pa], or [N] and [m]
}

/** Reads a history row by row, so that a file of any length passes through. */
export interface HistoryReader {
  readonly understanding: Understanding; // its rows are those of the head
  readonly rows: readonly RawRow[]; // of the head, below the header
  /** The row in SI; null when it is faulty, which the faults then tell. */
  read(row: RawRow): HistoryRow | null;
}

export const historyTable: TableKind<HistoryRole> = {
  title: "stiffness history",
  roles: historyRoles,
  fits: found => found.has("cycle") && (found.has("modulus") || (found.has("force") && found.has("displacement"))),
};

/** Faults told of one file before the rest are only counted. */
const mostFaults = 20;

/**
 * Opens a history by its first rows, which show the columns and the decimal mark. Null when the columns are not there or
 * cannot be read, which the faults then tell. Never throws.
 */
export function openHistory(head: RawFile, faults: LaboratoryFault[]): HistoryReader | null {
  const sheet: RawSheet = fittingSheet(head, historyTable) ??
    head.sheets[0] ?? {name: null, delimiter: null, rows: [], comments: 0};
  const table = openTable(head, sheet, historyTable, faults);
  if (!table) return null;
  const byForce = !table.columns.some(({role}) => role?.name === "modulus");
  if (byForce) {
    requireOneOf(table, ["modulus", "force"], "the stiffness modulus or the force", faults);
    if (table.byRole.has("force"))
      requireOneOf(table, ["displacement"], "the displacement that belongs to the force", faults);
  }
  const needed: readonly HistoryRole[] = byForce ? ["cycle", "force", "displacement"] : ["cycle", "modulus"];
  if (!needed.every(name => table.byRole.has(name))) return null;
  let last = -1;
  const read = (row: RawRow): HistoryRow | null => {
    const reader = readRow(table, row, faults);
    const cycle = reader.needed("cycle");
    const modulus = byForce ? null : reader.needed("modulus");
    const [force, displacement] = byForce ? [reader.needed("force"), reader.needed("displacement")] : [null, null];
    if (cycle !== null && cycle <= last)
      reader.fault({
        column: "cycle",
        problem: `the cycles do not ascend: ${last} stands before`,
        accepted: "rows in the order of cycles",
      });
    if (cycle === null || reader.reasons.length > 0) return null;
    last = cycle;
    if (modulus !== null) return {cycle, value: modulus};
    return force === null || displacement === null ? null : {cycle, value: {force, displacement}};
  };
  return {understanding: table.understanding, rows: table.rows, read};
}

/** Keeps the first faults and counts the rest, for files with millions of rows. */
export function boundedFaults(file: string): {
  readonly list: LaboratoryFault[];
  settle(): void; // moves what is too many into the count; call it now and then
  all(): readonly LaboratoryFault[];
} {
  const list: LaboratoryFault[] = [];
  let more = 0;
  const settle = () => {
    if (list.length <= mostFaults) return;
    more += list.length - mostFaults;
    list.length = mostFaults;
  };
  return {
    list,
    settle,
    all: () => {
      settle();
      if (more === 0) return [...list];
      const problem = `${more} more faults in further rows`;
      return [...list, wholeFault(file, null, {problem, found: `${more + mostFaults} in all`, accepted: "see above"})];
    },
  };
}
