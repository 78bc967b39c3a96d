/** The tables of the example laboratory are those that its invented truth gives, and its programme file is good. */
import {readdirSync, readFileSync} from "node:fs";
import path from "node:path";
import {expect, test} from "vitest";
import {exampleTables} from "../../../examples/laboratory/write.ts";
import {readProgramme} from "../../../src/schema/laboratory/index.ts";

const folder = path.resolve(import.meta.dirname, "../../../examples/laboratory");
const textOf = (name: string): string => readFileSync(path.join(folder, name), "utf8");

test("the tables are what write.ts would write, and there are no others", () => {
  const tables = exampleTables();
  const there = readdirSync(folder, {recursive: true, encoding: "utf8"})
    .filter(name => name.endsWith(".csv"))
    .map(name => name.replaceAll("\\", "/"));
  expect(Object.keys(tables).sort()).toEqual(there.sort());
  for (const [name, text] of Object.entries(tables)) expect(textOf(name), name).toBe(text);
});

test("the programme file is good, and the tables that it names are there", () => {
  const outcome = readProgramme(textOf("programme.yaml"));
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  for (const file of outcome.programme.fatigue) expect(textOf(file)).toContain("specimen,");
});
