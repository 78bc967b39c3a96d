/**
 * Writes the tables of the example programme anew from its invented truth: `node examples/laboratory/write.ts`. A test holds
 * the tables against what this would write.
 */
import {mkdirSync, writeFileSync} from "node:fs";
import path from "node:path";
import type {BeamTest, CrackReading} from "../../src/engine/laboratory/index.ts";
import {INVENTED, inventBeams, inventedCases} from "./invent.ts";
import {INVENTED_LINES, type InventedSpecimen, inventFatigue, TEST} from "./inventFatigue.ts";

const FATIGUE_SEED = 11;
const BEAM_SEED = 4;
const ACCURACY = 0.01; // accuracy of the beams that are invented

/** Texts of all tables, by path relative to this folder. */
export function exampleTables(): Record<string, string> {
  const specimens = inventFatigue(INVENTED_LINES, FATIGUE_SEED);
  const beams = inventBeams(inventedCases(ACCURACY), INVENTED, BEAM_SEED).map(c => c.test);
  const tables: Record<string, string> = {"beams.csv": beamsTable(beams), "readings.csv": readingsTable(beams)};
  for (const {material} of INVENTED_LINES) {
    const own = specimens.filter(s => s.truth.material === material);
    tables[`fatigue/${fileWord(material)}.csv`] = fatigueTable(own);
    for (const s of own) if (s.history) tables[`fatigue/${historyFile(s)}`] = historyTable(s.history);
  }
  return tables;
}

const NOTE = "# Invented: nobody tested this. See inventFatigue.ts and invent.ts for what is true here.";

const fileWord = (name: string): string => name.replaceAll(" ", "-");
const historyFile = ({name}: InventedSpecimen): string => `histories/${name}.csv`;
const cell = (value: number, significant = 5): string => String(Number(value.toPrecision(significant)));
const csv = (rows: readonly (readonly (string | number)[])[]): string =>
  `${NOTE}\n${rows.map(r => r.join(",")).join("\n")}\n`;

function fatigueTable(specimens: readonly InventedSpecimen[]): string {
  const {shape} = specimens[0].truth;
  const trapezoid = shape.kind === "trapezoid";
  const sizes = trapezoid
    ? [shape.baseWidth, shape.topWidth, shape.height, shape.thickness]
    : [shape.outerSpan, shape.innerSpan, shape.height, shape.width];
  const header = [
    "specimen",
    "material",
    "temperature [°C]",
    "frequency [Hz]",
    trapezoid ? "head displacement [µm]" : "mid-span deflection [µm]",
    ...(trapezoid
      ? ["base width [mm]", "top width [mm]", "height [mm]", "thickness [mm]"]
      : ["outer span [mm]", "inner span [mm]", "height [mm]", "width [mm]"]),
    "initial modulus [MPa]",
    "cycles to failure",
    "run-out",
    "history file",
  ];
  const rows = specimens.map(s => [
    s.name,
    s.truth.material,
    TEST.temperature,
    TEST.frequency,
    cell(s.displacement * 1e6, 4),
    ...sizes.map(l => cell(l * 1e3)),
    s.history ? "" : cell(s.modulus / 1e6, 4),
    s.history ? "" : s.cycles,
    s.runOut ? "yes" : "no",
    s.history ? historyFile(s) : "",
  ]);
  return csv([header, ...rows]);
}

function historyTable(rows: NonNullable<InventedSpecimen["history"]>): string {
  return csv([["cycle", "modulus [MPa]"], ...rows.map(r => [r.cycle, cell(r.modulus / 1e6, 4)])]);
}

function beamsTable(beams: readonly BeamTest[]): string {
  const header = [
    "beam",
    "overlay material",
    "overlay thickness [mm]",
    "overlay modulus [MPa]",
    "overlay Poisson ratio",
    "interlayer material",
    "interlayer thickness [mm]",
    "interlayer modulus [MPa]",
    "interlayer Poisson ratio",
    "base thickness [mm]",
    "base modulus [MPa]",
    "base Poisson ratio",
    "gap width [mm]",
    "beam length [mm]",
    "beam width [mm]",
    "foundation stiffness [MPa/mm]",
    "wheel load [kN]",
    "contact length [mm]",
    "contact width [mm]",
    "travel from [mm]",
    "travel to [mm]",
    "speed [m/s]",
    "temperature [°C]",
    "detection limit [mm]",
    "reading error [mm]",
  ];
  const rows = beams.map(b => {
    const {foundation, interlayer: i} = b;
    if (foundation.kind !== "stiffness") throw new Error(`${b.name}: springs are given`);
    return [
      b.name,
      b.overlay.material,
      cell(b.overlay.thickness * 1e3),
      cell(b.overlay.modulus / 1e6),
      b.overlay.poisson,
      ...(i ? [i.material, cell(i.thickness * 1e3), cell(i.modulus / 1e6), i.poisson] : ["", "", "", ""]),
      cell(b.base.thickness * 1e3),
      cell(b.base.modulus / 1e6),
      b.base.poisson,
      cell(b.base.gap * 1e3),
      cell(b.length * 1e3),
      cell(b.width * 1e3),
      cell(foundation.stiffness / 1e9),
      cell(b.wheel.load / 1e3),
      cell(b.wheel.length * 1e3),
      cell(b.wheel.width * 1e3),
      cell(b.travel.from * 1e3),
      cell(b.travel.to * 1e3),
      b.speed ?? "",
      b.temperature ?? "",
      cell(b.detection * 1e3),
      cell(4 * b.readingError * 1e3), // see the reader: what two readings may be apart
    ];
  });
  return csv([header, ...rows]);
}

function readingsTable(beams: readonly BeamTest[]): string {
  const word = (r: CrackReading | undefined): string | number =>
    r === undefined ? "" : r.kind === "length" ? cell(r.length * 1e3) : r.kind;
  const header = [
    "beam",
    "passes",
    "crack from below face 1 [mm]",
    "crack from below face 2 [mm]",
    "crack from above face 1 [mm]",
    "crack from above face 2 [mm]",
    "test stopped",
  ];
  const rows = beams.flatMap(b =>
    b.readings.map(r => {
      const through = r.lower.some(f => f.kind === "through");
      const cells = through
        ? ["through", "through", "", ""]
        : [r.lower[0], r.lower[1], r.upper[0], r.upper[1]].map(word);
      return [b.name, r.passes, ...cells, r.stopped ? "yes" : "no"];
    }),
  );
  return csv([header, ...rows]);
}

if (import.meta.main) {
  for (const [name, text] of Object.entries(exampleTables())) {
    const file = path.join(import.meta.dirname, name);
    mkdirSync(path.dirname(file), {recursive: true});
    writeFileSync(file, text);
  }
}
