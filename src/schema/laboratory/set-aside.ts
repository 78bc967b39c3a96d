import {beamTable} from "./beams.ts";
import {type Cell, placeOf, type RawFile, type RawSheet} from "./cells.ts";
import {fatigueTable} from "./fatigue.ts";
import {originRoles} from "./roles.ts";
import {fittingSheet, headerWith, type TableKind} from "./tabular.ts";

/** Header of the column that says why a row is left out, where a table has none. */
const HEADER = originRoles.find(({name}) => name === "setAside")!.label;

/**
 * A table of specimens or of beams with one row taken out of the evaluation, or back into it. The column of reasons is
 * added behind the others when the table has none. The file given is not changed.
 *
 * @param place  of the row, as its origin says: "line 7" or "Tests!7"; a place that is not in the file changes nothing
 * @param reason null: the row takes part
 */
export function withSetAside(raw: RawFile, place: string, reason: string | null): RawFile {
  const sheets = raw.sheets.map(sheet =>
    sheet.rows.some(({row}) => placeOf(sheet.name, row) === place) ? sheetWith(raw, sheet, place, reason) : sheet,
  );
  return {...raw, sheets};
}

function sheetWith(raw: RawFile, sheet: RawSheet, place: string, reason: string | null): RawSheet {
  const found = fittingSheet(raw, beamTable) === sheet ? headerIn(sheet, beamTable) : headerIn(sheet, fatigueTable);
  if (!found || (found.index < 0 && reason === null)) return sheet;
  const width = sheet.rows.reduce((most, {cells}) => Math.max(most, cells.length), 0);
  const index = found.index < 0 ? width : found.index;
  return {
    ...sheet,
    rows: sheet.rows.map(row => {
      if (row === found.header && found.index < 0) return {...row, cells: withCell(row.cells, index, HEADER)};
      return placeOf(sheet.name, row.row) === place ? {...row, cells: withCell(row.cells, index, reason)} : row;
    }),
  };
}

const headerIn = <Name extends string>(sheet: RawSheet, kind: TableKind<Name | "setAside">) =>
  headerWith<Name | "setAside">(sheet, kind, "setAside");

/** The same cells with one of them replaced; as many empty ones as needed before it. */
function withCell(cells: readonly Cell[], index: number, cell: Cell): Cell[] {
  const whole = Array.from({length: Math.max(cells.length, index + 1)}, (_, i) => cells[i] ?? null);
  whole[index] = cell;
  return whole;
}
