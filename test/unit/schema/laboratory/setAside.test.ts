/** Rows taken out of the evaluation, and tables written back. */
import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {
  type Cell,
  delimiterOf,
  type RawFile,
  readBeamTables,
  readFatigueTable,
  readTableBytes,
  tableText,
  withSetAside,
} from "../../../../src/schema/laboratory/index.ts";
import {
  beamHeader,
  beamRow,
  csvFile,
  fatigueHeader,
  fatigueText,
  layeredRow,
  readingsText,
  workbookFile,
} from "./tables.ts";

/** The table as it comes back from the text that it was written to. */
async function again(file: RawFile, sheet = 0): Promise<RawFile> {
  const read = await readTableBytes(new TextEncoder().encode(tableText(file.sheets[sheet])), "again.csv");
  if ("fault" in read) throw new Error(read.fault.problem);
  return read.raw;
}

const specimensOf = (file: RawFile) => {
  const {programme, faults, refused} = readFatigueTable(file, "p");
  expect([faults, refused]).toEqual([[], []]);
  return programme.specimens;
};

const originOf = (file: RawFile, name: string): string => readFatigueTable(file, "p").origins.get(name)!.row;

describe("specimens", () => {
  const file = csvFile(`# a comment\n${fatigueText}`);

  test("a table without the column gets one; only the row meant has the reason, and the file given stays as it was", async () => {
    const before = structuredClone(file);
    const changed = withSetAside(file, originOf(file, "K2"), "clamp, slipped");
    expect(file).toEqual(before);
    const expected = specimensOf(file).map(s => (s.name === "K2" ? {...s, setAside: "clamp, slipped"} : s));
    expect(specimensOf(changed)).toEqual(expected);
    expect(specimensOf(await again(changed))).toEqual(expected);
    expect(changed.sheets[0].rows[0].cells.at(-1)).toBe("set aside");
  });

  test("a table that has the column keeps its own reasons and its header; a row is taken back", async () => {
    const table = csvFile(
      fatigueText
        .split("\n")
        .map((line, i) => (line ? `${["outlier", "cracked", "", ""][i]},${line}` : ""))
        .join("\n"),
    );
    const changed = withSetAside(withSetAside(table, "line 4", "odd"), "line 2", null);
    expect(specimensOf(await again(changed)).map(({name, setAside}) => [name, setAside])).toEqual([
      ["K1", null],
      ["K2", null],
      ["K3", "odd"],
    ]);
    expect(changed.sheets[0].rows[0].cells[0]).toBe("outlier");
    expect(changed.sheets[0].rows[0].cells).toHaveLength(8);
  });

  test("a place that is not there, or nothing to take back, changes nothing", () => {
    expect(withSetAside(file, "line 99", "why")).toEqual(file);
    expect(withSetAside(file, originOf(file, "K1"), null)).toEqual(file);
  });

  test("in a workbook, below a title, in the sheet that is meant", async () => {
    const cells = (text: string): Cell[] => text.split(",").map(c => (c === "" ? null : c));
    const book = workbookFile({
      Notes: [["K1", "of last year"]],
      Tests: [["Series of May"], ...fatigueText.trim().split("\n").map(cells)],
    });
    expect(originOf(book, "K1")).toBe("Tests!3");
    const changed = withSetAside(book, "Tests!3", "voids");
    expect(changed.sheets[0]).toEqual(book.sheets[0]);
    const expected = specimensOf(book).map(s => (s.name === "K1" ? {...s, setAside: "voids"} : s));
    expect(specimensOf(changed)).toEqual(expected);
    expect(specimensOf(await again(changed, 1))).toEqual(expected);
  });

  test("any reason comes back as it was, but for blanks at its ends and what a spreadsheet would compute", async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({unit: "grapheme", minLength: 1}), async reason => {
        fc.pre(reason.trim() !== "" && !reason.includes("\r"));
        const changed = withSetAside(file, originOf(file, "K1"), reason);
        const [{setAside}] = specimensOf(await again(changed));
        const plain = reason.trim();
        expect([plain, `'${plain}`]).toContain(setAside);
        expect(setAside).not.toMatch(/^[=@\t]|^[-+](?![\d.,]|$)/);
      }),
      {numRuns: 300},
    );
  });
});

test("beams: the reason comes back through both tables", async () => {
  const beams = csvFile(`${beamHeader}\n${beamRow}\n${layeredRow}\n`, "beams.csv");
  const readings = csvFile(readingsText, "readings.csv");
  const before = readBeamTables([beams, readings]);
  expect(before.faults).toEqual([]);
  const changed = withSetAside(beams, "line 3", 'said "no"; =1+1');
  const after = readBeamTables([
    {...(await again(changed)), file: "beams.csv"},
    {...(await again(readings)), file: "readings.csv"},
  ]);
  expect(after.faults).toEqual([]);
  expect(after.beams).toEqual(before.beams.map(b => (b.name === "W2" ? {...b, setAside: 'said "no"; =1+1'} : b)));
});

describe("tables as text", () => {
  const sheet = (delimiter: "," | ";" | "\t" | null, ...rows: Cell[][]) => ({
    name: null,
    delimiter,
    comments: 0,
    rows: rows.map((cells, i) => ({row: i + 1, cells})),
  });

  test("quoted as RFC 4180 has it, every row as wide as the widest", () => {
    // RFC 4180, rules 1, 5, 6 and 7 of section 2.
    expect(tableText(sheet(",", ["a", 'b "c"'], ["1,5", "two\nlines", "x"], ["", null]))).toBe(
      'a,"b ""c""",\r\n"1,5","two\nlines",x\r\n',
    );
  });

  test("no cell is computed by a spreadsheet program; numbers and lone signs stay", () => {
    const cells = ["=1+1", "@x", "+A1", "-A1", "-", "-1.5", "+2e-3", "-1,5", "−3", "+1+1", "-1-1", "1=1"];
    expect(tableText(sheet(";", cells))).toBe("'=1+1;'@x;'+A1;'-A1;-;-1.5;+2e-3;\"-1,5\";−3;'+1+1;'-1-1;1=1\r\n");
  });

  test("values of a workbook are written as they are read", () => {
    const written = tableText(
      sheet(null, ["a", "b", "c", "d"], [1.5, true, new Date(Date.UTC(2024, 1, 29)), {error: "#N/A"}]),
    );
    expect(written).toBe('a,b,c,d\r\n1.5,true,2024-02-29,"#N/A"\r\n');
    // Numbers typed as text with commas: all of them get commas, so that one mark holds for the file.
    expect(tableText(sheet(null, ["a", "b"], ["0,5", 1.25]))).toBe('a;b\r\n"0,5";"1,25"\r\n');
  });

  test("decimal commas, a first row of one cell, a first cell that begins with a hash", async () => {
    const text = tableText(sheet(";", ["Series"], ["#", "x", "y"], ["#1", "0,5", "2"]));
    expect(delimiterOf(text)).toBe(";");
    const read = await readTableBytes(new TextEncoder().encode(text), "t.csv");
    expect("raw" in read && read.raw.sheets[0].rows.map(({cells}) => cells)).toEqual([
      ["Series", "", ""],
      ["#", "x", "y"],
      ["#1", "0,5", "2"],
    ]);
  });

  test("the header of the examples is kept letter by letter", () => {
    expect(tableText(csvFile(fatigueText).sheets[0]).split("\r\n")[0]).toBe(fatigueHeader);
  });
});
