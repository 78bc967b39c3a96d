/** The command `bowl`, on its example. */
import {readFileSync, writeFileSync} from "node:fs";
import {expect, test} from "vitest";
import {testFolder} from "../folder.ts";
import {seamwright} from "./run.ts";

const example = "examples/deflections/county-road-bowl.yaml";
const at = testFolder("file");

/** What the example's readings were computed for [MPa]; it says so itself. */
const TRUTH = [4000, 9000, 220, 90];

test("the example: what is true lies in the intervals, and the granular layer is said to be hardly known", () => {
  const {code, out, err} = seamwright(["bowl", example, "--json"]);
  expect([code, err]).toEqual([0, ""]);
  const {layers, warnings, alternatives, input} = JSON.parse(out);
  expect(input.sha256).toMatch(/^[0-9a-f]{64}$/);
  TRUTH.forEach((truth, j) => {
    const {interval, modulus} = layers[j];
    if (interval === null) expect(modulus / 1e6).toBe(truth);
    else expect(interval.low / 1e6 < truth && truth < interval.high / 1e6).toBe(true);
  });
  expect(warnings).toEqual([{code: "wide-interval", layer: 2, ratio: expect.closeTo(4.4, 0)}]);
  expect(alternatives.layer).toBe(2);
});

test("the table and a report", () => {
  const report = at("bowl.html");
  const {code, out, err} = seamwright(["bowl", example, "--report", report]);
  expect([code, err]).toEqual([0, `Wrote ${report}\n`]);
  expect(out).toMatch(/^County road, km 3\.2, between wheel paths\nModuli: cement-bound base [\d,]+ MPa/);
  // The guide quotes the first lines.
  const guide = readFileSync("docs/deflections.md", "utf8");
  const quoted = guide
    .match(/^ {4}(?:Moduli|Known worst)[\s\S]*?\n\n/m)![0]
    .trim()
    .split(/\n\s*/);
  expect(quoted).toHaveLength(4);
  for (const line of quoted) expect(out).toContain(line);
  expect(Math.max(...out.split("\n").map(line => line.length))).toBeLessThanOrEqual(100);
  const html = readFileSync(report, "utf8");
  expect(html).toContain("<title>County road, km 3.2, between wheel paths: moduli from deflections</title>");
  expect(html.match(/<svg/g)).toHaveLength(3);
});

test("faults come all at once with their place; --check computes nothing", () => {
  const text = readFileSync(example, "utf8");
  writeFileSync(at("bad.yaml"), text.replace("thickness_mm: 200, ", "").replace("diameter_mm", "diametre_mm"));
  const bad = seamwright(["bowl", at("bad.yaml")]);
  expect([bad.code, bad.out]).toEqual([2, ""]);
  expect(bad.err).toContain("did you mean diameter_mm?");
  expect(bad.err).toContain("layers[1].thickness_mm: this field is missing");
  const check = seamwright(["bowl", example, "--check"]);
  expect([check.code, check.out]).toEqual([0, "No faults, no warnings.\n"]);
});

test("the template is a bowl", () => {
  const {code, out} = seamwright(["template", "bowl"]);
  expect(code).toBe(0);
  writeFileSync(at("mine.yaml"), out);
  expect(seamwright(["bowl", at("mine.yaml")]).out).toContain("Modul");
});
