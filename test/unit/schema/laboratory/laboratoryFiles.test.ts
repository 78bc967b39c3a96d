/** Files in memory, as a page has them, against the same files on disk. */
import {readdirSync, readFileSync} from "node:fs";
import path from "node:path";
import {expect, test} from "vitest";
import {readBeamFiles, readFatigueProgramme} from "../../../../src/node/laboratory/index.ts";
import {
  beamTables,
  fatigueProgramme,
  type LaboratoryFile,
  lookAtLaboratoryFile,
  readFatigueTable,
  tablesIn,
  understandingsOf,
} from "../../../../src/schema/laboratory/index.ts";
import {beamHeader, beamRow, csvFile, fatigueHeader, fatigueText, readingsText, workbookFile} from "./tables.ts";

const folder = path.resolve(import.meta.dirname, "../../../../examples/laboratory");

/** Every table of the example, named as asked for. */
function exampleFiles(nameOf: (relative: string) => string): LaboratoryFile[] {
  return readdirSync(folder, {recursive: true, encoding: "utf8"})
    .filter(name => name.endsWith(".csv"))
    .sort()
    .map(name => ({
      name: nameOf(name.replaceAll("\\", "/")),
      bytes: new Uint8Array(readFileSync(path.join(folder, name))),
    }));
}

const FATIGUE = ["dense-asphalt.csv", "soft-interlayer.csv", "stiff-binder-course.csv"];

test.each([
  ["with their folders", (name: string) => name, FATIGUE.map(name => `fatigue/${name}`)],
  ["by their own names alone", (name: string) => path.basename(name), FATIGUE],
])("a programme of the example, files %s, is that from disk", async (_, nameOf, tables) => {
  const fromDisk = await readFatigueProgramme(
    FATIGUE.map(name => path.join(folder, "fatigue", name)),
    "p",
  );
  const inMemory = await fatigueProgramme(exampleFiles(nameOf), {name: "p", tables});
  expect(inMemory.faults).toEqual([]);
  expect(inMemory.programme).toEqual(fromDisk.programme);
  expect(inMemory.hashes.map(h => h.sha256)).toEqual(fromDisk.hashes.map(h => h.sha256));
  expect(inMemory.programme.specimens.filter(s => s.history).length).toBe(3);
});

test("beams of the example are those from disk, one of them set aside", async () => {
  const fromDisk = await readBeamFiles(folder);
  const files = exampleFiles(name => name).filter(({name}) => /^(beams|readings)\.csv$/.test(name));
  const inMemory = await beamTables(files);
  expect(inMemory).toEqual(fromDisk);
  const [first, ...rest] = fromDisk.beams;
  const aside = await beamTables(files, [{file: "beams.csv", row: "line 3", reason: "slipped"}]);
  expect(aside.beams).toEqual([{...first, setAside: "slipped"}, ...rest]);
  expect(aside.origins.get(first.name)).toEqual({file: "beams.csv", row: "line 3"}); // behind a comment and the header
});

test("a specimen set aside, and a history that is not there", async () => {
  const bytes = (text: string) => new TextEncoder().encode(text);
  const table = `${fatigueHeader},history\nK1,coarse,20,25,150,210000,,\nK2,coarse,20,25,120,,,deep/K2.csv\n`;
  const files = [{name: "t.csv", bytes: bytes(table)}];
  const setAside = [{file: "t.csv", row: "line 2", reason: "voids"}];
  const {programme, faults, refused} = await fatigueProgramme(files, {name: "p", tables: ["t.csv"], setAside});
  expect(programme.specimens.map(s => [s.name, s.setAside])).toEqual([["K1", "voids"]]);
  expect(faults.map(f => f.problem)).toEqual([
    "t.csv names this history, which is not among the files",
    "its history deep/K2.csv cannot be used: no row of it could be read",
  ]);
  expect(refused.map(({name}) => name)).toEqual(["K2"]);
  const history = `cycle,E [MPa]\n${Array.from({length: 60}, (_, i) => `${100 * (i + 1)},${9000 - 100 * i}\n`).join("")}`;
  const whole = await fatigueProgramme([...files, {name: "x/K2.csv", bytes: bytes(history)}], {
    name: "p",
    tables: ["t.csv"],
  });
  // 9000 MPa at cycle 100 falls by 1 MPa a cycle: half of it at cycle 4600.
  expect(whole.programme.specimens[1].history).toMatchObject({initialModulus: 9e9, cyclesToHalf: 4600});
});

test("each table of a file is understood by itself", () => {
  const tableNames = (text: string) => understandingsOf(csvFile(text)).map(u => `${u.table}, ${u.rows}`);
  expect(tableNames(fatigueText)).toEqual(["fatigue specimens, 3"]);
  expect(tableNames(`${beamHeader}\n${beamRow}\n`)).toEqual(["wheel-tracked beams, 1"]);
  expect(tableNames(readingsText)).toEqual(["readings of cracks, 6"]);
  expect(tableNames("cycle,E [MPa]\n1,9000\n")).toEqual(["stiffness history, 1"]);
  expect(tableNames("colour,taste\nred,sweet\n")).toEqual([]);
});

test("a file is looked at before it is used; one too long for a table may be a history", async () => {
  const look = (name: string, text: string) => lookAtLaboratoryFile({name, bytes: new TextEncoder().encode(text)});
  expect(await look("t.csv", fatigueText)).toMatchObject({
    tables: ["fatigue"],
    fault: null,
    understandings: [{rows: 3}],
  });
  expect((await look("x.csv", "colour,taste\nred,sweet\n")).fault?.problem).toBe("the file is not used");
  expect((await look("e.csv", "")).fault?.problem).toBe("the file is empty");
  const filling = "x".repeat(400);
  const long = `cycle,E [MPa],remark\n${Array.from({length: 60_000}, (_, i) => `${i + 1},9000,${filling}\n`).join("")}`; // 24 MB
  expect(await look("h.csv", long)).toMatchObject({tables: ["history"], fault: null, understandings: [{rows: 60_000}]});
});

test("what is in a file is told by its columns", () => {
  expect(tablesIn(csvFile(fatigueText))).toEqual(["fatigue"]);
  expect(tablesIn(csvFile(`${beamHeader}\n${beamRow}\n`))).toEqual(["beams"]);
  expect(tablesIn(csvFile(readingsText))).toEqual(["readings"]);
  expect(tablesIn(csvFile("cycle,E [MPa]\n1,9000\n"))).toEqual(["history"]);
  expect(tablesIn(csvFile("a,b\n1,2\n"))).toEqual([]);
  expect(tablesIn(csvFile("specimen,material,temperature [°C]\nK1,m,20\n"))).toEqual(["fatigue"]); // not whole
  const cells = (text: string) =>
    text
      .trim()
      .split("\n")
      .map(line => line.split(","));
  expect(tablesIn(workbookFile({B: cells(`${beamHeader}\n${beamRow}`), R: cells(readingsText)}))).toEqual([
    "beams",
    "readings",
  ]);
  expect(readFatigueTable(csvFile("specimen,material,temperature [°C]\nK1,m,20\n"), "p").faults.length).toBeGreaterThan(
    0,
  );
});
