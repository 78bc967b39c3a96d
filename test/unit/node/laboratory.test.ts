/** Laboratory files on disk: workbooks, CSV in its variants, files that are none. */
import {once} from "node:events";
import {createWriteStream, mkdirSync, truncateSync, writeFileSync} from "node:fs";
import {Readable} from "node:stream";
import {finished} from "node:stream/promises";
import {setFlagsFromString} from "node:v8";
import {runInNewContext} from "node:vm";
import {strToU8, zipSync} from "fflate";
import {describe, expect, test} from "vitest";
import writeXlsxFile from "write-excel-file/node";
import {csvRows} from "../../../src/node/laboratory/csvRows.ts";
import {readBeamFiles, readFatigueFile, readHistory} from "../../../src/node/laboratory/index.ts";
import {testFolder} from "../folder.ts";
import {
  beamHeader,
  beamRow,
  fatigueHeader,
  fatigueText,
  layeredRow,
  readingsText,
} from "../schema/laboratory/tables.ts";

const at = testFolder("test");

function put(name: string, content: string | Uint8Array): string {
  writeFileSync(at(name), content);
  return at(name);
}

type Value = string | number | boolean | Date | null;

async function workbook(
  name: string,
  sheets: Readonly<Record<string, readonly (readonly Value[])[]>>,
): Promise<string> {
  const data = Object.entries(sheets).map(([sheet, rows]) => ({
    sheet,
    data: rows.map(row => row.map(cell => (cell instanceof Date ? {value: cell, format: "dd.mm.yyyy"} : cell))),
  }));
  return put(name, await writeXlsxFile(data).toBuffer());
}

/** Cells of a CSV text as a person types them into a workbook. */
const typed = (text: string): Value[][] =>
  text
    .trimEnd()
    .split("\n")
    .map(line =>
      line.split(",").map(cell => (cell === "" ? null : Number.isFinite(Number(cell)) ? Number(cell) : cell)),
    );

const namesOf = (specimens: readonly {readonly name: string}[]): string[] => specimens.map(({name}) => name);

describe("workbooks", () => {
  test("give the same specimens as CSV", async () => {
    const text = await readFatigueFile(put("a.csv", fatigueText));
    const book = await readFatigueFile(
      await workbook("a.xlsx", {Notes: [["nothing here"]], Tests: typed(fatigueText)}),
    );
    expect([text.faults, book.faults]).toEqual([[], []]);
    expect(book.programme).toEqual(text.programme);
    expect(book.understanding).toMatchObject({file: "a.xlsx", sheet: "Tests", otherSheets: ["Notes"], delimiter: null});
    expect(book.hash).toMatch(/^[0-9a-f]{64}$/);
    expect(book.hash).not.toBe(text.hash);
  });

  test("dates, truth values, decimal commas typed as text", async () => {
    const file = await workbook("b.xlsx", {
      S: [
        ["sample", "mix", "strain [µε]", "Nf", "run-out", "date"],
        ["A", "m", "150,5", 1000, true, new Date(Date.UTC(2024, 1, 29))],
        [7, "m", 120, 5000, false, "1.3.2024"],
      ],
    });
    const {programme, faults, origins} = await readFatigueFile(file);
    expect(faults).toEqual([]);
    expect(programme.specimens.map(({name, runOut}) => [name, runOut])).toEqual([
      ["A", true],
      ["7", false],
    ]);
    expect([...origins.values()].map(({row, testedOn}) => [row, testedOn])).toEqual([
      ["S!2", "2024-02-29"],
      ["S!3", "2024-03-01"],
    ]);
  });

  test("cells with formulas have the values that were saved with them; errors and missing values are told", async () => {
    const row = (cells: string) => `<row r="2">${cells}</row>`;
    const name = '<c r="A2" t="str"><f>"K"&amp;1</f><v>K1</v></c><c r="B2" t="inlineStr"><is><t>m</t></is></c>';
    const good = put(
      "good.xlsx",
      handMade(row(`${name}<c r="C2"><f>100+50</f><v>150</v></c><c r="D2"><v>1000</v></c>`)),
    );
    const {programme, faults} = await readFatigueFile(good);
    expect(faults).toEqual([]);
    expect(programme.specimens[0]).toMatchObject({
      name: "K1",
      amplitude: {kind: "strain", strain: 150e-6},
      cycles: 1000,
    });
    const told = async (cells: string) => {
      const {faults, programme} = await readFatigueFile(put("wrong.xlsx", handMade(row(cells))));
      expect(programme.specimens).toEqual([]);
      return faults.map(({row, column, problem, found}) => [row, column, problem, found]);
    };
    expect(await told(`${name}<c r="C2" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="D2"><v>1000</v></c>`)).toEqual([
      ["Tests!2", "strain [µε]", "the cell has no value", "#DIV/0!"],
    ]);
    expect(await told(`${name}<c r="C2"><v>150</v></c><c r="D2"><f>500+500</f></c>`)).toEqual([
      ["Tests!2", "cycles", "the cell has no value", "a formula without a saved value"],
    ]);
    expect(await told('<c r="B2" t="e"><v>#N/A</v></c><c r="D2" t="str"><f>"K"</f></c>')).toContainEqual([
      "Tests!2",
      "material",
      "the cell has no value",
      "#N/A",
    ]);
  });

  test("beams and readings in one workbook, in a folder of files, and the folder's other files", async () => {
    const beams = `${beamHeader}\n${beamRow}\n${layeredRow}\n`;
    const book = await readBeamFiles(
      await workbook("beams.xlsx", {Beams: typed(beams), Readings: typed(readingsText)}),
    );
    expect(book.faults).toEqual([]);
    mkdirSync(at("series"));
    put("series/beams.csv", beams);
    put("series/readings.csv", readingsText);
    put("series/readme.md", "not a table");
    put("series/~$beams.xlsx", "a lock file");
    put("series/empty.csv", "");
    const series = await readBeamFiles(at("series"));
    expect(series.beams).toEqual(book.beams);
    expect(namesOf(series.beams)).toEqual(["W1", "W2"]);
    expect(series.faults).toMatchObject([{file: "empty.csv", problem: "the file is empty"}]);
    expect(Object.keys(series.hashes)).toEqual(["beams.csv", "readings.csv"]);
  });
});

/** A workbook as no spreadsheet program would write it, with a header and what stands below it. */
function handMade(rows: string): Uint8Array {
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const relations = "http://schemas.openxmlformats.org/package/2006/relationships";
  const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const header = ["specimen", "material", "strain [µε]", "cycles"].map(
    (text, i) => `<c r="${"ABCD"[i]}1" t="inlineStr"><is><t>${text}</t></is></c>`,
  );
  return zipSync({
    "xl/workbook.xml": strToU8(
      `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Tests" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(
      `<Relationships xmlns="${relations}"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    "xl/worksheets/sheet1.xml": strToU8(
      `<worksheet xmlns="${main}"><sheetData><row r="1">${header.join("")}</row>${rows}</sheetData></worksheet>`,
    ),
  });
}

describe("CSV", () => {
  test.each([
    ["a byte order mark and CRLF", `\uFEFF${fatigueText.replaceAll("\n", "\r\n")}`],
    ["CR alone", fatigueText.replaceAll("\n", "\r")],
    ["semicolons", fatigueText.replaceAll(",", ";")],
    ["tabs", fatigueText.replaceAll(",", "\t")],
    ["quotation marks", fatigueText.replaceAll(/[^,\n]+/g, '"$&"')],
    ["comments with odd marks", fatigueText.replaceAll("\n", '\n# it said "no, never\n')],
    ["blank rows", fatigueText.replaceAll("\n", "\n,,,,\n\n")],
    ["no last line feed", fatigueText.trimEnd()],
  ])("%s", async (_, text) => {
    const {programme, faults, refused} = await readFatigueFile(put("a.csv", text));
    expect([faults, refused]).toEqual([[], []]);
    expect(namesOf(programme.specimens)).toEqual(["K1", "K2", "K3"]);
    expect(programme.specimens[2].runOut).toBe(true);
  });

  test("letters and line ends that two chunks share", async () => {
    const bytes = Buffer.from("a,µε\r\n1,ü\r\n\r\n2,x\r");
    for (const size of [1, 2, 3, 5]) {
      const chunks = Array.from({length: Math.ceil(bytes.length / size)}, (_, i) =>
        bytes.subarray(i * size, (i + 1) * size),
      );
      const rows: unknown[] = [];
      for await (const row of csvRows(Readable.from(chunks), ",", {comments: 0})) rows.push(row);
      expect(rows).toEqual([
        {row: 1, cells: ["a", "µε"]},
        {row: 2, cells: ["1", "ü"]},
        {row: 4, cells: ["2", "x"]},
      ]);
    }
  });

  test("lines are those of the file, behind comments and cells of two lines", async () => {
    const text = `# one\r\n\r\n${fatigueHeader},remarks\r\nA,m,20,25,150,1000,,"two\r\nlines"\r\nB #2,m,20,25,-1,1000,,\r\n`;
    const {faults, origins} = await readFatigueFile(put("a.csv", text));
    expect(faults).toMatchObject([{row: "line 6", found: '"-1"'}]);
    expect(origins.get("A")?.remarks).toBe("two\nlines");
  });
});

/** A workbook whose first file says that it has 500 MB once unpacked. */
function swollen(zip: Uint8Array): Buffer {
  const bytes = Buffer.from(zip);
  bytes.writeUInt32LE(500e6, bytes.indexOf("PK\x01\x02", 0, "latin1") + 24);
  return bytes;
}

/** Files that are no tables, and what is told of them. */
const broken: readonly (readonly [
  name: string,
  make: () => string | Uint8Array | Promise<Uint8Array>,
  problem: string,
])[] = [
  ["empty.csv", () => "", "the file is empty"],
  ["utf16.csv", () => Buffer.from(`\uFEFF${fatigueText}`, "utf16le"), "the file is not text in UTF-8"],
  ["utf16-no-mark.csv", () => Buffer.from(fatigueText, "utf16le"), "the file is not text in UTF-8"],
  ["latin1.csv", () => Buffer.from("Höhe,µε\n1,2\n", "latin1"), "the file is not text in UTF-8"],
  ["quote.csv", () => `${fatigueText}"open`, "the file is not proper CSV"],
  ["garbled.csv", () => `${fatigueText}a"b"c,1\n`, "the file is not proper CSV"],
  [
    "old.xls",
    () => Buffer.from("d0cf11e0a1b11ae1".padEnd(2048, "0"), "hex"),
    "the workbook is encrypted or in the old XLS format",
  ],
  [
    "locked.xlsx",
    () => Buffer.concat([Buffer.from("d0cf11e0a1b11ae1", "hex"), Buffer.from("EncryptedPackage", "utf16le")]),
    "the workbook is encrypted",
  ],
  ["rubbish.xlsx", () => "PK\u0003\u0004 and no more", "the workbook is damaged, or is no XLSX workbook"],
  ["other.zip", () => zipSync({"a.txt": strToU8("text")}), "the workbook is damaged, or is no XLSX workbook"],
  [
    "cut.xlsx",
    async () => (await writeXlsxFile([{sheet: "S", data: typed(fatigueText)}]).toBuffer()).subarray(0, 1500),
    "the workbook is damaged, or is no XLSX workbook",
  ],
  ["swollen.xlsx", () => swollen(handMade("")), "the workbook is too large"],
];

describe("files that cannot be read are told as a whole", () => {
  test.each(broken)("%s", async (name, make, problem) => {
    const file = put(name, await make());
    const {programme, faults, understanding} = await readFatigueFile(file);
    expect(faults).toMatchObject([{file: name, row: null, column: null, problem: expect.stringContaining(problem)}]);
    expect(programme.specimens).toEqual([]);
    expect(understanding).toBeNull();
    const history = await readHistory(file, () => undefined);
    expect(history.faults[0].problem).toContain(problem);
    expect((await readBeamFiles(file)).faults).toMatchObject([{file: name}]);
  });

  test("a file that is not there, a folder, a table of 200 MB", async () => {
    expect((await readFatigueFile(at("none.csv"))).faults[0].problem).toContain("there is no such file");
    expect((await readFatigueFile(at())).faults[0].problem).toContain("it is a folder");
    expect((await readBeamFiles(at("none"))).faults[0].problem).toContain("there is no such file");
    const large = put("large.csv", `${fatigueHeader}\n`);
    truncateSync(large, 200e6); // sparse
    writeFileSync(large, fatigueText.repeat(1000), {flag: "r+"});
    expect((await readFatigueFile(large)).faults).toMatchObject([
      {problem: "the file is too large for a table", found: "200 MB"},
    ]);
  });
});

/** Memory that is in use once all that can be thrown away is [bytes]. */
function heldMemory(): number {
  setFlagsFromString("--expose-gc");
  runInNewContext("gc")();
  return process.memoryUsage().heapUsed;
}

describe("histories", () => {
  const collect = async (file: string) => {
    const rows: [number, unknown][] = [];
    const outcome = await readHistory(file, (cycle, value) => rows.push([cycle, value]));
    return {...outcome, taken: rows};
  };

  test("cycle and modulus", async () => {
    const file = put("h.csv", "# one test\nLastwechsel;Steifigkeitsmodul [MPa];temp\n100;9000,5;20\n200;8900;20\n");
    const {taken, rows, faults, understanding, hash} = await collect(file);
    expect([taken, rows, faults]).toEqual([
      [
        [100, 9000.5e6],
        [200, 8900e6],
      ],
      2,
      [],
    ]);
    expect(understanding).toMatchObject({decimalMark: ",", delimiter: ";", headerRow: 2, comments: 1, rows: 2, hash});
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
  });

  test("cycle, force and displacement; a workbook", async () => {
    const text = "cycle,force amplitude [N],displacement amplitude [µm]\n1,50,100\n2,49,100\n";
    const expected = [
      [1, {force: 50, displacement: 100e-6}],
      [2, {force: 49, displacement: 100e-6}],
    ];
    expect((await collect(put("h.csv", text))).taken).toEqual(expected);
    expect((await collect(await workbook("h.xlsx", {S: typed(text)}))).taken).toEqual(expected);
  });

  test("faulty rows are not taken; the first are told, the rest counted", async () => {
    const some = await collect(put("some.csv", "cycle,E [MPa]\n100,9000\n90,8900\n200,-5\n300,\n400.5,1\n500,8000\n"));
    expect(some.taken.map(([cycle]) => cycle)).toEqual([100, 500]);
    expect(some.faults.map(({row, problem}) => `${row}: ${problem}`)).toEqual([
      "line 3: the cycles do not ascend: 100 stands before",
      "line 4: negative",
      "line 5: the stiffness modulus is not given",
      "line 6: not a whole number",
    ]);
    expect([some.rows, some.refused]).toEqual([2, 4]);
    const many = await collect(put("many.csv", `cycle,E [MPa]\n${"1,x\n".repeat(5000)}`));
    expect([many.rows, many.refused, many.faults.length]).toEqual([0, 5000, 21]);
    expect(many.faults.at(-1)?.problem).toBe("4980 more faults in further rows");
  });

  test("columns that are missing or without a unit", async () => {
    const problems = async (text: string) => (await collect(put("h.csv", text))).faults.map(({problem}) => problem);
    expect(await problems("cycle,modulus\n1,2\n")).toEqual([
      "the unit is missing in the header of the stiffness modulus",
    ]);
    expect(await problems("cycle,force [N]\n1,2\n")).toEqual([
      "there is no column of the displacement that belongs to the force",
    ]);
    expect(await problems("cycle,x\n1,2\n")).toHaveLength(1);
    expect(await problems(`x,E [MPa]\n${"1,2\n".repeat(3000)}`)).toEqual(["there is no column of the cycle"]);
    expect(await problems("cycle,E [MPa]\n")).toEqual([]);
  });

  test("what the sink throws goes through", async () => {
    const file = put("h.csv", `cycle,E [MPa]\n${Array.from({length: 3000}, (_, i) => `${i + 1},9000\n`).join("")}`);
    const failing = (cycle: number) => {
      if (cycle === 2500) throw new Error("enough");
    };
    await expect(readHistory(file, failing)).rejects.toThrow("enough");
  });

  test("a file of 20 MB passes through in little memory", async () => {
    const file = at("long.csv");
    const stream = createWriteStream(file);
    stream.write("cycle,stiffness modulus [MPa]\n");
    const count = 1_200_000;
    for (let i = 0; i < count; i += 1000) {
      const lines = Array.from({length: 1000}, (_, k) => `${i + k + 1},${(9000 - (i + k) / 400).toFixed(4)}\n`);
      if (!stream.write(lines.join(""))) await once(stream, "drain");
    }
    await finished(stream.end());
    let last = 0;
    let most = 0;
    const before = heldMemory();
    const outcome = await readHistory(file, cycle => {
      last = cycle;
      if (cycle % 200_000 === 0) most = Math.max(most, heldMemory());
    });
    expect([outcome.rows, outcome.faults, last]).toEqual([count, [], count]);
    expect((most - before) / 1e6).toBeLessThan(60); // kept rows would take 200
  });
});
