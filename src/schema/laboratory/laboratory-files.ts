/** The files of a laboratory in memory, as a person drops them on a page: what each of them is, and what they say. */
import {type BeamOutcome, beamTable, readBeamTables, readingTable} from "./beams.ts";
import {readTableBytes, type TableRead, tooLarge} from "./bytes/index.ts";
import type {RawFile} from "./cells.ts";
import {fatigueTable, readFatigueTable} from "./fatigue.ts";
import {assembleFatigueProgramme, type FatigueFiles} from "./fatigue-programme.ts";
import {type LaboratoryFault, wholeFault} from "./fault.ts";
import {historyTable, openHistory} from "./history.ts";
import {historyRun, readHistoryBytes} from "./history-run.ts";
import {withSetAside} from "./set-aside.ts";
import {fittingSheet, knownColumns, type TableKind} from "./tabular.ts";
import type {Understanding} from "./understanding.ts";

export interface LaboratoryFile {
  readonly name: string; // with the folders that it was in, if they are known
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** A row that a person takes out of the evaluation. */
export interface SetAsideRow {
  readonly file: string;
  readonly row: string; // "line 7" or "Tests!7", as in Origin
  readonly reason: string | null; // null: it takes part, whatever the table says
}

/** What the tables of a file are about. */
export type LaboratoryTable = "fatigue" | "beams" | "readings" | "history";

const tables = {fatigue: fatigueTable, beams: beamTable, readings: readingTable, history: historyTable} as const;

/**
 * What is in a file, by its columns; a workbook may hold several tables. Where no table is whole, the one that has most of
 * its columns, so that what is missing can be told; empty: none has two.
 */
export function tablesIn(file: RawFile): LaboratoryTable[] {
  const all = Object.keys(tables) as LaboratoryTable[];
  const whole = all.filter(kind => isWhole(file, tables[kind]));
  if (whole.length) return whole;
  const known = all.map(kind => columnsKnown(file, tables[kind]));
  const most = Math.max(...known);
  return most >= 2 ? [all[known.indexOf(most)]] : []; // one letter may stand for anything
}

type AnyKind = (typeof tables)[LaboratoryTable];

const isWhole = (file: RawFile, kind: AnyKind): boolean => fittingSheet(file, kind as TableKind<string>) !== null;

const columnsKnown = (file: RawFile, kind: AnyKind): number => knownColumns(file, kind as TableKind<string>);

/** How the tables of a file are understood, each by itself; whether its rows are good is not told. */
export function understandingsOf(file: RawFile): Understanding[] {
  const kinds = tablesIn(file);
  const wanted: readonly string[] = kinds.map(kind => tables[kind].title);
  return [
    ...(kinds.includes("fatigue") ? [readFatigueTable(file, "").understanding] : []),
    ...readBeamTables([file]).understandings,
    ...(kinds.includes("history") ? [openHistory(file, [])?.understanding] : []),
  ].filter(one => one !== null && one !== undefined && wanted.includes(one.table)) as Understanding[];
}

/** One file as a person is shown it before it is used. */
export interface LaboratoryLook {
  readonly name: string;
  readonly tables: readonly LaboratoryTable[];
  readonly understandings: readonly Understanding[];
  readonly fault: LaboratoryFault | null; // why nothing of it can be used
}

/** What a file is. A file that is too long for a table may be a history. */
export async function lookAtLaboratoryFile({name, bytes}: LaboratoryFile): Promise<LaboratoryLook> {
  if (tooLarge(name, bytes.length)) {
    const {understanding, faults} = await readHistoryBytes(bytes, name, () => {});
    if (understanding) return {name, tables: ["history"], understandings: [understanding], fault: null};
    return {name, tables: [], understandings: [], fault: faults[0] ?? tooLarge(name, bytes.length)};
  }
  const read = await readTableBytes(bytes, name);
  if ("fault" in read) return {name, tables: [], understandings: [], fault: read.fault};
  const tables = tablesIn(read.raw);
  const fault = tables.length ? null : unknownTable(read.raw);
  return {name, tables, understandings: understandingsOf(read.raw), fault};
}

const unknownTable = ({file}: RawFile): LaboratoryFault =>
  wholeFault(file, null, {
    problem: "the file is not used",
    found: "no columns of specimens, of beams, of readings or of a history",
    accepted: "a table as in the list of columns; empty ones to fill in can be downloaded",
  });

/** A file as rows of cells, with the rows set aside that a person takes out. */
export async function readLaboratoryFile(
  {name, bytes}: LaboratoryFile,
  setAside: readonly SetAsideRow[] = [],
): Promise<TableRead> {
  const read = await readTableBytes(bytes, name);
  if ("fault" in read) return read;
  const own = setAside.filter(({file}) => file === name);
  return {raw: own.reduce((raw, {row, reason}) => withSetAside(raw, row, reason), read.raw)};
}

/**
 * Tables of fatigue specimens as one programme. Histories that they name are looked for among all files.
 *
 * @param tables names of the files that are tables of specimens
 */
export function fatigueProgramme(
  files: readonly LaboratoryFile[],
  {
    name,
    tables,
    setAside = [],
    onFile,
  }: {
    readonly name: string;
    readonly tables: readonly string[];
    readonly setAside?: readonly SetAsideRow[];
    readonly onFile?: (file: string) => void;
  },
): Promise<FatigueFiles> {
  const source = {
    table: (table: string) => readLaboratoryFile(files.find(f => f.name === table)!, setAside),
    history: async (table: string, history: string, sink: Parameters<typeof readHistoryBytes>[2]) => {
      const file = fileBeside(files, table, history);
      if (file) return readHistoryBytes(file.bytes, file.name, sink);
      return historyRun(history, sink).failed(
        wholeFault(history, null, {
          problem: `${table} names this history, which is not among the files`,
          found: `${files.length} ${files.length === 1 ? "file" : "files"}, none of this name`,
          accepted: "histories added together with their table",
        }),
      );
    },
  };
  return assembleFatigueProgramme(tables, name, source, {onFile});
}

/** The file that a table names: where the table says, or, when folders are not known, by its own name alone. */
export function fileBeside(files: readonly LaboratoryFile[], table: string, named: string): LaboratoryFile | undefined {
  const parts = (path: string): string[] => path.split(/[/\\]/).filter(part => part !== "" && part !== ".");
  const wanted: string[] = [];
  for (const part of [...parts(table).slice(0, -1), ...parts(named)])
    if (part === "..") wanted.pop();
    else wanted.push(part);
  const own = (path: string): string => parts(path).at(-1) ?? "";
  return (
    files.find(({name}) => parts(name).join("/") === wanted.join("/")) ??
    files.find(({name}) => own(name) === own(named))
  );
}

/** Tables of wheel-tracked beams and of their readings. */
export async function beamTables(
  files: readonly LaboratoryFile[],
  setAside: readonly SetAsideRow[] = [],
): Promise<BeamOutcome> {
  return beamOutcome(await Promise.all(files.map(file => readLaboratoryFile(file, setAside))));
}

/** What tables of beams and readings say, and which of them cannot be read. */
export function beamOutcome(read: readonly TableRead[]): BeamOutcome {
  const files = read.flatMap(one => ("raw" in one ? [one.raw] : []));
  const broken = read.flatMap(one => ("fault" in one ? [one.fault] : []));
  const outcome = readBeamTables(files);
  // A file that cannot be read explains that there is no table.
  return {...outcome, faults: [...broken, ...(files.length === 0 && broken.length > 0 ? [] : outcome.faults)]};
}
