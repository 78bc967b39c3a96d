import {expect, test} from "vitest";
import {
  beamsTemplate,
  fatigueTemplate,
  readBeamTables,
  readFatigueTable,
  readingsTemplate,
} from "../../../../src/schema/laboratory/index.ts";
import {csvFile} from "./tables.ts";

/** A template with rows below it: cells by header, the others empty. */
function filled(template: string, rows: readonly Readonly<Record<string, string>>[]): string {
  const headers = template.trimEnd().split("\n").at(-1)!.split(",");
  for (const row of rows) expect(Object.keys(row).filter(header => !headers.includes(header))).toEqual([]);
  return template + rows.map(row => `${headers.map(header => row[header] ?? "").join(",")}\n`).join("");
}

test("a fatigue template that was filled in", () => {
  const text = filled(fatigueTemplate(), [
    {
      specimen: "A",
      material: "m",
      "temperature [°C]": "10",
      "head displacement [mm]": "0.2",
      "base width [mm]": "56",
      "top width [mm]": "25",
      "height [mm]": "250",
      "thickness [mm]": "25",
      "initial modulus [MPa]": "12000",
      "phase angle [°]": "15",
      "cycles to failure": "54321",
      "set aside": "the clamp slipped",
      "tested on": "2024-02-29",
    },
    {specimen: "B", material: "m", "strain amplitude [µε]": "100", "run-out": "x", "history file": "b.csv"},
  ]);
  const {programme, faults, refused, understanding, origins} = readFatigueTable(csvFile(text), "p");
  expect([faults, refused]).toEqual([[], []]);
  expect(understanding!.columns.every(({role}) => role !== null)).toBe(true);
  expect(programme.specimens[0]).toMatchObject({
    amplitude: {kind: "displacement", displacement: 0.0002},
    shape: {kind: "trapezoid", baseWidth: 0.056},
    initialModulus: 12e9,
    cycles: 54321,
    setAside: "the clamp slipped",
  });
  expect(programme.specimens[1]).toMatchObject({cycles: null, runOut: true});
  expect(origins.get("B")).toMatchObject({history: "b.csv"});
});

test("templates of beams and readings that were filled in", () => {
  const beams = filled(beamsTemplate(), [
    {
      beam: "A",
      "overlay material": "m",
      "overlay thickness [mm]": "60",
      "overlay modulus [MPa]": "4000",
      "overlay Poisson ratio": "0.35",
      "base thickness [mm]": "70",
      "base modulus [MPa]": "30000",
      "base Poisson ratio": "0.2",
      "gap width [mm]": "5",
      "beam length [mm]": "500",
      "beam width [mm]": "150",
      sheets: "2",
      "sheet thickness [mm]": "10",
      "sheet modulus [MPa]": "8",
      "wheel load [kN]": "3",
      "contact length [mm]": "80",
      "contact width [mm]": "60",
      "travel centre [mm]": "0",
      "stroke [mm]": "300",
      "speed [m/s]": "0.3",
      "temperature [°C]": "15",
      "detection limit [mm]": "2",
    },
  ]);
  const readings = filled(readingsTemplate(), [
    {beam: "A", passes: "100", "crack from below face 1 [mm]": "not visible"},
    {beam: "A", passes: "5000", "crack from below face 1 [mm]": "6", "test stopped": "yes"},
  ]);
  const outcome = readBeamTables([csvFile(beams, "beams.csv"), csvFile(readings, "readings.csv")]);
  expect([outcome.faults, outcome.warnings, outcome.refused]).toEqual([[], [], []]);
  expect(outcome.beams[0].foundation).toEqual({kind: "stiffness", stiffness: 4e8});
  expect(outcome.beams[0].readings.map(({stopped}) => stopped)).toEqual([false, true]);
  expect(outcome.understandings.flatMap(({columns}) => columns).every(({role}) => role !== null)).toBe(true);
});

test("templates explain every column, and are empty", () => {
  for (const template of [fatigueTemplate(), beamsTemplate(), readingsTemplate()]) {
    const lines = template.trimEnd().split("\n");
    expect(lines.filter(line => !line.startsWith("#"))).toHaveLength(1);
    for (const header of lines.at(-1)!.split(","))
      expect(lines.some(line => line.startsWith(`# ${header} `))).toBe(true);
  }
});
