/** Tables of complex modulus tests: one row a reading. */
import type {ComplexModulusPoint} from "../engine/viscoelastic/types.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {fromDegrees, fromMPa} from "./si.ts";
import type {TestsDocument} from "./stiffness-fields.ts";
import {headerNames, linesText, numberColumn, type ReadCsv, readTable, type Table} from "./table.ts";

/** Fewest readings and temperatures that a curve with its shift can be fitted to. */
const fewestRows = 6;
const fewestTemperatures = 2;
/** By how much a modulus may lie below one at a lower frequency, as scatter [–]. */
const fallAccepted = 0.05;
/** A whole table of phases not above π/2 looks like radians. */
const rightAngle = Math.PI / 2;

const roles = ["temperature_C", "frequency_Hz", "modulus_MPa", "phase_deg"] as const;
type Role = (typeof roles)[number];

interface Limits {
  readonly fits: (value: number) => boolean;
  readonly accepted: string;
  readonly slip: string; // what a value beyond them may have been
}

const limits: Readonly<Record<Role, Limits>> = {
  temperature_C: {
    fits: t => t >= -60 && t <= 100,
    accepted: "-60 to 100 °C",
    slip: "are the temperatures in K or °F?",
  },
  frequency_Hz: {fits: f => f > 0 && f <= 1e6, accepted: "> 0, ≤ 1000000 Hz", slip: "are the frequencies in Hz?"},
  modulus_MPa: {fits: m => m > 0 && m <= 100_000, accepted: "> 0, ≤ 100000 MPa", slip: "are the moduli in Pa or kPa?"},
  phase_deg: {fits: p => p >= 0 && p <= 90, accepted: "0 to 90 degrees", slip: "is it a loss angle in degrees?"},
};

/** The readings of a file. Null when something is wrong with it, all of which the findings then tell. */
export function readTests(
  {file, header_line, columns}: Pick<TestsDocument, "file" | "header_line" | "columns">,
  path: DocumentPath,
  readCsv: ReadCsv,
  findings: Findings,
): readonly ComplexModulusPoint[] | null {
  const before = findings.faults.length;
  const text = readCsv(file);
  const names = typeof text === "string" ? headerNames(text, header_line) : [];
  const phase = columns.phase_deg ?? (names.includes("phase_deg") ? "phase_deg" : undefined);
  const named = {...columns, phase_deg: phase};
  const table = readTable({file, headerLine: header_line, columns: named}, path, () => text, findings);
  if (!table) return null;
  const values = Object.fromEntries(
    roles
      .filter(role => table.columns[role] !== undefined)
      .map(role => [role, checkedColumn(table, role, path, findings)]),
  ) as Record<Role, Float64Array | undefined>;
  if (findings.faults.length > before) return null;
  const points = [...table.lines.keys()].map(
    (i): ComplexModulusPoint => ({
      temperature: values.temperature_C![i],
      frequency: values.frequency_Hz![i],
      modulus: fromMPa(values.modulus_MPa![i]),
      phase: values.phase_deg && !Number.isNaN(values.phase_deg[i]) ? fromDegrees(values.phase_deg[i]) : null,
    }),
  );
  const rows = {points, lines: table.lines};
  checkAmount(rows, path, findings);
  if (findings.faults.length > before) return null;
  warnTwice(rows, path, findings);
  warnFalling(rows, path, findings);
  warnUnits(values, path, findings);
  return points;
}

/** Numbers of a column within their limits; undefined when one is not, which the findings then tell. */
function checkedColumn(table: Table, role: Role, path: DocumentPath, findings: Findings): Float64Array | undefined {
  const column = numberColumn(table, role, path, findings, new Set());
  if (!column) return undefined;
  const {values} = column;
  const at = [...path, "columns", role];
  const lineOf = (i: number): number => table.lines[i];
  const missing = [...values.keys()].filter(i => Number.isNaN(values[i]));
  const {fits, accepted, slip} = limits[role];
  if (missing.length > 0 && role !== "phase_deg")
    findings.fault(at, {
      problem: `no value in ${linesText(missing.map(lineOf))} of the file`,
      found: "an empty cell",
      accepted: `${accepted} in every row`,
    });
  const bad = [...values.keys()].filter(i => !Number.isNaN(values[i]) && !fits(values[i]));
  if (bad.length > 0)
    findings.fault(at, {
      problem: `impossible values in ${linesText(bad.map(lineOf))} of the file`,
      found: `${values[bad[0]]} in line ${lineOf(bad[0])}`,
      accepted,
      suggestion: values[bad[0]] > 0 ? slip : null,
    });
  return values;
}

interface Rows {
  readonly points: readonly ComplexModulusPoint[];
  readonly lines: Int32Array;
}

function checkAmount({points}: Rows, path: DocumentPath, findings: Findings): void {
  const temperatures = new Set(points.map(p => p.temperature));
  if (points.length < fewestRows)
    findings.fault([...path, "file"], {
      problem: "there are too few readings for a curve",
      found: `${points.length} ${points.length === 1 ? "row" : "rows"}`,
      accepted: `at least ${fewestRows} rows`,
    });
  if (temperatures.size < fewestTemperatures)
    findings.fault([...path, "file"], {
      problem: "how the curve shifts with temperature cannot be told from one temperature",
      found: `${[...temperatures].join(", ")} °C only`,
      accepted: `readings at ${fewestTemperatures} temperatures or more`,
    });
}

/** The same temperature and frequency again. */
function warnTwice({points, lines}: Rows, path: DocumentPath, findings: Findings): void {
  const seen = new Set<string>();
  const again = [...points.keys()].filter(i => {
    const key = `${points[i].temperature} ${points[i].frequency}`;
    const known = seen.has(key);
    seen.add(key);
    return known;
  });
  if (again.length > 0)
    findings.warn([...path, "file"], {
      problem: `temperature and frequency of an earlier row stand again in ${linesText(again.map(i => lines[i]))} of the file`,
      found: `${points[again[0]].temperature} °C and ${points[again[0]].frequency} Hz in line ${lines[again[0]]}`,
      accepted: "each once; several specimens may be meant, then all of them count",
    });
}

/** At one temperature asphalt is stiffer the faster it is loaded. */
function warnFalling({points, lines}: Rows, path: DocumentPath, findings: Findings): void {
  const falling: number[] = [];
  for (const own of Map.groupBy(points.keys(), i => points[i].temperature).values()) {
    const rising = own.sort((i, j) => points[i].frequency - points[j].frequency);
    let highest = 0; // of all lower frequencies [Pa]
    let level = 0; // of the same frequency
    rising.forEach((i, k) => {
      const {modulus, frequency} = points[i];
      if (k > 0 && frequency > points[rising[k - 1]].frequency) highest = Math.max(highest, level);
      if (modulus < (1 - fallAccepted) * highest) falling.push(i);
      level = Math.max(level, modulus);
    });
  }
  falling.sort((i, j) => i - j);
  if (falling.length > 0)
    findings.warn([...path, "columns", "modulus_MPa"], {
      problem: `the modulus falls with frequency in ${linesText(falling.map(i => lines[i]))} of the file`,
      found: `${Number((points[falling[0]].modulus / 1e6).toPrecision(6))} MPa in line ${lines[falling[0]]}, more than ${100 * fallAccepted} % below a lower frequency`,
      accepted: "at one temperature a modulus that rises with frequency",
    });
}

function warnUnits(values: Record<Role, Float64Array | undefined>, path: DocumentPath, findings: Findings): void {
  const [phase, modulus] = [values.phase_deg?.filter(p => !Number.isNaN(p)), values.modulus_MPa!];
  if (phase && phase.length > 0 && phase.every(p => p <= rightAngle))
    findings.warn([...path, "columns", "phase_deg"], {
      problem: "the phases look like radians",
      found: `none above ${Math.max(...phase)}`,
      accepted: "degrees",
    });
  if (modulus.every(m => m < 60))
    findings.warn([...path, "columns", "modulus_MPa"], {
      problem: "the moduli look like GPa",
      found: `none above ${Math.max(...modulus)}`,
      accepted: "MPa",
    });
}
