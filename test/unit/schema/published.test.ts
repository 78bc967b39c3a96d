import {readFileSync} from "node:fs";
import {expect, test} from "vitest";
import {INVENTED} from "../../../examples/laboratory/invent.ts";
import {REFERENCE_STRAIN} from "../../../src/engine/laboratory/index.ts";
import {formatFaults, jsonSchema, readStudy} from "../../../src/schema/index.ts";
import type {SchemaNode} from "../../../src/schema/json-schema.ts";
import {fieldTables} from "./field-tables.ts";

const repository = new URL("../../../", import.meta.url);
const textOf = (path: string) => readFileSync(new URL(path, repository), "utf8");
const marker = "<!-- From here on written by test/unit/schema/published.test.ts; vitest -u renews it. -->";

test("the published JSON Schema is current", async () => {
  const text = `${JSON.stringify(jsonSchema(), null, 2)}\n`;
  await expect(text).toMatchFileSnapshot("../../../docs/study.schema.json");
});

test("the field tables in docs/study.md are current", async () => {
  const [written] = textOf("docs/study.md").split(marker);
  const page = `${written}${marker}\n\n${fieldTables(jsonSchema())}\n`;
  await expect(page).toMatchFileSnapshot("../../../docs/study.md");
});

test("every field has a description or explains itself by its parts, and every number a unit", () => {
  const bare: string[] = [];
  const visit = (node: SchemaNode, path: string) => {
    const parts = node.properties || node.items || node.anyOf;
    if (!node.description && !parts) bare.push(path);
    if (node.type === "number" && node.const === undefined && node["x-unit"] === undefined) bare.push(`${path} (unit)`);
    for (const [key, field] of Object.entries(node.properties ?? {})) visit(field, `${path}.${key}`);
    if (node.items) visit(node.items, `${path}[]`);
    for (const branch of node.anyOf ?? []) if (branch.properties || branch.items) visit(branch, path);
    if (typeof node.additionalProperties === "object") visit(node.additionalProperties, `${path}.*`);
  };
  visit(jsonSchema(), "");
  expect(bare).toEqual([]);
});

/** The studies of the documentation and the examples must be good. */
function readExample(text: string) {
  const outcome = readStudy(text, {fileName: "example", readCsv: path => textOf(`examples/${path}`)});
  if (outcome.kind === "faults") throw new Error(formatFaults(outcome.faults));
  return outcome;
}

test("the road example", () => {
  const {study, warnings} = readExample(textOf("examples/county-road.yaml"));
  expect(warnings).toEqual([]);
  expect(study.treatments.map(({section}) => section.layers.map(layer => layer.thickness))).toEqual([
    [0.06, 0.2, 1.5],
    [0.05, 0.01, 0.2, 1.5],
  ]);
  // The record as its supplier describes it: mean 14.42 °C, from -16.7 to 35.6 °C, 1566.2 kWh/m² a year
  const {temperature, solar, startHour} = study.weather!;
  expect(temperature).toHaveLength(8760);
  expect(startHour).toBe(1);
  expect(temperature.reduce((sum, t) => sum + t, 0) / 8760).toBeCloseTo(14.4218, 3);
  expect([Math.min(...temperature), Math.max(...temperature)]).toEqual([-16.7, 35.6]);
  expect(solar!.reduce((sum, q) => sum + q, 0) / 1000).toBeCloseTo(1566.2, 0);
});

test("what is true in the example laboratory follows from the regression that the road example names", () => {
  // lg A_K = -2.890 - 0.308 n - 0.739 n^0.273 lg S (Medani & Molenaar 2000, from memory; MPa√mm, mm/cycle)
  const stiffness = 3500;
  const regression = 10 ** (-2.89 - 0.308 * 4 - 0.739 * 4 ** 0.273 * Math.log10(stiffness));
  const intensity = ((REFERENCE_STRAIN * stiffness) / (1 - 0.35 ** 2)) * Math.sqrt((Math.PI * 10) / 2); // MPa√mm
  const {logRate, exponent} = INVENTED.laws["dense asphalt"];
  expect(logRate).toBeCloseTo(Math.log(regression * intensity ** 4 * 1e-3), 1); // m/cycle; -16.9 is rounded
  expect(exponent).toBe(4);
  const {study} = readExample(textOf("examples/county-road.yaml"));
  const law = study.treatments[0].section.layers[0].material.growth!;
  expect(law.stiffnessExponent).toBeCloseTo(4 - 0.739 * 4 ** 0.273, 2);
});

test("the apron example", () => {
  const {study, warnings} = readExample(textOf("examples/apron.yaml"));
  expect(warnings).toEqual([]);
  expect(study.treatments).toHaveLength(3);
  expect(study.traffic.classes.map(c => c.wheels.length)).toEqual([2, 4, 6]);
});

test("the study in docs/study.md", () => {
  const [, yaml] = /```yaml\n([\s\S]*?)```/.exec(textOf("docs/study.md")) ?? [];
  expect(readExample(yaml).study.treatments).toHaveLength(2);
});
