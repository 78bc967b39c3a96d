import {readFileSync} from "node:fs";
import fc from "fast-check";
import {expect, test} from "vitest";
import {bowlSchema, readBowl} from "../../../../src/schema/deflections/index.ts";
import {nodeOf, type SchemaNode} from "../../../../src/schema/json-schema.ts";

const good = `bowl_format: 1
name: test
plate: {diameter_mm: 300}
offsets_mm: [0, 300, 600, 1200]
drops:
  - {load_kN: 50, deflections_um: [400, 310, 215, 110]}
  - {load_kN: 70, deflections_um: [560, 434, 301, 154]}
layers:
  - {name: asphalt, thickness_mm: 150, poisson: 0.35, modulus_MPa: 5000}
  - {name: base, thickness_mm: 300, poisson: 0.35, modulus_range_MPa: {low: 50, high: 800}}
  - {name: soil, poisson: 0.4, modulus_range_MPa: {low: 10, high: 500, start: 80}}
`;

function spoiled(from: string, to: string): string {
  if (!good.includes(from)) throw new Error(`not in the good document: ${from}`);
  return good.replace(from, () => to);
}

const faultsOf = (text: string): string[] => {
  const outcome = readBowl(text);
  return outcome.kind === "faults" ? outcome.faults.map(f => `${f.path}: ${f.problem}`) : [];
};

test("units, defaults and the last layer", () => {
  const outcome = readBowl(good);
  if (outcome.kind === "faults") throw new Error(JSON.stringify(outcome.faults));
  const {test: own, warnings} = outcome;
  expect(warnings).toEqual([]);
  expect(own.radius).toBe(0.15);
  expect(own.offsets).toEqual([0, 0.3, 0.6, 1.2]);
  expect(own.drops[0].pressure).toBeCloseTo(50e3 / (Math.PI * 0.15 ** 2), 6);
  expect(own.drops[1].deflections).toEqual([560e-6, 434e-6, 301e-6, 154e-6]);
  expect(own.accuracy).toEqual({relative: 0.02, absolute: 2e-6});
  expect(own.probability).toBe(0.9);
  expect(own.base).toBe("half-space");
  expect(own.layers.map(l => l.thickness)).toEqual([0.15, 0.3, Infinity]);
  expect(own.layers.map(l => l.modulus)).toEqual([
    {kind: "fixed", value: 5e9},
    {kind: "unknown", low: 50e6, high: 800e6, start: 200e6},
    {kind: "unknown", low: 10e6, high: 500e6, start: 80e6},
  ]);
});

test("a rigid bottom ends the last layer", () => {
  const outcome = readBowl(`${good}base: {rigid_at_mm: 3000}\n`);
  expect(outcome.kind === "bowl" && outcome.test.base).toBe("rigid");
  expect(outcome.kind === "bowl" && outcome.test.layers[2].thickness).toBeCloseTo(2.55, 12);
});

test.each([
  ["offsets that do not go outward", "[0, 300, 600, 1200]", "[0, 300, 300, 1200]", "offsets_mm[2]: the sensors do not"],
  ["a deflection too few", "[400, 310, 215, 110]", "[400, 310, 215]", "drops[0].deflections_um: there are not as many"],
  [
    "an upward deflection",
    "[400, 310, 215, 110]",
    "[400, 310, 215, -1]",
    "drops[0].deflections_um[3]: a deflection is",
  ],
  ["no thickness", "thickness_mm: 150, ", "", "layers[0].thickness_mm: this field is missing"],
  [
    "a last thickness",
    "{name: soil, ",
    "{name: soil, thickness_mm: 900, ",
    "layers[2].thickness_mm: the last layer has",
  ],
  ["no modulus", ", modulus_MPa: 5000", "", "layers[0]: the layer has no modulus"],
  [
    "given and sought",
    "{low: 50, high: 800}",
    "{low: 50, high: 800}, modulus_MPa: 9",
    "layers[1].modulus_MPa: the modulus is given and",
  ],
  [
    "an empty range",
    "{low: 50, high: 800}",
    "{low: 50, high: 50}",
    "layers[1].modulus_range_MPa.high: the range is empty",
  ],
  ["a start outside", "start: 80", "start: 8", "layers[2].modulus_range_MPa.start: the start lies outside"],
  ["a misspelt key", "load_kN: 50", "load: 50", "drops[0].load: there is no such field"],
  [
    "a shallow bottom",
    "layers:",
    "base: {rigid_at_mm: 400}\nlayers:",
    "base.rigid_at_mm: the rigid bottom lies within",
  ],
])("one fault: %s", (_, from, to, told) => {
  expect(faultsOf(spoiled(from, to))).toEqual([expect.stringContaining(told)]);
});

test("nothing to be found, and more to be found than sensors", () => {
  const given = good.replace(/modulus_range_MPa: \{[^}]*\}/g, "modulus_MPa: 100");
  expect(faultsOf(given)).toEqual(["layers: every modulus is given: nothing is left to be found"]);
  const one = good
    .replace("[0, 300, 600, 1200]", "[0]")
    .replace(/deflections_um: \[(\d+)[^\]]*\]/g, "deflections_um: [$1]");
  expect(faultsOf(one)).toEqual(["layers: 2 moduli are to be found from 1 sensors"]);
});

test("several faults are told at once, with their lines", () => {
  const outcome = readBowl(spoiled("start: 80", "start: 8").replace("name: test\n", ""));
  expect(outcome.kind === "faults" && outcome.faults.map(f => [f.path, f.line])).toEqual([
    ["name", 1],
    ["layers[2].modulus_range_MPa.start", 10],
  ]);
});

test("warnings: a deflection that grows outward, a sensor under the plate", () => {
  const outcome = readBowl(spoiled("[400, 310, 215, 110]", "[400, 310, 330, 110]").replace("[0, 300,", "[0, 120,"));
  expect(outcome.warnings.map(w => w.path)).toEqual(["offsets_mm[1]", "drops[0].deflections_um[2]"]);
});

test("the example and the template are good", async () => {
  const {bowlTemplate} = await import("../../../../src/schema/deflections/index.ts");
  const example = readFileSync(
    new URL("../../../../examples/deflections/county-road-bowl.yaml", import.meta.url),
    "utf8",
  );
  const guide = readFileSync(new URL("../../../../docs/deflections.md", import.meta.url), "utf8");
  const [, inGuide] = /```yaml\n([\s\S]*?)```/.exec(guide) ?? [];
  for (const text of [example, bowlTemplate(), inGuide]) {
    const outcome = readBowl(text);
    expect(outcome.kind === "faults" ? outcome.faults : outcome.warnings).toEqual([]);
  }
});

test("every field says what it is, and every number its unit", () => {
  const bare: string[] = [];
  const visit = (node: SchemaNode, path: string): void => {
    if (!node.description && !node.properties && !node.items && !node.anyOf && node.const === undefined)
      bare.push(path);
    if (node.type === "number" && node.const === undefined && node["x-unit"] === undefined) bare.push(`${path} (unit)`);
    for (const [key, field] of Object.entries(node.properties ?? {})) visit(field, `${path}.${key}`);
    if (node.items) visit(node.items, `${path}[]`);
    for (const branch of node.anyOf ?? []) visit(branch, path);
  };
  visit(nodeOf(bowlSchema), "");
  expect(bare).toEqual([]);
});

test("any damage to the text gives faults or a bowl, never an exception", () => {
  fc.assert(
    fc.property(fc.nat(good.length), fc.nat(30), fc.string({maxLength: 8}), (at, length, put) => {
      const outcome = readBowl(good.slice(0, at) + put + good.slice(at + length));
      expect(outcome.kind === "bowl" || outcome.faults.length > 0).toBe(true);
    }),
    {numRuns: 400, seed: 1},
  );
});
