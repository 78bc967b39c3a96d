import {describe, expect, test} from "vitest";
import {formatFaults} from "../../../src/schema/index.ts";
import {conditionFaultCases} from "./condition-fault-cases.ts";
import {faultCases} from "./fault-cases.ts";
import {faults, goodText, lineOf, read, spoiled, study} from "./good-study.ts";

describe("one fault each", () => {
  for (const {what, from, to, path, says, suggests, at} of [...faultCases, ...conditionFaultCases]) {
    test(what, () => {
      const pairs: [string, string][] = [[from, to]];
      if (what.startsWith("joint wider")) pairs.push(["width_mm: 0.1", "width_mm: 60"]);
      const text = spoiled(...pairs);
      const found = faults(text);
      expect(found.map(fault => fault.path)).toEqual([path]);
      const [fault] = found;
      expect(fault.line).toBe(lineOf(text, at ?? to));
      expect(fault.column).toBeGreaterThan(0);
      expect(fault.quote).toBe(at === "format" ? null : text.split("\n")[fault.line! - 1]);
      expect(fault.accepted).not.toBe("");
      if (says) expect(fault.problem).toMatch(says);
      if (suggests) expect(fault.suggestion).toMatch(suggests);
    });
  }
});

test("the good study is good and gives no warning", () => {
  expect(study(goodText).warnings).toEqual([]);
});

test("all faults are told at once, across parts and kinds", () => {
  const text = spoiled(
    ["poisson: 0.35", "poisson: 0.6"],
    ["material: cemented", "material: cementd"],
    ["spacing_m: 4.5", "spacing_mm: 4500"],
    ["{material: soft, thickness_mm: 10", "{material: soft, thickness_mm: 100"],
    ["passes_per_year: 60000", "passes_per_year: many"],
    ["temperature: t,", "temperature: temp,"],
  );
  expect(faults(text).map(fault => fault.path)).toEqual([
    "section.joint.spacing_mm",
    "materials.asphalt.poisson",
    "traffic.standard_axles.passes_per_year",
    "section.layers[1].material",
    "treatments[1].changes.interlayer.thickness_mm",
    "climate.hourly.columns.temperature",
  ]);
});

test("no traffic, and a life asked for", () => {
  const none = goodText.replace(/traffic:\n[\s\S]*?climate:/, "traffic: {}\nclimate:");
  expect(faults(none)).toMatchObject([{path: "traffic", problem: expect.stringMatching(/life in years/)}]);
  const zero = spoiled(
    ["passes_per_year: 60000", "passes_per_year: 0"],
    ["passes_per_year: 1000", "passes_per_year: 0"],
  );
  expect(faults(zero)).toMatchObject([{path: "traffic", found: "0 passes a year in all classes together"}]);
});

test("without a climate, bins must be listed", () => {
  const none = goodText.replace(/climate:\n[\s\S]*?analysis/, "analysis");
  expect(faults(none)).toMatchObject([{path: "temperature_bins", line: 1}]);
  const listed = `${none}temperature_bins: [{temperature_C: 10, share_percent: 40}, {temperature_C: 25, share_percent: 60}]\n`;
  const {study: read, warnings} = study(listed);
  expect(read.weather).toBeNull();
  expect(read.bins).toEqual([
    {temperature: 10, share: 0.4},
    {temperature: 25, share: 0.6},
  ]);
  expect(warnings).toMatchObject([{path: "climate"}]);
});

describe("syntax", () => {
  test("a duplicate key, beside other faults", () => {
    const text = spoiled(
      ["    width_mm: 0.1", "    width_mm: 0.1\n    width_mm: 2"],
      ["poisson: 0.35", "poisson: 0.7"],
    );
    const found = faults(text);
    expect(found[0]).toMatchObject({problem: expect.stringMatching(/twice/), line: lineOf(text, "    width_mm: 2")});
    expect(found[1]).toMatchObject({path: "materials.asphalt.poisson"});
  });
  test("tabs and broken brackets, each with its line", () => {
    const found = faults("format: 1\nname: [a\nsection:\n\tlayers: 3\n");
    expect(found.length).toBeGreaterThanOrEqual(2);
    expect(found.every(fault => fault.line! >= 1 && /YAML/.test(fault.problem))).toBe(true);
  });
  test.each(["", "  \n", "just words", "- a\n- b", "null", "42"])("%j is not a study", text => {
    expect(faults(text)[0].line).toBe(1);
  });
  test("two documents", () => {
    expect(faults(`${goodText}---\n${goodText}`)).toMatchObject([{suggestion: expect.stringMatching(/one study/)}]);
  });
  test("an alias without anchor", () => {
    expect(faults("format: 1\nname: *nobody\n").length).toBeGreaterThan(0);
  });
  test("anchors and aliases are followed", () => {
    const text = spoiled(
      ["kind: soil\n", "kind: soil\n    thermal: &t {density_kg_per_m3: 1900}\n"],
      ["kind: cement-bound\n", "kind: cement-bound\n"],
    );
    expect(study(text).study.treatments[0].section.layers[2].material.density).toBe(1900);
  });
});

test("warnings: what looks like a slip but can be meant", () => {
  const warned = (from: string, to: string) => study(spoiled([from, to])).warnings;
  expect(warned("growth_percent: 2", "growth_percent: 0.02")).toMatchObject([
    {path: "traffic.standard_axles.growth_percent", suggestion: expect.stringMatching(/write 2 /)},
  ]);
  expect(warned("efficiency_percent: 40", "efficiency_percent: 0.4")).toMatchObject([
    {suggestion: expect.stringMatching(/write 40 /)},
  ]);
  expect(warned("pressure_MPa: 1.4", "pressure_MPa: 2.5")).toMatchObject([
    {path: "traffic.load_classes[0].pressure_MPa"},
  ]);
  expect(warned("relaxation_modulus_MPa: 700", "relaxation_modulus_MPa: 4000")).toMatchObject([
    {path: "materials.asphalt.relaxation_modulus_MPa"},
  ]);
  expect(warned("modulus_MPa: 250}", "modulus_MPa: 5000}")).toMatchObject([
    {problem: expect.stringMatching(/stiffer/)},
  ]);
  expect(warned("temperature_C: 60,", "temperature_C: 21,")).toMatchObject([
    {path: "materials.asphalt.modulus_by_temperature", accepted: expect.stringMatching(/^a table from/)},
  ]);
  expect(warned("section:\n", "  spare: {kind: soil, modulus_MPa: 50, poisson: 0.4}\nsection:\n")).toMatchObject([
    {path: "materials.spare"},
  ]);
});

test("names like those of built-in properties are just names", () => {
  for (const name of ["constructor", "toString", "hasOwnProperty"]) {
    const found = faults(spoiled(["material: cemented", `material: ${name}`]));
    expect(found).toMatchObject([{path: "section.layers[1].material", problem: expect.stringMatching(/no material/)}]);
  }
});

test("faults as text: place, line quoted, suggestion", () => {
  const text = spoiled(["    width_mm: 0.1", "    widht_mm: 0.1"], ["poisson: 0.35", "poisson: 0.6"]);
  const shown = formatFaults(faults(text), {fileName: "road.yaml"});
  expect(shown).toContain("2 faults in road.yaml:");
  expect(shown).toContain(`${lineOf(text, "widht")} |     widht_mm: 0.1`);
  expect(shown).toContain("section.joint.widht_mm: there is no such field here");
  expect(shown).toContain("did you mean width_mm?");
  expect(shown).toContain("found 0.6; accepted: a number ≥ 0, < 0.5");
  expect(shown.indexOf("poisson")).toBeLessThan(shown.indexOf("widht")); // in the order of the document
  expect(formatFaults([])).toBe("");
});

test("JSON is read like YAML", () => {
  const outcome = study(goodText);
  const {document} = outcome.inputs;
  const json = JSON.stringify(document, null, 2);
  expect(study(json).study).toEqual(outcome.study);
  const broken = faults(json.replace('"spacing_m": 4.5', '"spacing_m": -4.5'));
  expect(broken).toMatchObject([
    {path: "section.joint.spacing_m", quote: expect.stringContaining('"spacing_m": -4.5')},
  ]);
  expect(read(json.slice(0, -20)).kind).toBe("faults");
});
