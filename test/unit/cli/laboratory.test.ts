/** Laboratory commands, on the tables of the example. */
import {readdirSync, readFileSync, writeFileSync} from "node:fs";
import {expect, test} from "vitest";
import {readBeamTables} from "../../../src/schema/laboratory/index.ts";
import {testFolder} from "../folder.ts";
import {beamHeader, beamRow, csvFile, readingsText} from "../schema/laboratory/tables.ts";
import {seamwright} from "./run.ts";

const example = ["dense-asphalt", "soft-interlayer", "stiff-binder-course"].map(
  name => `examples/laboratory/fatigue/${name}.csv`,
);

const at = testFolder("file");

test("fatigue --check shows how columns were understood, and computes nothing", () => {
  const {code, out, err} = seamwright(["fatigue", "--check", ...example]);
  expect([code, err]).toEqual([0, ""]);
  expect(out).toMatch(/head displacement \[µm\] +head displacement +µm/);
  expect(out).toContain("No faults, no warnings.");
  expect(out).not.toContain("ε₆");
});

test("fatigue gives a line for each material, a report and law files", () => {
  const [report, laws] = [at("f.html"), at("laws")];
  const {code, out, err} = seamwright(["fatigue", ...example, "--report", report, "--laws", laws, "--name", "Bending"]);
  expect(code).toBe(0);
  expect(out).toMatch(/^Bending\nStrain for a million cycles, ε₆: dense asphalt /);
  for (const material of ["dense asphalt", "soft interlayer", "stiff binder course"])
    expect(out).toMatch(new RegExp(`\\n${material} +[\\d.,]+ `));
  expect(err).toContain("Wrote ");
  expect(readFileSync(report, "utf8")).toContain("<title>Bending: fatigue lines</title>");
  expect(readdirSync(laws).sort()).toEqual(["dense-asphalt.yaml", "soft-interlayer.yaml", "stiff-binder-course.yaml"]);
});

test("fatigue with a reference that there is not says which there are", () => {
  const {code, out, err} = seamwright(["fatigue", ...example, "--reference", "gravel"]);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain("There is no material gravel; there are dense asphalt, ");
});

test("template beams prints a table that is read again, once a beam is in it", () => {
  const {code, out, err} = seamwright(["template", "beams"]);
  expect([code, err]).toEqual([0, ""]);
  const header = out.split("\n").filter(line => line && !line.startsWith("#"));
  expect(header).toHaveLength(1);
  const names = header[0].split(",");
  for (const name of beamHeader.split(",")) expect(names).toContain(name);
  const given = new Map(beamHeader.split(",").map((name, k) => [name, beamRow.split(",")[k]]));
  const table = `${header[0]}\n${names.map(name => given.get(name) ?? "").join(",")}\n`;
  const ours = readingsText.split("\n").filter(line => !line.startsWith("W2"));
  const {beams, faults} = readBeamTables([csvFile(table, "beams.csv"), csvFile(ours.join("\n"), "readings.csv")]);
  expect(faults).toEqual([]);
  expect(beams.map(b => b.name)).toEqual(["W1"]);
});

test("beams without a programme file, or with one that says nothing of a material, ends before anything is computed", () => {
  writeFileSync(at("beams.csv"), `${beamHeader}\n${beamRow}\n`);
  writeFileSync(at("readings.csv"), readingsText.replaceAll(/W2.*\n/g, ""));
  const missing = seamwright(["beams", at()]);
  expect(missing.code).toBeGreaterThan(0);
  expect(missing.out).toBe("");
  expect(missing.err).toContain("programme.yaml");
  expect(missing.err).not.toContain("    at "); // no trace of the program
  const programme = at("other.yaml");
  writeFileSync(programme, "programme_format: 1\nname: p\nmaterials:\n  fine: {aggregate_mm: 8}\n");
  const silent = seamwright(["beams", at(), "--programme", programme]);
  expect([silent.code, silent.out]).toEqual([2, ""]);
  expect(silent.err).toContain("says nothing of coarse");
});
