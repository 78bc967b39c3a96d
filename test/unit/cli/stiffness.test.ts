/** The command `stiffness`, on the table of the example. */
import {readFileSync, writeFileSync} from "node:fs";
import {expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {seamwright} from "./run.ts";

const example = "examples/stiffness/dense-asphalt.csv";
const at = testFolder("file");

test("prints the fit and writes a report", () => {
  const report = at("s.html");
  const {code, out, err} = seamwright(["stiffness", example, "--report", report, "--name", "Dense"]);
  expect([code, err]).toEqual([0, `Wrote ${report}\n`]);
  expect(out).toMatch(/^Dense\nDense: \|E\*\| of [\d,]+ MPa at 15 °C and 10 Hz\.\n/);
  expect(out).toContain("Model: 2S2P1D");
  expect(readFileSync(report, "utf8")).toContain("<title>Dense: master curve</title>");
});

test("another model, shift and temperature; the numbers as JSON", () => {
  const args = ["stiffness", example, "--model", "sigmoid", "--shift", "Arrhenius", "--reference-C", "20", "--json"];
  const {code, out} = seamwright(args);
  expect(code).toBe(0);
  const {curve, fit, points, prony, summary} = JSON.parse(out);
  expect(curve).toMatchObject({model: {kind: "sigmoid"}, shift: {kind: "Arrhenius"}, referenceTemperature: 20});
  expect([points.length, fit.residuals.length]).toEqual([36, 36]);
  expect(prony.terms.length).toBeGreaterThan(10);
  expect(summary.map((s: {temperature: number}) => s.temperature)).toEqual([-10, 0, 10, 20, 30, 40]);
  // 3.5 GPa at 20 °C and 10 Hz, as the example was invented; scatter 2 %, and a sigmoid is not what is true there
  expect(summary[3].modulus / 3.54e9).toBeGreaterThan(0.93);
  expect(summary[3].modulus / 3.54e9).toBeLessThan(1.07);
});

test("all faults of a table at once, and nothing is written", () => {
  const table = at("bad.csv");
  const text = readFileSync(new URL(`../../../${example}`, import.meta.url), "utf8");
  writeFileSync(table, text.replace(/^5,0.1,[\d.]+/m, "5,0.1,-3").replace(/^15,0.3,/m, "15,x,"));
  const {code, out, err} = seamwright(["stiffness", table, "--report", at("none.html")]);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain("2 faults in ");
  expect(err).toContain("not a number in line 15 of the file");
  expect(err).toContain("impossible values in line 8 of the file");
  expect(err).not.toContain("Wrote");
});

test("a file that is not there, a temperature that is none", () => {
  expect(seamwright(["stiffness", at("missing.csv")])).toMatchObject({code: 2, out: ""});
  expect(seamwright(["stiffness", example, "--reference-C", "warm"])).toMatchObject({code: 2, out: ""});
});
