import {describe, expect, test} from "vitest";
import {type BeamOutcome, readBeamTables} from "../../../../src/schema/laboratory/index.ts";
import {beamHeader, beamRow, csvFile, layeredRow, readingsText, workbookFile} from "./tables.ts";

const readingsHeader = readingsText.split("\n")[0];

function read(beams: string, readings: string): BeamOutcome {
  return readBeamTables([csvFile(beams, "beams.csv"), csvFile(readings, "readings.csv")]);
}

const told = ({faults}: BeamOutcome): string[] =>
  faults.map(({file, row, column, problem}) => [file, row, column, problem].filter(Boolean).join(" | "));

/** The first beam with some cells changed, by header. */
function beamWith(changes: Readonly<Record<string, string>>, row = beamRow): string {
  const headers = beamHeader.split(",");
  const cells = row.split(",");
  for (const [header, text] of Object.entries(changes)) {
    const index = headers.indexOf(header);
    if (index >= 0) cells[index] = text;
    else {
      headers.push(header);
      cells.push(text);
    }
  }
  return `${headers.join(",")}\n${cells.join(",")}\n`;
}

const oneReading = `${readingsHeader}\nW1,1000,5,,,\n`;

test("good tables: beams and readings in SI", () => {
  const {beams, faults, warnings, refused, understandings, hashes} = read(
    `${beamHeader}\n${beamRow}\n${layeredRow}\n`,
    readingsText,
  );
  expect([faults, warnings, refused]).toEqual([[], [], []]);
  expect(beams).toHaveLength(2);
  expect(beams[0]).toEqual({
    name: "W1",
    overlay: {material: "coarse", thickness: 0.06, modulus: 4e9, poisson: 0.35},
    interlayer: null,
    base: {thickness: 0.07, modulus: 30e9, poisson: 0.2, gap: 0.005},
    length: 0.5,
    width: 0.15,
    foundation: {kind: "stiffness", stiffness: 5e7},
    wheel: {load: 3000, length: 0.08, width: 0.06},
    travel: {from: -0.15, to: 0.15},
    speed: 0.3,
    temperature: 15,
    detection: 0.002,
    readingError: 0.0005,
    setAside: null,
    readings: [
      {passes: 0, lower: [{kind: "not visible"}, {kind: "not visible"}], upper: [], stopped: false},
      {passes: 1000, lower: [length(0.012), length(0.01)], upper: [], stopped: false},
      {passes: 5000, lower: [length(0.035), length(0.03)], upper: [length(0.004)], stopped: false},
      {passes: 9000, lower: [{kind: "through"}, {kind: "through"}], upper: [], stopped: true},
    ],
  });
  expect(beams[1].interlayer).toEqual({material: "soft", thickness: 0.02, modulus: 0.4e9, poisson: 0.4});
  expect(beams[1].readings[0]).toEqual({
    passes: 1000,
    lower: [{kind: "not visible"}, {kind: "not visible"}],
    upper: [{kind: "not visible"}],
    stopped: false,
  });
  expect(understandings.map(({file, rows}) => [file, rows])).toEqual([
    ["beams.csv", 2],
    ["readings.csv", 6],
  ]);
  expect(Object.keys(hashes)).toEqual(["beams.csv", "readings.csv"]);
});

const length = (value: number) => ({kind: "length", length: value});

test("one workbook with both tables", () => {
  const header = beamHeader.split(",");
  const cells = beamRow
    .split(",")
    .map(text => (text !== "" && Number.isFinite(Number(text)) ? Number(text) : text || null));
  const {beams, faults} = readBeamTables([
    workbookFile({
      Beams: [header, cells],
      Readings: [
        ["Balken", "Überrollungen", "Riss von unten Seite 1 [mm]", "Zustand"],
        ["W1", 500, "nicht sichtbar", null],
        ["W1", 2000, 7.5, "Versuchsende"],
      ],
    }),
  ]);
  expect(faults).toEqual([]);
  expect(beams[0].readings).toEqual([
    {passes: 500, lower: [{kind: "not visible"}], upper: [], stopped: false},
    {passes: 2000, lower: [length(0.0075)], upper: [], stopped: true},
  ]);
});

test("what the blocks stand on, in three ways", () => {
  const none = {"foundation stiffness [MPa/mm]": ""};
  const foundationOf = (changes: Record<string, string>) => read(beamWith(changes), oneReading).beams[0]?.foundation;
  expect(foundationOf({"foundation stiffness [MPa/mm]": "0.1"})).toEqual({kind: "stiffness", stiffness: 1e8});
  // Springs in series: 6 MPa / (3 · 10 mm) = 0.2 MPa/mm
  const sheets = {...none, sheets: "3", "sheet thickness [mm]": "10", "sheet modulus [MPa]": "6"};
  expect(foundationOf(sheets)).toEqual({kind: "stiffness", stiffness: 2e8});
  const deflection = {...none, "static load [kN]": "5", "static deflection [mm]": "0.4"};
  expect(foundationOf(deflection)).toEqual({kind: "deflection", load: 5000, deflection: 0.0004});
  expect(foundationOf({...deflection, "deflection position [mm]": "-100"})).toMatchObject({at: -0.1});
});

test("the travel by its centre and stroke", () => {
  const {beams} = read(
    beamWith({"travel from [mm]": "", "travel to [mm]": "", "travel centre [mm]": "20", "stroke [mm]": "300"}),
    oneReading,
  );
  expect(beams[0].travel).toEqual({from: expect.closeTo(-0.13, 12), to: expect.closeTo(0.17, 12)});
});

test("Poisson ratios that are not given are taken, and this is told", () => {
  const {beams, warnings} = read(beamWith({"overlay Poisson ratio": "", "base Poisson ratio": ""}), oneReading);
  expect([beams[0].overlay.poisson, beams[0].base.poisson]).toEqual([0.35, 0.2]);
  expect(warnings.map(({problem}) => problem)).toEqual([
    "the Poisson ratio of the overlay is not given: 0.35 is taken",
    "the Poisson ratio of the base is not given: 0.2 is taken",
  ]);
});

/** Changes of a good beam, and what is told. */
const faultyBeams: readonly (readonly [Readonly<Record<string, string>>, string])[] = [
  [{"overlay thickness [mm]": ""}, "the overlay thickness is not given"],
  [{"overlay thickness [mm]": "-60"}, "negative"],
  [{"overlay thickness [mm]": "0.06"}, "too small to be true"],
  [{"overlay modulus [MPa]": "4e9"}, "too large to be true"],
  [{"overlay Poisson ratio": "0.5"}, "too large to be true"],
  [{"interlayer material": "soft"}, "the interlayer thickness is not given"],
  [{"gap width [mm]": "-1"}, "negative"],
  [{"foundation stiffness [MPa/mm]": ""}, "what the blocks stand on is not given"],
  [{"static load [kN]": "5", "static deflection [mm]": "0.4"}, "what the blocks stand on is given more than once"],
  [{"travel to [mm]": "-200"}, "the travel of the wheel ends before it begins"],
  [{"travel to [mm]": "400"}, "the wheel leaves the beam"],
  [{"stroke [mm]": "300"}, "the travel of the wheel is given twice"],
  [{"contact width [mm]": "200"}, "the wheel is wider than the beam"],
  [{"temperature [°C]": "288"}, "too large to be true"],
  [{"detection limit [mm]": ""}, "the detection limit is not given"],
];

test.each(faultyBeams)("a faulty beam %o: %s", (changes, fault) => {
  const good = layeredRow;
  const [header, row] = beamWith(changes).split("\n");
  const extra = ",".repeat(header.split(",").length - beamHeader.split(",").length);
  const outcome = read(`${header}\n${good}${extra}\n${row}\n`, `${readingsHeader}\nW2,1000,3,,,\nW1,1000,5,,,\n`);
  expect(told(outcome).filter(text => text.includes(fault))).toHaveLength(1);
  expect(outcome.beams.map(({name}) => name)).toEqual(["W2"]);
  expect(outcome.refused.map(({row, name}) => [row, name])).toEqual([
    ["line 3", "W1"],
    ["line 3", "W1"], // its reading
  ]);
});

describe("readings", () => {
  /** Rows of readings of the first beam, 60 mm thick, and what is told. */
  const faulty: readonly (readonly [rows: string[], fault: string])[] = [
    [["W1,1000,5,,,", "W1,1000,6,,,"], "line 3 | the passes of beam W1 do not ascend"],
    [["W1,1000,5,,,", "W1,500,6,,,"], "line 3 | the passes of beam W1 do not ascend"],
    [["W1,1000,5,,,", "W1,2000,2.9,,,"], "line 3 | the crack from below face 1 of beam W1 shrinks"],
    [["W1,1000,5,,,", "W1,2000,4,,,", "W1,3000,2.9,,,"], "line 4 | the crack from below face 1 of beam W1 shrinks"],
    [["W1,1000,,,9,", "W1,2000,,,not visible,"], "line 3 | the crack from above face 1 of beam W1 shrinks"],
    [["W1,1000,through,,,", "W1,2000,59,,,"], "line 3 | the crack from below face 1 of beam W1 shrinks"],
    [["W1,1000,50,,13,"], "line 2 | the cracks on face 1 of beam W1 are longer"],
    [["W1,1000,,63,,"], "line 2 | the cracks on face 2 of beam W1 are longer"],
    [["W1,1000,5,,,stopped", "W1,2000,6,,,"], "line 3 | beam W1 is read after its test stopped"],
    [["W1,1000,,,,"], "line 2 | nothing was read in this row"],
    [["W1,1000,wide,,,"], "line 2 | crack from below face 1 [mm] | neither a length nor a word"],
    [["W1,1000,-3,,,"], "line 2 | crack from below face 1 [mm] | negative"],
    [["W1,1000,5,,,odd"], "line 2 | status | not a word that is known"],
    [["W1,-1,5,,,"], "line 2 | passes | negative"],
    [["W1,10.5,5,,,"], "line 2 | passes | not a whole number"],
  ];

  test.each(faulty)("%j: %s", (rows, fault) => {
    const outcome = read(
      `${beamHeader}\n${beamRow}\n${layeredRow}\n`,
      [readingsHeader, ...rows, "W2,1000,3,,,"].join("\n"),
    );
    expect(told(outcome)).toEqual([`readings.csv | ${fault}`].map(text => expect.stringContaining(text)));
    expect(outcome.beams.map(({name}) => name)).toEqual(["W2"]);
    expect(outcome.refused.at(-1)).toMatchObject({file: "beams.csv", row: "line 2", name: "W1"});
  });

  test("may seem to shrink by the reading error, and by as much as it says", () => {
    const shrinking = `${readingsHeader}\nW1,1000,5,,,\nW1,2000,3.2,,,\nW1,3000,not visible,,,\n`;
    expect(read(beamWith({}), shrinking).beams).toHaveLength(0); // 5 mm to nothing: 2 mm of error, 2 mm not seen
    expect(read(beamWith({"reading error [mm]": "3"}), shrinking).beams).toHaveLength(1);
    expect(read(beamWith({"reading error [mm]": "1"}), shrinking).beams).toHaveLength(0);
  });

  test("of an unknown beam, and a beam without any", () => {
    const outcome = read(
      `${beamHeader}\n${beamRow}\n${layeredRow}\n`,
      `${readingsHeader}\nW1,1000,5,,,\nW9,1000,5,,,\n`,
    );
    expect(told(outcome)).toEqual([
      "readings.csv | line 3 | beam | there is no such beam in the table of beams",
      "beams.csv | line 3 | there are no readings of beam W2",
    ]);
    expect(outcome.beams.map(({name}) => name)).toEqual(["W1"]);
    expect(outcome.refused.map(({name}) => name)).toEqual(["W9", "W2"]);
  });
});

test("two beams with one name: neither can be meant", () => {
  const outcome = read(`${beamHeader}\n${beamRow}\n${beamRow}\n${layeredRow}\n`, readingsText);
  expect(told(outcome)).toEqual(["beams.csv | line 3 | beam | the name of this beam stands already in line 2"]);
  expect(outcome.beams.map(({name}) => name)).toEqual(["W2"]);
});

test("files that are no tables, and tables that are not there", () => {
  const other = csvFile("x,y\n1,2\n", "other.csv");
  const outcome = readBeamTables([csvFile(`${beamHeader}\n${beamRow}\n`, "beams.csv"), other]);
  expect(outcome.warnings.map(({file, problem}) => [file, problem])).toEqual([["other.csv", "the file is not used"]]);
  expect(told(outcome)[0]).toContain("there is no table of readings of cracks");
  expect(told(readBeamTables([]))).toHaveLength(2);
});
