import type {BeamReading, BeamTest, CrackReading} from "../../engine/laboratory/types.ts";
import {type CrackRole, crackRoles, type ReadingRole, readingRoles} from "./beam-roles.ts";
import {cellText} from "./cells.ts";
import {type LaboratoryFault, mm, wholeFault} from "./fault.ts";
import type {RowReader} from "./rows.ts";
import {type CrackWord, crackWords, readCrackWord} from "./words.ts";

/** A reading and where it stands. */
export interface PlacedReading {
  readonly reading: BeamReading;
  readonly byColumn: Readonly<Partial<Record<CrackRole, CrackReading>>>;
  readonly file: string;
  readonly place: string; // "line 7" or "Readings!7"
}

type Reader = RowReader<ReadingRole>;

const wordsAccepted = `lengths, or ${Object.keys(crackWords)
  .map(word => (word === "stopped" ? "test stopped" : word))
  .join(", ")}`;

/** The reading of one row; null when it is faulty, which the reader tells. */
export function readingOf(reader: Reader): Pick<PlacedReading, "reading" | "byColumn"> | null {
  const passes = reader.needed("passes");
  const status = statusOf(reader);
  const cells = crackRoles.map(role => crackOf(reader, role, status));
  const readings = cells.map(cell => (cell === "stopped" ? null : cell));
  const stopped = status === "stopped" || cells.includes("stopped") || reader.flag("stopped");
  const side = (a: number, b: number): CrackReading[] => [readings[a], readings[b]].filter(one => one !== null);
  const [lower, upper] = [side(0, 1), side(2, 3)];
  if (lower.length + upper.length === 0 && !stopped && reader.reasons.length === 0)
    reader.fault({problem: "nothing was read in this row", accepted: "a crack length or a word on at least one face"});
  if (passes === null) return null;
  const byColumn = Object.fromEntries(crackRoles.flatMap((role, i) => (readings[i] ? [[role, readings[i]]] : [])));
  return {reading: {passes, lower, upper, stopped}, byColumn};
}

/** What a word in the column of the status, or in the remarks, says of the whole row. Other remarks are only kept. */
function statusOf(reader: Reader): CrackWord | null {
  const text = reader.text("status");
  const remark = readCrackWord(reader.text("remarks") ?? "");
  if (text === null) return remark;
  const word = readCrackWord(text);
  if (word === null && !/^(ok|-|–)$/i.test(text))
    reader.fault({
      column: "status",
      problem: "not a word that is known",
      accepted: "not visible, through, test stopped; other words belong in the remarks",
    });
  return word ?? remark;
}

/** One cell; an empty one has what the status says. Null: nothing was read on this face. */
function crackOf(reader: Reader, role: CrackRole, status: CrackWord | null): CrackReading | "stopped" | null {
  if (!reader.has(role)) {
    const inTable = reader.column(role) || (role === "lower1" && !crackRoles.some(reader.column)); // only a status
    if (!inTable) return null;
    if (status === "not visible") return {kind: "not visible"};
    return status === "through" && role.startsWith("lower") ? {kind: "through"} : null;
  }
  const cell = reader.cell(role);
  const text = cellText(cell);
  if (/^[-–—]$/.test(text)) return null;
  const word = typeof cell === "string" ? readCrackWord(text) : null;
  if (word === "stopped") return "stopped";
  if (word !== null) return {kind: word};
  if (typeof cell === "string" && !/\d/.test(text)) {
    reader.fault({column: role, problem: "neither a length nor a word that is known", accepted: wordsAccepted});
    return null;
  }
  const length = reader.value(role, cell);
  return length === null ? null : {kind: "length", length};
}

const faces: readonly (readonly CrackRole[])[] = [
  ["lower1", "upper1"],
  ["lower2", "upper2"],
];

const labels = Object.fromEntries(readingRoles.map(({name, label}) => [name, label])) as Record<ReadingRole, string>;

/** Length for comparing: nothing visible is 0, a crack through everything is longer than all. */
function lengthOf(reading: CrackReading): number {
  return reading.kind === "length" ? reading.length : reading.kind === "through" ? Infinity : 0;
}

const shown = (reading: CrackReading): string => (reading.kind === "length" ? mm(reading.length) : reading.kind);

/** What is wrong with the readings of one beam one after another. */
export function sequenceFaults(
  beam: Omit<BeamTest, "readings">,
  placed: readonly PlacedReading[],
  error: number,
): LaboratoryFault[] {
  const thickness = beam.overlay.thickness + (beam.interlayer?.thickness ?? 0);
  const faults: LaboratoryFault[] = [];
  const longest = new Map<CrackRole, {readonly length: number; readonly text: string; readonly place: string}>();
  for (const [i, {reading, byColumn, file, place}] of placed.entries()) {
    const tell = (problem: string, found: string, accepted: string) =>
      faults.push(wholeFault(file, place, {problem, found, accepted}));
    const before = placed[i - 1];
    if (before && reading.passes <= before.reading.passes)
      tell(
        `the passes of beam ${beam.name} do not ascend`,
        `${reading.passes} after ${before.reading.passes} in ${before.place}`,
        "rows in the order of passes",
      );
    if (before?.reading.stopped)
      tell(
        `beam ${beam.name} is read after its test stopped in ${before.place}`,
        `${reading.passes} passes`,
        "no rows after the stop",
      );
    for (const role of crackRoles) {
      const one = byColumn[role];
      if (!one) continue;
      const length = lengthOf(one);
      const past = longest.get(role);
      const allowed = error + (one.kind === "not visible" ? beam.detection : 0);
      if (past && past.length - length > allowed * (1 + 1e-9))
        tell(
          `the ${labels[role]} of beam ${beam.name} shrinks`,
          `${shown(one)} after ${past.text} in ${past.place}`,
          `cracks that grow; ${mm(error)} are allowed for the error of reading`,
        );
      if (!past || length > past.length) longest.set(role, {length, text: shown(one), place});
    }
    for (const [face, roles] of faces.entries()) {
      const lengths = roles.flatMap(role => (byColumn[role]?.kind === "length" ? [byColumn[role].length] : []));
      if (lengths.reduce((total, length) => total + length, 0) > thickness + error)
        tell(
          `the cracks on face ${face + 1} of beam ${beam.name} are longer than its courses are thick`,
          lengths.map(mm).join(" and "),
          `${mm(thickness)} together; a crack through everything is "through"`,
        );
    }
  }
  return faults;
}
