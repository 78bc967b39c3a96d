/** Tables of bending tests with their histories, from disk. */
import {writeFileSync} from "node:fs";
import path from "node:path";
import {expect, test} from "vitest";
import {readFatigueProgramme} from "../../../src/node/laboratory/index.ts";
import {testFolder} from "../folder.ts";
import {fatigueHeader, fatigueText} from "../schema/laboratory/tables.ts";

const at = testFolder("test");

function put(name: string, text: string): string {
  const file = at(name);
  writeFileSync(file, text);
  return file;
}

/** A modulus that falls evenly from 10 GPa at the 100th cycle to `last` at `end`. */
function history(end: number, last: number): string {
  const rows = Array.from({length: 17}, (_, k) => {
    const cycle = 100 + ((end - 100) * k) / 16;
    return `${cycle},${10_000 + ((last - 10_000) * (cycle - 100)) / (end - 100)}`;
  });
  return `cycle,modulus [MPa]\n${rows.join("\n")}\n`;
}

const withHistories = (...rows: string[]): string => `${fatigueHeader},history file\n${rows.join("\n")}\n`;

test("one name in two tables: the second is refused, with both files told", async () => {
  const files = [
    put("a.csv", fatigueText),
    put("b.csv", `${fatigueHeader}\nK9,fine,20,25,150,1000,\nK2,fine,20,25,150,5,\n`),
  ];
  const {programme, faults, refused, hashes} = await readFatigueProgramme(files, "both");
  expect(programme.name).toBe("both");
  expect(programme.specimens.map(s => [s.name, s.material])).toEqual([
    ["K1", "coarse"],
    ["K2", "coarse"],
    ["K3", "coarse"],
    ["K9", "fine"],
  ]);
  expect(faults).toMatchObject([
    {file: "b.csv", row: "line 3", problem: "a specimen of this name is in a.csv too", found: "K2"},
  ]);
  expect(refused).toMatchObject([{file: "b.csv", name: "K2"}]);
  expect(hashes.map(h => h.file)).toEqual(["a.csv", "b.csv"]);
});

test("a history tells the life where it falls to half; where it never does, the specimen ran out", async () => {
  put("falls.csv", history(100_100, 2000));
  put("stays.csv", history(100_100, 6000));
  const table = put("t.csv", withHistories("F,mix,20,25,150,,,falls.csv", "S,mix,20,25,100,,,stays.csv"));
  const told: string[] = [];
  const {programme, faults} = await readFatigueProgramme([table], "p", {
    onFile: file => told.push(path.basename(file)),
  });
  expect(faults).toEqual([]);
  expect(told).toEqual(["t.csv", "falls.csv", "stays.csv"]);
  const [falls, stays] = programme.specimens;
  // 8 GPa lost in 100,000 cycles: at 5 GPa after 62,500 of them, where there is a row.
  expect(falls.history?.cyclesToHalf).toBeCloseTo(62_600, 3);
  expect(falls.runOut).toBe(false);
  expect(stays).toMatchObject({runOut: true, cycles: null, history: {cyclesToHalf: null, lastCycle: 100_100}});
  expect(stays.history?.lastRatio).toBeCloseTo(0.6, 9);
});

test("a run-out of the table whose history falls to half is refused", async () => {
  put("falls.csv", history(100_100, 2000));
  const table = put("t.csv", withHistories("F,mix,20,25,150,,yes,falls.csv"));
  const {programme, refused} = await readFatigueProgramme([table], "p");
  expect(programme.specimens).toEqual([]);
  expect(refused[0].reasons[0]).toContain("the table calls it a run-out");
});

test("a history that is not there refuses its specimen only", async () => {
  put("falls.csv", history(100_100, 2000));
  const rows = ["A,mix,20,25,150,,,gone.csv", "B,mix,20,25,150,,,falls.csv", "C,mix,20,25,120,50000,,"];
  const {programme, faults, refused} = await readFatigueProgramme([put("t.csv", withHistories(...rows))], "p");
  expect(programme.specimens.map(s => s.name)).toEqual(["B", "C"]);
  expect(refused).toMatchObject([{file: "t.csv", name: "A"}]);
  expect(faults).toMatchObject([
    {file: "gone.csv"},
    {file: "t.csv", row: "line 2", problem: "its history gone.csv cannot be used: no row of it could be read"},
  ]);
});

test("files are named from the folder that is asked for", async () => {
  const table = put("t.csv", fatigueText);
  const folder = path.dirname(path.dirname(table));
  const {hashes} = await readFatigueProgramme([table], "p", {folder});
  expect(hashes.map(h => h.file)).toEqual([`${path.basename(path.dirname(table))}/t.csv`]);
});
