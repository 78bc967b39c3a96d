import type {BeamCourse, BeamFoundation, BeamTest} from "../../engine/laboratory/types.ts";
import {type BeamRole, beamRoles, crackRoles, type ReadingRole, readingRoles} from "./beam-roles.ts";
import type {RawFile} from "./cells.ts";
import type {LaboratoryFault, RefusedRow} from "./fault.ts";
import {type PlacedReading, readingOf, sequenceFaults} from "./readings.ts";
import {type Origin, type RowReader, readRow, refusal, understood} from "./rows.ts";
import {fittingSheet, furtherSheets, openTable, requireOneOf, type Table, type TableKind} from "./tabular.ts";
import type {Understanding} from "./understanding.ts";

/** Tables of beams and of readings as they were read: good beams are there, the rest is told. */
export interface BeamOutcome {
  readonly beams: readonly BeamTest[];
  readonly origins: ReadonlyMap<string, Origin>; // by name of the beam
  readonly hashes: Readonly<Record<string, string>>; // SHA-256 by file
  readonly refused: readonly RefusedRow[]; // rows of beams, and readings that belong to none
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly understandings: readonly Understanding[];
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

/** Poisson ratios that are taken when none is given: usual for asphalt, and for concrete and cement-bound blocks. */
const usualPoisson = {overlay: 0.35, interlayer: 0.35, base: 0.2} as const;

/** A beam without its readings. */
interface Described {
  readonly test: Omit<BeamTest, "readings">;
  readonly origin: Origin;
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
  const origins = new Map<string, Origin>();
  for (const [name, {test, origin, error, row}] of described) {
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
    else {
      beams.push({...test, readings: own.map(({reading}) => reading)});
      origins.set(name, origin);
    }
  }
  const understandings = [...beamTables.map(understood), ...readingTables.map(understood)];
  const hashes = Object.fromEntries(files.map(({file, hash}) => [file, hash]));
  return {beams, origins, hashes, refused, faults, warnings, understandings};
}

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

const unusedFile = ({file}: RawFile): LaboratoryFault => ({
  file,
  row: null,
  column: null,
  problem: "the file is not used",
  found: "no columns of beams or of readings",
  accepted: "a table with beam, overlay thickness and wheel load, or one with beam, passes and cracks",
  suggestion: null,
});

function noTable<Name extends string>(files: readonly RawFile[], kind: TableKind<Name>): LaboratoryFault {
  const needed = kind.roles.filter(role => role.needed === "always").map(({label}) => label);
  return {
    file: files.map(({file}) => file).join(", ") || "(no files)",
    row: null,
    column: null,
    problem: `there is no table of ${kind.title}`,
    found: `${files.length} ${files.length === 1 ? "file" : "files"} without its columns`,
    accepted: `a table with ${needed.join(", ")}`,
    suggestion: null,
  };
}

const noReadings = (row: RefusedRow, name: string): LaboratoryFault => ({
  file: row.file,
  row: row.row,
  column: null,
  problem: `there are no readings of beam ${name}`,
  found: "none in any table of readings",
  accepted: "at least one row of readings for each beam, under the same name",
  suggestion: null,
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
      const reader = readRow(table, row, beamRoles, faults);
      const name = reader.neededText("beam");
      const test = beamOf(reader, name ?? "", warnings, table);
      const error = reader.number("readingError") ?? usualReadingError;
      const origin = reader.origin();
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
        described.set(name, {test, origin, error, row: {file: table.file, row: reader.place, name, reasons: []}});
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

type Reader = RowReader<BeamRole>;

function beamOf(
  reader: Reader,
  name: string,
  warnings: LaboratoryFault[],
  table: Table<BeamRole>,
): Omit<BeamTest, "readings"> | null {
  const poisson = (course: keyof typeof usualPoisson): number => {
    const given = reader.number(`${course}Poisson`);
    if (given !== null) return given;
    warnings.push({
      file: table.file,
      row: reader.place,
      column: null,
      problem: `the Poisson ratio of the ${course} is not given: ${usualPoisson[course]} is taken`,
      found: "nothing (empty)",
      accepted: "numbers from 0 to 0.499",
      suggestion: null,
    });
    return usualPoisson[course];
  };
  const course = (which: "overlay" | "interlayer"): BeamCourse | null => {
    const material = reader.neededText(`${which}Material`);
    const thickness = reader.needed(`${which}Thickness`);
    const modulus = reader.needed(`${which}Modulus`);
    const ratio = poisson(which);
    return material === null || thickness === null || modulus === null
      ? null
      : {material, thickness, modulus, poisson: ratio};
  };
  const hasInterlayer = (
    ["interlayerMaterial", "interlayerThickness", "interlayerModulus", "interlayerPoisson"] as const
  ).some(reader.has);
  const overlay = course("overlay");
  const interlayer = hasInterlayer ? course("interlayer") : null;
  const base = {
    thickness: reader.needed("baseThickness"),
    modulus: reader.needed("baseModulus"),
    gap: reader.needed("gap"),
    poisson: poisson("base"),
  };
  const foundation = foundationOf(reader);
  const wheel = {
    load: reader.needed("wheelLoad"),
    length: reader.needed("contactLength"),
    width: reader.needed("contactWidth"),
  };
  const travel = travelOf(reader);
  const numbers = {
    length: reader.needed("length"),
    width: reader.needed("width"),
    speed: reader.needed("speed"),
    temperature: reader.needed("temperature"),
    detection: reader.needed("detection"),
  };
  const setAside = reader.text("setAside");
  // By how much a reading may be off is taken as two standard deviations.
  const readingError = (reader.number("readingError") ?? usualReadingError) / 2;
  if (
    !overlay ||
    (hasInterlayer && !interlayer) ||
    !complete(base) ||
    !foundation ||
    !complete(wheel) ||
    !travel ||
    !complete(numbers)
  )
    return null;
  checkFit(reader, {...numbers, gap: base.gap, contactWidth: wheel.width, travel});
  return {name, overlay, interlayer, base, foundation, wheel, travel, ...numbers, readingError, setAside};
}

type Complete<Values> = {readonly [Key in keyof Values]: NonNullable<Values[Key]>};

const complete = <Values extends object>(values: Values): values is Values & Complete<Values> =>
  Object.values(values).every(value => value !== null);

const mm = (length: number): string => `${Number((1000 * length).toPrecision(6))} mm`;

function checkFit(
  reader: Reader,
  beam: {
    readonly length: number;
    readonly width: number;
    readonly gap: number;
    readonly contactWidth: number;
    readonly travel: {readonly from: number; readonly to: number};
  },
): void {
  const {length, width, gap, contactWidth, travel} = beam;
  if (gap >= length)
    reader.fault({
      column: "gap",
      problem: "the gap is as long as the beam",
      found: `${mm(gap)} of ${mm(length)}`,
      accepted: "a gap shorter than the beam",
    });
  if (contactWidth > width * (1 + 1e-9))
    reader.fault({
      column: "contactWidth",
      problem: "the wheel is wider than the beam",
      found: `${mm(contactWidth)} on ${mm(width)}`,
      accepted: "a contact no wider than the beam",
    });
  if (travel.from < -length / 2 - 1e-9 || travel.to > length / 2 + 1e-9)
    reader.fault({
      problem: "the wheel leaves the beam",
      found: `travel from ${mm(travel.from)} to ${mm(travel.to)} on ${mm(length)}`,
      accepted: "a travel within half the beam length on either side of the gap",
    });
}

function foundationOf(reader: Reader): BeamFoundation | null {
  const ways = {
    stiffness: ["foundationStiffness"],
    sheets: ["sheets", "sheetThickness", "sheetModulus"],
    deflection: ["staticDeflection", "staticLoad"],
  } as const;
  const all = Object.values(ways).flat();
  const given = (Object.keys(ways) as (keyof typeof ways)[]).filter(way => ways[way].some(reader.has));
  if (given.length !== 1) {
    if (given.length === 0 && reader.unreadable(...all)) return null;
    const found = given.length === 0 ? "none of them" : given.join(" and ");
    reader.fault({
      problem:
        given.length === 0
          ? "what the blocks stand on is not given"
          : "what the blocks stand on is given more than once",
      found,
      accepted:
        "one of: foundation stiffness; sheets, sheet thickness and sheet modulus; static deflection and static load",
    });
    return null;
  }
  switch (given[0]) {
    case "stiffness": {
      const stiffness = reader.needed("foundationStiffness");
      return stiffness === null ? null : {kind: "stiffness", stiffness};
    }
    case "sheets":
      return sheetsOf(reader);
    case "deflection": {
      const [load, deflection] = [reader.needed("staticLoad"), reader.needed("staticDeflection")];
      const at = reader.number("deflectionAt");
      if (load === null || deflection === null) return null;
      return {kind: "deflection", load, deflection, ...(at === null ? {} : {at})};
    }
  }
}

/**
 * Sheets on a rigid plate as springs in series: k = E / (n·t) [Pa/m], E the modulus of a sheet in compression [Pa], n
 * sheets of thickness t [m]. For sheets that carry no shear from one place to the next, thin against the beam.
 */
function sheetsOf(reader: Reader): BeamFoundation | null {
  const [count, thickness, modulus] = [
    reader.needed("sheets"),
    reader.needed("sheetThickness"),
    reader.needed("sheetModulus"),
  ];
  if (count === null || thickness === null || modulus === null) return null;
  return {kind: "stiffness", stiffness: modulus / (count * thickness)};
}

function travelOf(reader: Reader): BeamTest["travel"] | null {
  const byEnds = (["travelFrom", "travelTo"] as const).some(reader.has);
  const byStroke = (["travelCentre", "stroke"] as const).some(reader.has);
  if (byEnds === byStroke) {
    if (byEnds || !reader.unreadable("travelFrom", "travelTo", "travelCentre", "stroke"))
      reader.fault({
        problem: byEnds ? "the travel of the wheel is given twice" : "the travel of the wheel is not given",
        accepted: "travel from and travel to, or travel centre and stroke",
      });
    return null;
  }
  const [first, second] = byEnds
    ? [reader.needed("travelFrom"), reader.needed("travelTo")]
    : [reader.needed("travelCentre"), reader.needed("stroke")];
  if (first === null || second === null) return null;
  const travel = byEnds ? {from: first, to: second} : {from: first - second / 2, to: first + second / 2};
  if (travel.from < travel.to) return travel;
  reader.fault({
    problem: "the travel of the wheel ends before it begins",
    found: `from ${mm(travel.from)} to ${mm(travel.to)}`,
    accepted: "a beginning below the end, such as -150 and 150 mm",
  });
  return null;
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
      const reader = readRow(table, row, readingRoles, faults);
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
