/** Bytes of files as rows of cells, without a file system. */
import {readdirSync, readFileSync} from "node:fs";
import path from "node:path";
import {Readable} from "node:stream";
import {strToU8, zipSync} from "fflate";
import {expect, test} from "vitest";
import writeXlsxFile from "write-excel-file/node";
import {csvRows} from "../../../../src/node/laboratory/csvRows.ts";
import {decoded, eachCsvRow, sha256} from "../../../../src/schema/laboratory/bytes/index.ts";
import {zipEntries} from "../../../../src/schema/laboratory/bytes/zip.ts";
import {
  type RawFile,
  type RawRow,
  readFatigueTable,
  readHistoryBytes,
  readTableBytes,
} from "../../../../src/schema/laboratory/index.ts";
import {fatigueText} from "./tables.ts";

const bytesOf = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);

async function rawOf(bytes: Uint8Array<ArrayBuffer>): Promise<RawFile> {
  const read = await readTableBytes(bytes, "t");
  if ("fault" in read) throw new Error(read.fault.problem);
  return read.raw;
}

test("SHA-256 of the message of the standard", async () => {
  // FIPS 180-4, example of SHA-256 on "abc".
  expect(await sha256(bytesOf("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});

test.each([
  ["comments before, between and behind", "# a\nx,y\n1,2\n# b\n3,4\n# c\n\n#d"],
  ["a row of two lines whose second looks like a comment", '# a\nx,y\n1,"two\n#lines"\n# b\n'],
  ["a cell that begins with a hash, quoted", 'x,y\n"#1",2\n'],
  ["CRLF", "# a\r\nx,y\r\n\r\n1,2\r\n# b\r\n"],
  ["nothing but comments", "# a\n# b"],
  ["no last line feed", "x,y\n1,2"],
])("rows and comments are those of the parser that streams: %s", async (_, text) => {
  const counts = {comments: 0};
  const streamed: RawRow[] = [];
  for await (const row of csvRows(Readable.from([Buffer.from(text)]), ",", counts)) streamed.push(row);
  const rows: RawRow[] = [];
  const comments = eachCsvRow(text, ",", row => rows.push(row));
  expect([rows, comments]).toEqual([streamed, counts.comments]);
});

test("a workbook that stands within a larger piece of memory", async () => {
  const book = await writeXlsxFile([
    {
      sheet: "S",
      data: fatigueText
        .trim()
        .split("\n")
        .map(line => line.split(",")),
    },
  ]).toBuffer();
  const memory = new Uint8Array(book.length + 300).fill(0x50);
  memory.set(book, 100);
  const raw = await rawOf(memory.subarray(100, 100 + book.length));
  expect(raw.sheets.map(({name}) => name)).toEqual(["S"]);
  const {programme, faults} = readFatigueTable(raw, "p");
  expect(faults).toEqual([]);
  expect(programme.specimens).toEqual(readFatigueTable(await rawOf(bytesOf(fatigueText)), "p").programme.specimens);
});

test("files of an archive, and one that is longer than its directory says", async () => {
  const long = "long ".repeat(5000);
  const zip = new Uint8Array(zipSync({"a/ü.txt": strToU8("short"), "b.txt": strToU8(long)}));
  const [a, b] = zipEntries(zip);
  expect([a.name, decoded(await a.read()), b.size, decoded(await b.read())]).toEqual([
    "a/ü.txt",
    "short",
    long.length,
    long,
  ]);
  const view = new DataView(zip.buffer);
  const entry = Array.from(zip.keys()).findLast(at => at + 4 <= zip.length && view.getUint32(at, true) === 0x02014b50)!;
  view.setUint32(entry + 24, 1000, true);
  await expect(zipEntries(zip)[1].read()).rejects.toThrow("longer than its directory says");
  expect(zipEntries(bytesOf("no archive"))).toEqual([]);
});

test("a history goes row by row; what the sink throws goes through", async () => {
  const rows: [number, unknown][] = [];
  const text = `cycle,force [N],displacement [µm]\n${Array.from({length: 2500}, (_, i) => `${i + 1},50,100\n`).join("")}# end`;
  const outcome = await readHistoryBytes(bytesOf(text), "h.csv", (cycle, value) => rows.push([cycle, value]));
  expect([outcome.rows, outcome.refused, outcome.faults, outcome.understanding?.comments]).toEqual([2500, 0, [], 1]);
  expect(rows.at(-1)).toEqual([2500, {force: 50, displacement: 100e-6}]);
  expect(outcome.hash).toBe(await sha256(bytesOf(text)));
  const failing = (cycle: number) => {
    if (cycle === 2400) throw new Error("enough");
  };
  await expect(readHistoryBytes(bytesOf(text), "h.csv", failing)).rejects.toThrow("enough");
  const unknown = await readHistoryBytes(bytesOf(`x,y\n${"1,2\n".repeat(3000)}`), "h.csv", failing);
  expect([unknown.rows, unknown.hash, unknown.understanding]).toEqual([0, "", null]);
});

test("nothing that reads laboratory files is Node's own", () => {
  const folder = path.resolve(import.meta.dirname, "../../../../src/schema/laboratory");
  const files = readdirSync(folder, {recursive: true, encoding: "utf8"}).filter(name => name.endsWith(".ts"));
  const faults = files.filter(name =>
    /from "node:|csv-parse\/sync"|read-excel-file\/node|\bBuffer\b|\bprocess\./.test(
      readFileSync(path.join(folder, name), "utf8"),
    ),
  );
  expect(files.length).toBeGreaterThan(20);
  expect(faults).toEqual([]);
});
