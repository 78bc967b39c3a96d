import {writeFileSync} from "node:fs";
import {beforeAll, expect, test} from "vitest";
import type {ProbeResult} from "../../../src/engine/life/index.ts";
import {testFolder} from "../folder.ts";
import {csv, goodText} from "../schema/good-study.ts";
import {seamwright} from "./run.ts";

const at = testFolder("file");
let study = "";
beforeAll(() => {
  study = at("study.yaml");
  writeFileSync(at("record.csv"), csv());
  // Coarse, to be quick: what is compared here are two ways to print the same numbers.
  const text = goodText.replace(/file: \S+\.csv/, "file: record.csv");
  writeFileSync(study, `${text.trimEnd()}\nnumerical: {accuracy_percent: 5}\n`);
});

test("the table shows what the JSON says, in mm, MPa and µε", () => {
  const args = ["probe", study, "--temperature-C", "20", "--x-mm", "-150,150", "--underside-mm", "10"];
  const json = seamwright([...args, "--json"]);
  expect(json.err).toBe("");
  expect(json.code).toBe(0);
  const result = JSON.parse(json.out) as ProbeResult;
  expect(result.points.map(point => point.x)).toEqual([-0.15, 0.15]);
  expect(result.thermal.map(one => one.cause)).toEqual(["slab mean", "slab gradient", "overlay mean"]);

  const table = seamwright(args);
  expect(table.code).toBe(0);
  const digits = (value: number): string => String(Number(value.toPrecision(5)));
  const tip = result.points[1].tips.underside;
  const row = table.out.split("\n").find(line => /^ *150 +0 +underside/.test(line)) ?? "";
  expect(row).toContain(` ${digits((tip?.shearXz ?? Number.NaN) / 1e6)} `);
  expect(row).toContain(` ${digits((tip?.strain ?? Number.NaN) * 1e6)} `);
  expect(table.out).toContain(digits(result.points[1].deflection.underWheel * 1e3));
});
