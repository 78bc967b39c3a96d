import type {FatigueProgramme, Specimen, SpecimenShape, TestAmplitude} from "../../engine/laboratory/types.ts";
import {cellText, placeOf, type RawFile} from "./cells.ts";
import {type FatigueRole, fatigueRoles} from "./fatigue-roles.ts";
import {type LaboratoryFault, listed, mm, type RefusedRow} from "./fault.ts";
import {type Origin, type RowReader, readRow, refusal} from "./rows.ts";
import {fittingSheet, furtherSheets, openTable, requireOneOf, type TableKind} from "./tabular.ts";
import type {Understanding} from "./understanding.ts";

/** What a table says of a specimen besides the numbers of its test. */
export interface SpecimenOrigin extends Origin {
  readonly history: string | null; // name of a file beside the table
}

/** A table of fatigue specimens as it was read: what is good is in the programme, the rest is told. */
export interface FatigueOutcome {
  readonly programme: FatigueProgramme;
  readonly origins: ReadonlyMap<string, SpecimenOrigin>; // by name of the specimen
  readonly hash: string; // SHA-256 of the file
  readonly refused: readonly RefusedRow[];
  readonly faults: readonly LaboratoryFault[];
  readonly warnings: readonly LaboratoryFault[];
  readonly understanding: Understanding | null; // null: the file has no rows at all
}

export const fatigueTable: TableKind<FatigueRole> = {
  title: "fatigue specimens",
  roles: fatigueRoles,
  fits: found =>
    found.has("specimen") &&
    (found.has("strain") || found.has("headDisplacement") || found.has("midspanDeflection")) &&
    (found.has("cycles") || found.has("history")),
};

type Reader = RowReader<FatigueRole>;

/** Reads the first sheet that has the columns, or the first of all when none has. Never throws. */
export function readFatigueTable(file: RawFile, programmeName: string): FatigueOutcome {
  const faults: LaboratoryFault[] = [];
  const warnings: LaboratoryFault[] = [];
  const refused: RefusedRow[] = [];
  const good = new Map<string, {readonly specimen: Specimen; readonly origin: SpecimenOrigin}>();
  const sheet = fittingSheet(file, fatigueTable) ??
    file.sheets[0] ?? {name: null, delimiter: null, rows: [], comments: 0};
  const table = openTable(file, sheet, fatigueTable, faults);
  if (table) {
    requireOneOf(table, amplitudes, "an amplitude", faults);
    requireOneOf(table, lives, "the cycles to failure", faults);
    warnings.push(...furtherSheets(file, sheet, fatigueTable));
    const names = table.byRole.get("specimen");
    const rowsByName = Map.groupBy(table.rows, ({cells}) => (names ? cellText(cells[names.index]) : ""));
    const again = new Map(
      [...rowsByName].map(([name, rows]) => [name, listed(rows.map(({row}) => placeOf(table.sheet, row)))]),
    );
    for (const row of table.rows) {
      const reader = readRow(table, row, faults);
      const name = reader.neededText("specimen");
      if (name !== null && (rowsByName.get(name)?.length ?? 0) > 1)
        reader.fault({
          column: "specimen",
          problem: `more than one specimen has this name: ${again.get(name)}`,
          accepted: "every name once",
        });
      const specimen = specimenOf(reader, name ?? "");
      const origin = {...reader.origin(), history: reader.text("history")};
      if (specimen && name !== null && reader.reasons.length === 0) good.set(name, {specimen, origin});
      else refused.push(refusal(table, reader, name));
    }
    if (table.rows.length === 0)
      faults.push({
        file: file.file,
        row: placeOf(table.sheet, table.header.row),
        column: null,
        problem: "there are no rows below the header",
        found: "nothing",
        accepted: "a row for each specimen",
        suggestion: null,
      });
  }
  return {
    programme: {name: programmeName, specimens: [...good.values()].map(({specimen}) => specimen)},
    origins: new Map([...good].map(([name, {origin}]) => [name, origin])),
    hash: file.hash,
    refused,
    faults,
    warnings,
    understanding: table?.understanding ?? null,
  };
}

function specimenOf(reader: Reader, name: string): Specimen | null {
  const material = reader.neededText("material");
  const shape = shapeOf(reader);
  const amplitude = amplitudeOf(reader, shape);
  const life = lifeOf(reader);
  const rest = {
    temperature: reader.number("temperature"),
    frequency: reader.number("frequency"),
    initialModulus: reader.number("initialModulus"),
    phase: reader.number("phase"),
    setAside: reader.text("setAside"),
  };
  if (material === null || amplitude === null || shape === "faulty") return null;
  return {name, material, shape, amplitude, ...life, ...rest, history: null};
}

const trapezoid = ["baseWidth", "topWidth", "height", "thickness"] as const;
const prism = ["outerSpan", "innerSpan", "height", "width"] as const;

function shapeOf(reader: Reader): SpecimenShape | null | "faulty" {
  const given = (roles: readonly FatigueRole[]) => roles.filter(role => role !== "height" && reader.has(role));
  const [ofTrapezoid, ofPrism] = [given(trapezoid), given(prism)];
  if (ofTrapezoid.length === 0 && ofPrism.length === 0 && !reader.has("height")) return null;
  const accepted =
    "base width, top width, height and thickness of a trapezoid, or outer span, inner span, height and width of a prism; nothing at all when strains are given";
  if (ofTrapezoid.length > 0 === ofPrism.length > 0) {
    const problem =
      ofTrapezoid.length > 0
        ? "columns of a trapezoid and of a prism are both filled in"
        : "the shape is not complete: only the height is given";
    reader.fault({problem, accepted});
    return "faulty";
  }
  const roles = ofTrapezoid.length > 0 ? trapezoid : prism;
  const absent = roles.filter(role => !reader.has(role));
  if (absent.length > 0) {
    const labels = absent.map(role => fatigueRoles.find(({name}) => name === role)!.label);
    if (!reader.unreadable(...absent))
      reader.fault({problem: `the shape is not complete: no ${labels.join(", no ")}`, accepted});
    return "faulty";
  }
  const values = roles.map(role => reader.number(role));
  if (values.includes(null)) return "faulty";
  const [first, second, height, last] = values as number[];
  if (roles === trapezoid) {
    if (first < 2 * second * (1 - 1e-9)) {
      reader.fault({
        column: "baseWidth",
        problem: "the base is narrower than twice the top",
        found: `${mm(first)} against ${mm(second)}`,
        accepted: "a base width of at least twice the top width",
      });
      return "faulty";
    }
    return {kind: "trapezoid", baseWidth: first, topWidth: second, height, thickness: last};
  }
  if (second >= first) {
    reader.fault({
      column: "innerSpan",
      problem: "the inner span is not shorter than the outer one",
      found: `${mm(second)} against ${mm(first)}`,
      accepted: "an inner span below the outer span, usually a third of it",
    });
    return "faulty";
  }
  return {kind: "prism", outerSpan: first, innerSpan: second, height, width: last};
}

const amplitudes = ["strain", "headDisplacement", "midspanDeflection"] as const;
const lives = ["cycles", "history"] as const;

function amplitudeOf(reader: Reader, shape: SpecimenShape | null | "faulty"): TestAmplitude | null {
  const roles = amplitudes.filter(role => reader.has(role));
  const accepted = "one of strain amplitude, head displacement and mid-span deflection in each row";
  if (roles.length !== 1) {
    if (roles.length === 0 && reader.unreadable(...amplitudes)) return null;
    if (roles.length === 0 && !amplitudes.some(reader.column)) {
      reader.refuse("there is no column of an amplitude");
      return null;
    }
    reader.fault({
      problem: roles.length === 0 ? "neither a strain nor a displacement is given" : "more than one amplitude is given",
      ...(roles.length === 0 ? {} : {found: roles.map(role => cellText(reader.cell(role))).join(" and ")}),
      accepted,
    });
    return null;
  }
  const [role] = roles;
  const value = reader.number(role);
  if (value === null) return null;
  if (role === "strain") return {kind: "strain", strain: value};
  const kind = role === "headDisplacement" ? "trapezoid" : "prism";
  if (shape === "faulty") return null;
  if (shape?.kind !== kind) {
    reader.fault({
      column: role,
      problem: `a ${role === "headDisplacement" ? "head displacement" : "mid-span deflection"} needs the shape of a ${kind}`,
      found: shape === null ? "no shape" : `the shape of a ${shape.kind}`,
      accepted:
        kind === "trapezoid"
          ? "base width, top width, height and thickness"
          : "outer span, inner span, height and width",
    });
    return null;
  }
  return {kind: "displacement", displacement: value};
}

function lifeOf(reader: Reader): {readonly cycles: number | null; readonly runOut: boolean} {
  const flagged = reader.flag("runOut");
  if (!reader.has("cycles")) {
    if (!lives.some(reader.column)) reader.refuse("there is no column of the cycles to failure");
    else if (!reader.has("history") && !reader.unreadable("cycles"))
      reader.fault({
        problem: "neither cycles nor a history file are given",
        accepted: "cycles to failure, or the name of a history file",
      });
    return {cycles: null, runOut: flagged};
  }
  const cell = reader.cell("cycles");
  const [, above, digits, plus] = /^\s*([>≥]=?)?(.*?)(\+)?\s*$/.exec(cellText(cell)) ?? [];
  const marked = above !== undefined || plus !== undefined;
  const cycles = reader.value("cycles", typeof cell === "string" ? digits.trim() : cell);
  if (marked && reader.has("runOut") && !flagged)
    reader.fault({
      column: "runOut",
      problem: `the cycles are those of a run-out (${cellText(cell)}), this column says no`,
      accepted: "the same in both columns",
    });
  return {cycles, runOut: flagged || marked};
}
