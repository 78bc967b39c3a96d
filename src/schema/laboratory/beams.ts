import type {BeamTest} from "../../engine/laboratory/types.ts";
import {beamOf} from "./beam-description.ts";
import {type BeamRole, beamRoles, crackRoles, type ReadingRole, readingRoles} from "./beam-roles.ts";
import type {RawFile} from "./cells.ts";
import {type LaboratoryFault, type RefusedRow, wholeFault} from "./fault.ts";
import {type PlacedReading, readingOf, sequenceFaults} from "./readings.ts";
import {readRow, refusal} from "./rows.ts";
import {fittingSheet, furtherSheets, openTable, requireOneOf, type Table, type TableKind} from "./tabular.ts";
import type {Understanding} from "./understanding.ts";

/** Tables of beams and of readings as they were read: good beams are there, the rest is told. */
export interface BeamOutcome {
  readonly beams: readonly BeamTest[];
  readonly origins: ReadonlyMap<string, RowPlace>; // by name of the beam
  readonly hashes: Readonly<Record<string, string>>; // SHA-256 by file
  readonly refused: readonly RefusedRow[]; // rows of beams, and readings that belong to none
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly understandings: readonly Understanding[];
}

/** Where a row stands. */
export interface RowPlace {
  readonly file: string;
  readonly row: string; // "line 7" or "Beams!7"
}

export const beamTable: TableKind<BeamRole> = {
  title: "wheel-tracked beams",
  roles: beamRoles,
  fits: found => found.has("beam") && found.has("overlayThickness") && (found.has("wheelLoad") || found.has("gap")),
};

export const readingTable: TableKind<ReadingRole> = {
  title: "readings of cracks",
  roles: readingRoles,
  fits: found => found.has("passes") && (found.has("status") || crackRoles.some(role => found.has(role))),
};

/** How much a crack may seem to shrink [m]. */
const usualReadingError = 2e-3;

/** A beam without its readings. */
interface Described {
  readonly test: Omit<BeamTest, "readings">;
  readonly error: number; // of a reading [m]
  readonly row: RefusedRow; // in case that it is refused in the end
}

/** Reads all tables of beams and of readings that the files hold. Never throws. */
export function readBeamTables(files: readonly RawFile[]): BeamOutcome {
  const faults: LaboratoryFault[] = [];
  const warnings: LaboratoryFault[] = [];
  const refused: RefusedRow[] = [];
  const beamTables: Table<BeamRole>[] = [];
  const readingTables: Table<ReadingRole>[] = [];
  for (const file of files) {
    const beams = openFitting(file, beamTable, faults, warnings);
    const readings = openFitting(file, readingTable, faults, warnings);
    if (beams) beamTables.push(beams);
    if (readings) readingTables.push(readings);
    if (!beams && !readings) warnings.push(unusedFile(file));
  }
  if (beamTables.length === 0) faults.push(noTable(files, beamTable));
  if (readingTables.length === 0) faults.push(noTable(files, readingTable));
  const refusedNames = new Set<string>();
  const described = describeAll(beamTables, {faults, warnings, refused, refusedNames});
  const {readings, spoilt} = collectReadings(readingTables, described, {faults, refused, refusedNames});
  const beams: BeamTest[] = [];
  for (const [name, {test, error, row}] of described) {
    const own = readings.get(name) ?? [];
    const reasons = [...(spoilt.get(name) ?? [])];
    if (own.length === 0 && reasons.length === 0) {
      reasons.push("there are no readings of this beam");
      faults.push(noReadings(row, name));
    }
    for (const fault of sequenceFaults(test, own, error)) {
      faults.push(fault);
      reasons.push(`${fault.row}: ${fault.problem}`);
    }
    if (reasons.length > 0) refused.push({...row, reasons});
    else beams.push({...test, readings: own.map(({reading}) => reading)});
  }
  const understandings = [...beamTables, ...readingTables].map(({understanding}) => understanding);
  const hashes = Object.fromEntries(files.map(({file, hash}) => [file, hash]));
  const origins = new Map(beams.map(({name}) => [name, placeOfRow(described.get(name)!.row)]));
  return {beams, origins, hashes, refused, faults, warnings, understandings};
}

const placeOfRow = ({file, row}: RefusedRow): RowPlace => ({file, row});

function openFitting<Name extends string>(
  file: RawFile,
  kind: TableKind<Name>,
  faults: LaboratoryFault[],
  warnings: LaboratoryFault[],
): Table<Name> | null {
  const sheet = fittingSheet(file, kind);
  if (!sheet) return null;
  warnings.push(...furtherSheets(file, sheet, kind));
  return openTable(file, sheet, kind, faults);
}

const unusedFile = ({file}: RawFile): LaboratoryFault =>
  wholeFault(file, null, {
    problem: "the file is not used",
    found: "no columns of beams or of readings",
    accepted: "a table with beam, overlay thickness and wheel load, or one with beam, passes and cracks",
  });

function noTable<Name extends string>(files: readonly RawFile[], kind: TableKind<Name>): LaboratoryFault {
  const needed = kind.roles.filter(role => role.needed === "always").map(({label}) => label);
  return wholeFault(files.map(({file}) => file).join(", ") || "(no files)", null, {
    problem: `there is no table of ${kind.title}`,
    found: `${files.length} ${files.length === 1 ? "file" : "files"} without its columns`,
    accepted: `a table with ${needed.join(", ")}`,
  });
}

const noReadings = ({file, row}: RefusedRow, name: string): LaboratoryFault =>
  wholeFault(file, row, {
    problem: `there are no readings of beam ${name}`,
    found: "none in any table of readings",
    accepted: "at least one row of readings for each beam, under the same name",
  });

interface Told {
  readonly faults: LaboratoryFault[];
  readonly refused: RefusedRow[];
  readonly refusedNames: Set<string>; // of beams
}

function describeAll(
  tables: readonly Table<BeamRole>[],
  told: Told & {readonly warnings: LaboratoryFault[]},
): Map<string, Described> {
  const {faults, warnings, refused, refusedNames} = told;
  const described = new Map<string, Described>();
  const places = new Map<string, string[]>();
  for (const table of tables) {
    requireOneOf(table, ["foundationStiffness", "sheets", "staticDeflection"], "the foundation", faults);
    requireOneOf(table, ["travelFrom", "travelCentre", "travelTo", "stroke"], "the travel of the wheel", faults);
    for (const row of table.rows) {
      const reader = readRow(table, row, faults);
      const name = reader.neededText("beam");
      const test = beamOf(reader, name ?? "", warnings, table);
      const error = reader.number("readingError") ?? usualReadingError;
      reader.date("testedOn"); // told when it is none
      if (name !== null) {
        const earlier = places.get(name) ?? [];
        if (earlier.length > 0)
          reader.fault({
            column: "beam",
            problem: `the name of this beam stands already in ${earlier[0]}`,
            accepted: "every name once",
          });
        earlier.push(reader.place);
        places.set(name, earlier);
      }
      if (test && name !== null && reader.reasons.length === 0)
        // What two readings may be apart, three standard deviations of their difference, is about four of one.
        described.set(name, {
          test: {...test, readingError: error / 4},
          error,
          row: {file: table.file, row: reader.place, name, reasons: []},
        });
      else {
        refused.push(refusal(table, reader, name));
        if (name !== null) refusedNames.add(name);
      }
    }
  }
  for (const [name, where] of places) {
    const first = described.get(name);
    if (where.length === 1 || !first) continue;
    described.delete(name); // nothing tells which of them is meant
    refusedNames.add(name);
    refused.push({...first.row, reasons: [`the name of this beam stands again in ${where[1]}`]});
  }
  return described;
}

function collectReadings(
  tables: readonly Table<ReadingRole>[],
  described: ReadonlyMap<string, Described>,
  {faults, refused, refusedNames}: Told,
): {readonly readings: ReadonlyMap<string, PlacedReading[]>; readonly spoilt: ReadonlyMap<string, string[]>} {
  const readings = new Map<string, PlacedReading[]>();
  const spoilt = new Map<string, string[]>();
  const names = [...described.keys(), ...refusedNames];
  const beamNames = names.slice(0, 10).join(", ") + (names.length > 10 ? ", …" : "") || "names of beams";
  for (const table of tables) {
    requireOneOf(table, [...crackRoles, "status"], "cracks", faults);
    for (const row of table.rows) {
      const reader = readRow(table, row, faults);
      const name = reader.neededText("beam");
      const read = readingOf(reader);
      if (name !== null && refusedNames.has(name)) reader.refuse(`beam ${name} is refused`);
      else if (name !== null && !described.has(name))
        reader.fault({column: "beam", problem: "there is no such beam in the table of beams", accepted: beamNames});
      if (read && name !== null && reader.reasons.length === 0) {
        const own = readings.get(name) ?? [];
        own.push({...read, file: table.file, place: reader.place});
        readings.set(name, own);
      } else {
        refused.push(refusal(table, reader, name));
        if (name !== null && described.has(name)) {
          const own = spoilt.get(name) ?? [];
          own.push(`its reading in ${reader.place} is refused`);
          spoilt.set(name, own);
        }
      }
    }
  }
  return {readings, spoilt};
}
