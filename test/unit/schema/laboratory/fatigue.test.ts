import {describe, expect, test} from "vitest";
import {
  type FatigueOutcome,
  formatLaboratoryFaults,
  formatUnderstanding,
  readFatigueTable,
} from "../../../../src/schema/laboratory/index.ts";
import {csvFile, fatigueHeader, fatigueText, workbookFile} from "./tables.ts";

const read = (text: string): FatigueOutcome => readFatigueTable(csvFile(text), "programme");

/** Problems of the faults, with place and column. */
const told = ({faults}: FatigueOutcome): string[] =>
  faults.map(({row, column, problem}) => [row, column, problem].filter(Boolean).join(" | "));

test("a good table: strains, run-outs, SI", () => {
  const {programme, faults, warnings, refused, understanding} = read(fatigueText);
  expect([faults, warnings, refused]).toEqual([[], [], []]);
  expect(programme.name).toBe("programme");
  expect(programme.specimens).toHaveLength(3);
  expect(programme.specimens[0]).toEqual({
    name: "K1",
    material: "coarse",
    shape: null,
    temperature: 20,
    frequency: 25,
    amplitude: {kind: "strain", strain: 150e-6},
    cycles: 210000,
    runOut: false,
    initialModulus: null,
    phase: null,
    history: null,
    setAside: null,
  });
  expect(programme.specimens[2]).toMatchObject({cycles: 3e6, runOut: true});
  expect(understanding).toMatchObject({sheet: null, delimiter: ",", headerRow: 1, rows: 3, rowsAbove: 0});
  expect(understanding!.columns[4]).toEqual({
    header: "strain amplitude [µε]",
    role: "strain amplitude",
    unit: "µε",
    firstCell: "150",
    firstValue: "0.00015",
  });
  expect(formatUnderstanding(understanding!)).toContain("strain amplitude [µε]  strain amplitude   µε  150 → 0.00015");
});

test("trapezoids and prisms, in other words, units and a decimal comma", () => {
  const {programme, faults, origins, understanding} = read(
    [
      "# a comment; with; marks",
      "Prüfkörper;Mischgut;Temperatur [K];Frequenz / Hz;head displacement / µm;B [mm];b_cm;Höhe in mm;épaisseur (mm);outer span [mm];inner span [mm];width [mm];mid-span deflection [mm];Smix [MPa];E0 [GPa];Phasenwinkel [°];Lastwechselzahl;Void content [%];Datum;Bemerkung",
      "P1;fein;293,15;25;200;56;2,5;250;25;;;;;1,5;12,5;18;1 234 567;4,2;31.05.2024;ok",
      "P2;fein;293,15;30;;;;50;;357;119;63;0,08;;;;3e6+;;2024-06-01;",
    ].join("\n"),
  );
  expect(faults).toEqual([]);
  const [first, second] = programme.specimens;
  expect(first.shape).toEqual({kind: "trapezoid", baseWidth: 0.056, topWidth: 0.025, height: 0.25, thickness: 0.025});
  expect(first.amplitude).toEqual({kind: "displacement", displacement: 200e-6});
  expect(first.temperature).toBeCloseTo(20, 12);
  expect(first.initialModulus).toBe(12.5e9);
  expect(first.phase).toBeCloseTo((18 * Math.PI) / 180, 15);
  expect(first.cycles).toBe(1234567);
  expect(second.shape).toEqual({kind: "prism", outerSpan: 0.357, innerSpan: 0.119, height: 0.05, width: 0.063});
  expect(second).toMatchObject({cycles: 3e6, runOut: true, amplitude: {kind: "displacement", displacement: 80e-6}});
  expect(origins.get("P1")).toMatchObject({
    row: "line 3",
    testedOn: "2024-05-31",
    remarks: "ok",
    kept: [
      {column: "Smix [MPa]", text: "1,5"},
      {column: "Void content [%]", text: "4,2"},
    ],
  });
  expect(understanding).toMatchObject({delimiter: ";", decimalMark: ","});
});

test("a workbook: the first sheet that has the columns, dates, a title above the header", () => {
  const header = ["Sample", "Mix", "Strain (microstrain)", "Nf", "Run-out", "tested on"];
  const {programme, faults, warnings, understanding, origins} = readFatigueTable(
    workbookFile({
      Notes: [["Fatigue, May"], ["temperature", 20]],
      Tests: [
        ["Programme of May"],
        [],
        header,
        ["A", "m", 100, 5e5, null, new Date(Date.UTC(2024, 4, 3))],
        ["# left out"],
        ["#B", "m", 80, 3e6, true, null],
      ],
      Again: [header, ["C", "m", 100, 1000, null, null]],
    }),
    "book",
  );
  expect(faults).toEqual([]);
  expect(warnings.map(({problem}) => problem)).toEqual([
    "sheet Again has the columns of fatigue specimens too and is not read",
  ]);
  expect(programme.specimens.map(({name, runOut}) => [name, runOut])).toEqual([
    ["A", false],
    ["#B", true],
  ]);
  expect(origins.get("A")).toMatchObject({row: "Tests!4", testedOn: "2024-05-03"});
  expect(understanding).toMatchObject({
    sheet: "Tests",
    otherSheets: ["Notes", "Again"],
    headerRow: 3,
    rowsAbove: 1,
    comments: 1,
    rows: 2,
  });
});

/** Rows below the usual header, and what is told of them. The row before and the row behind must load. */
const faultyRows: readonly (readonly [row: string, fault: string, suggestion?: string])[] = [
  ["X,coarse,20,25,-150,1000,", "strain amplitude [µε] | negative"],
  ["X,coarse,20,25,0,1000,", "strain amplitude [µε] | zero"],
  ["X,coarse,20,25,0.00012,1000,", "strain amplitude [µε] | too small", "write 120 if 0.00012 was meant in m/m"],
  ["X,coarse,20,25,150000,1000,", "strain amplitude [µε] | too large"],
  ["X,coarse,20,25,150,0,", "cycles to failure | zero"],
  ["X,coarse,20,25,150,-5,", "cycles to failure | negative"],
  ["X,coarse,20,25,150,1000.5,", "cycles to failure | not a whole number"],
  ["X,coarse,20,25,150,2e10,", "cycles to failure | too large"],
  ["X,coarse,283,25,150,1000,", "temperature [°C] | too large", "write 9.85 if 283 was meant in K"],
  ["X,coarse,20,2500,150,1000,", "frequency [Hz] | too large"],
  ["X,coarse,20,25,150 µε,1000,", "strain amplitude [µε] | not a number", "write 150"],
  ["X,coarse,20,25,15%,1000,", "strain amplitude [µε] | a percentage", "the unit belongs in the header"],
  ["X,coarse,20,25,NaN,1000,", "strain amplitude [µε] | not a finite number"],
  ["X,coarse,20,25,inf,1000,", "strain amplitude [µε] | not a finite number"],
  ["X,coarse,20,25,1e999,1000,", "strain amplitude [µε] | too large for a number"],
  ["X,coarse,20,25,#DIV/0!,1000,", "strain amplitude [µε] | not a finite number"],
  ['X,coarse,20,25,150,"1,234",', "cycles to failure | ambiguous", "write 1234, or 1.2340"],
  ['X,coarse,20,25,150,"1,234,567",', "cycles to failure | thousands set off", "write 1234567"],
  ['X,coarse,20.5,25,"150,5",1000,', "the decimal mark of this file is the point", "write 150.5"],
  ["X,coarse,20,25,150,>3000000,no", "run-out | the cycles are those of a run-out"],
  ["X,coarse,20,25,150,1000,perhaps", "run-out | neither yes nor no"],
  ["X,coarse,20,25,,1000,", "neither a strain nor a displacement"],
  ["X,coarse,20,25,150,,", "neither cycles nor a history file"],
  ["X,,20,25,150,1000,", "material | the material is not given"],
  [",coarse,20,25,150,1000,", "specimen | the specimen is not given"],
];

describe("a faulty row loses its own specimen only", () => {
  const cases = faultyRows.map(([row, fault, suggestion = ""]) => ({row, fault, suggestion}));
  test.each(cases)("$row: $fault", ({row, fault, suggestion}) => {
    const outcome = read(`${fatigueHeader}\nBefore,coarse,20.25,25,150,1000,\n${row}\nBehind,coarse,20,25,150,1000,\n`);
    expect(told(outcome)).toEqual([expect.stringContaining(fault)]);
    expect(told(outcome)[0]).toContain("line 3");
    if (suggestion) expect(outcome.faults[0].suggestion).toContain(suggestion);
    expect(outcome.programme.specimens.map(({name}) => name)).toEqual(["Before", "Behind"]);
    expect(outcome.refused).toEqual([
      {file: "table.csv", row: "line 3", name: row.split(",")[0] || null, reasons: [expect.any(String)]},
    ]);
  });
});

const shapeHeader =
  "specimen,material,strain [µε],head displacement [µm],mid-span deflection [µm],base width [mm],top width [mm],height [mm],thickness [mm],outer span [mm],inner span [mm],width [mm],cycles,tested on";

const faultyShapes: readonly (readonly [row: string, fault: string])[] = [
  ["X,m,150,200,,56,25,250,25,,,,1000,", "more than one amplitude"],
  ["X,m,150,,,56,25,250,,,,,1000,", "the shape is not complete: no thickness"],
  ["X,m,150,,,,,250,,,,,1000,", "only the height is given"],
  ["X,m,150,,,56,25,250,25,357,,,1000,", "of a trapezoid and of a prism are both filled in"],
  ["X,m,150,,,49,25,250,25,,,,1000,", "the base is narrower than twice the top"],
  ["X,m,150,,,,,50,,119,357,63,1000,", "the inner span is not shorter"],
  ["X,m,,200,,,,50,,357,119,63,1000,", "a head displacement needs the shape of a trapezoid"],
  ["X,m,,,80,,,,,,,,1000,", "a mid-span deflection needs the shape of a prism"],
  ["X,m,,0.2,,56,25,250000,25,,,,1000,", "too large to be true"],
  ["X,m,150,,,,,,,,,,1000,3/4/2024", "not a date"],
  ["X,m,150,,,,,,,,,,1000,31.02.2024", "not a date"],
];

test.each(faultyShapes)("shape and amplitude: %s: %s", (row, fault) => {
  const outcome = read(`${shapeHeader}\nGood,m,150,,,,,,,,,,1000,2024-05-31\n${row}\n`);
  expect(told(outcome)).toEqual([expect.stringContaining(fault)]);
  expect(outcome.programme.specimens.map(({name}) => name)).toEqual(["Good"]);
  expect(outcome.refused).toHaveLength(1);
});

test("two specimens with one name: neither can be meant", () => {
  const outcome = read(`${fatigueText}K2,coarse,20,25,100,5000,\n`);
  expect(told(outcome)).toEqual([
    "line 3 | specimen | more than one specimen has this name: line 3, line 5",
    "line 5 | specimen | more than one specimen has this name: line 3, line 5",
  ]);
  expect(outcome.programme.specimens.map(({name}) => name)).toEqual(["K1", "K3"]);
});

/** Headers, and what is told of them. */
const faultyHeaders: readonly (readonly [header: string, fault: string, suggestion: string | null])[] = [
  ["specimen,material,strain,cycles", "the unit is missing", "write strain amplitude [µε]"],
  ["specimen,material,strain [furlong],cycles", "the unit is not known", "write strain amplitude [µε]"],
  ["specimen,material,strain [mm],cycles", "the unit is not known", "write strain amplitude [µε]"],
  ["specimen,material,strain_mm,cycles", "the unit is not known", "write strain amplitude [µε]"],
  ["specimen,material,strain [µε],cycles [per hour]", "the unit is not known", "write cycles to failure"],
  ["specimen,material,strain [µε],remark", "there is no column of the cycles to failure", null],
  ["specimen,material,remark,cycles", "there is no column of an amplitude", null],
  ["specimen,remark,strain [µε],cycles", "there is no column of the material", null],
  ["specimen,matreial,strain [µε],cycles", "no such column is known", "did you mean material?"],
  ["specimen,material,strian [µε],cycles", "no such column is known", "did you mean strain amplitude [µε]?"],
];

test.each(faultyHeaders)("header %s: %s", (header, fault, suggestion) => {
  const outcome = read(`${header}\nA,m,150,1000\n`);
  const found = outcome.faults.filter(({problem}) => problem.includes(fault));
  expect(found).toHaveLength(1);
  expect(found[0].row).toBe("line 1");
  if (suggestion) expect(found[0].suggestion).toContain(suggestion);
  expect(outcome.programme.specimens).toEqual([]);
  expect(outcome.refused).toHaveLength(1);
  expect(outcome.faults.length).toBeLessThanOrEqual(2); // a fault of the header is not told again for each row
});

test("two columns of one kind refuse the rows that fill them in, and no others", () => {
  const outcome = read(
    "specimen,material,strain [µε],cycles,temperature [°C],test temperature (°C)\nA,m,150,1000,20,21\nB,m,150,1000,,\n",
  );
  expect(told(outcome)).toEqual(["line 1 | temperature [°C] | more than one column of the temperature"]);
  expect(outcome.programme.specimens.map(({name}) => name)).toEqual(["B"]);
  expect(outcome.refused[0].reasons).toEqual(["more than one column of the temperature"]);
});

test("decimal mark: semicolons with points, commas, neither, both", () => {
  const table = (strains: string[]) =>
    read(`specimen;material;strain [µε];cycles\n${strains.map((strain, i) => `S${i};m;${strain};1000`).join("\n")}\n`);
  const strainsOf = ({programme}: FatigueOutcome) =>
    programme.specimens.map(({amplitude}) => (amplitude.kind === "strain" ? amplitude.strain * 1e6 : 0));
  expect(strainsOf(table(["150.5", "1.234"]))).toEqual([150.5, expect.closeTo(1.234, 9)]);
  expect(strainsOf(table(["150,5", "1,234"]))).toEqual([150.5, expect.closeTo(1.234, 9)]);
  expect(told(table(["150", "1.234"]))).toEqual([
    "line 3 | strain [µε] | ambiguous: this may be a decimal or a thousand",
  ]);
  expect(told(table(["150,5", "140,5", "1.5"]))).toEqual([
    expect.stringContaining("the decimal mark of this file is the comma"),
  ]);
  expect(told(table(["150,5", "1.234"]))).toEqual([expect.stringContaining("ambiguous")]);
  expect(strainsOf(table(["1'500", "2 500", "1.2E3"]))).toEqual([1500, 2500, 1200]);
  const quotedCommas = read('specimen,material,strain [µε],cycles\nA,m,"150,5",1000\n');
  expect(strainsOf(quotedCommas)).toEqual([150.5]);
});

test("faults as text", () => {
  const {faults} = read(`${fatigueHeader}\nX,coarse,20,25,0.00012,1000.5,\n`);
  expect(formatLaboratoryFaults(faults)).toBe(`2 faults in table.csv:

  line 2, strain amplitude [µε]: too small to be true in the unit of its header
    found "0.00012"; accepted: numbers from 1 to 10000 µε
    write 120 if 0.00012 was meant in m/m, 1.2 if in %; or name its unit in the header

  line 2, cycles to failure: not a whole number
    found "1000.5"; accepted: whole numbers from 1 to 10000000000
`);
  expect(formatLaboratoryFaults([])).toBe("");
});

test("an empty table, a header alone, too many columns", () => {
  expect(told(read(""))).toEqual(["the table is empty"]);
  expect(told(read(`${fatigueHeader}\n`))).toEqual(["line 1 | there are no rows below the header"]);
  expect(told(read(`${fatigueHeader}${",x".repeat(600)}\n`))).toEqual(["line 1 | the table has too many columns"]);
});
