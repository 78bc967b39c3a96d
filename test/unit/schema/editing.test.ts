import {readFileSync} from "node:fs";
import path from "node:path";
import fc from "fast-check";
import {expect, test} from "vitest";
import {copiedEntry, editedText, movedEntry, parsedText, renamed} from "../../../src/schema/editing/index.ts";

const road = readFileSync(path.join(import.meta.dirname, "../../../examples/county-road.yaml"), "utf8");

test("no edit leaves every value and every comment", () => {
  const again = editedText(road, []);
  expect(parsedText(again)).toEqual(parsedText(road));
  expect(again.match(/#/g)?.length).toBe(road.match(/#/g)?.length);
  expect(editedText(again, [])).toBe(again);
});

test("one number changes one line", () => {
  const base = editedText(road, []);
  const changed = editedText(base, [{path: ["section", "layers", 0, "thickness_mm"], value: 75}]);
  const [before, after] = [base.split("\n"), changed.split("\n")];
  expect(after.length).toBe(before.length);
  expect(after.filter((line, k) => line !== before[k])).toEqual([
    "    - {name: overlay, role: overlay, material: dense asphalt, thickness_mm: 75}",
  ]);
});

test("a comment beside a changed number stays", () => {
  const changed = editedText(road, [{path: ["materials", "cement-bound base", "modulus_MPa"], value: 12000}]);
  expect(changed).toContain("modulus_MPa: 12000 # 5000 to 35000 MPa is usual");
});

test("numbers that nobody changed stay as they were written", () => {
  const text = "a: {b: 25e-6, c: 10e-6, d: +3, e: 0x1F, f: 1.50, g: .5} # usual\nh: 1\n";
  expect(editedText(text, [{path: ["h"], value: 2}])).toBe(text.replace("h: 1", "h: 2"));
  expect(editedText(text, [{path: ["a", "b"], value: 3e-5}])).toBe(text.replace("25e-6", "0.00003"));
  expect(editedText(road, [{path: ["section", "layers", 0, "thickness_mm"], value: 75}])).toContain(
    "25e-6 # usual range",
  );
});

test("missing maps are made, keys and entries are taken out", () => {
  const deep = editedText("a: 1\n", [{path: ["b", "c", 0, "d"], value: 2}]);
  expect(parsedText(deep)).toEqual({a: 1, b: {c: [{d: 2}]}});
  expect(parsedText(editedText(deep, [{path: ["a"], value: undefined}]))).toEqual({b: {c: [{d: 2}]}});
  expect(parsedText(editedText("a: [1, 2, 3]\n", [{path: ["a", 1], value: undefined}]))).toEqual({a: [1, 3]});
  expect(editedText("a: 1\n", [{path: ["z"], value: undefined}])).toBe("a: 1\n");
});

test("a path through a number is refused", () => {
  expect(() => editedText("a: 1\n", [{path: ["a", "b"], value: 2}])).toThrow("a is neither a map nor a list");
  expect(() => editedText("a: [", [{path: ["a"], value: 2}])).toThrow("no YAML");
});

test("whatever is written is read again", () => {
  const value = fc.oneof(fc.double({noNaN: true, noDefaultInfinity: true}), fc.string(), fc.boolean());
  fc.assert(
    fc.property(value, v => {
      const text = editedText(road, [{path: ["section", "joint", "spacing_m"], value: v}]);
      const read = (parsedText(text) as {section: {joint: {spacing_m: unknown}}}).section.joint.spacing_m;
      expect(Object.is(read, v) || (v === 0 && read === 0)).toBe(true);
    }),
    {numRuns: 60},
  );
});

test("a material is renamed wherever it is named", () => {
  const text = renamed(road, "material", "dense asphalt", "fine mix");
  expect(text).not.toMatch(/dense asphalt(?!\.)\s*[:},]/);
  const plain = parsedText(text) as {
    materials: object;
    section: {layers: {material: string}[]};
    costs: {materials: object};
  };
  expect(Object.keys(plain.materials)[0]).toBe("fine mix");
  expect(plain.section.layers[0].material).toBe("fine mix");
  expect(Object.keys(plain.costs.materials)).toContain("fine mix");
  expect(parsedText(renamed(text, "material", "fine mix", "dense asphalt"))).toEqual(parsedText(road));
});

const NAMED = `section:
  layers: # from the top
    - {name: top, material: mix, thickness_mm: 50}
    - {name: base, material: cement, thickness_mm: 200}
treatments:
  - {name: plain}
  - name: base # as a layer is called
    changes: {layers: [{name: top, material: mix, thickness_mm: 60}]}
materials:
  mix: {modulus_MPa: 4000}
  cement: {modulus_MPa: 9000}
costs:
  renewals: [{treatment: base, life_years: 9}]
  materials: {mix: {price_per_tonne: 80}}
uncertainty:
  inputs:
    - {field: section.layers.base.thickness_mm}
    - {field: treatments.base.changes.layers.top.thickness_mm}
    - {field: materials.mix.modulus_MPa}
    - {field: section.layers.0.thickness_mm}
    - {law: mix}
`;

/** Fields that are uncertain, by the paths that are left after renaming. */
const fieldsOf = (text: string): unknown[] =>
  (parsedText(text) as {uncertainty: {inputs: {field?: string; law?: string}[]}}).uncertainty.inputs.map(
    i => i.field ?? i.law,
  );

test("a layer is called otherwise in the section, in treatments and in paths, a treatment of the same name not", () => {
  const text = renamed(NAMED, "layer", "base", "slab");
  expect(text).toContain("{name: slab, material: cement, thickness_mm: 200}");
  expect(text).toContain("- name: base # as a layer is called");
  expect(text).toContain("{treatment: base, life_years: 9}");
  expect(fieldsOf(text).slice(0, 2)).toEqual([
    "section.layers.slab.thickness_mm",
    "treatments.base.changes.layers.top.thickness_mm",
  ]);
  const top = renamed(NAMED, "layer", "top", "wearing course 1.5");
  expect(top.match(/name: wearing course 1\.5/g)).toHaveLength(2);
  expect(fieldsOf(top)[1]).toBe("treatments.base.changes.layers.wearing course 1.5.thickness_mm");
  expect(fieldsOf(top)[3]).toBe("section.layers.0.thickness_mm"); // by its number
});

test("a treatment is called otherwise in its renewals and in paths", () => {
  const text = renamed(NAMED, "treatment", "base", "With grid");
  expect(text).toContain("- name: With grid # as a layer is called");
  expect(text).toContain("{treatment: With grid, life_years: 9}");
  expect(fieldsOf(text).slice(0, 2)).toEqual([
    "section.layers.base.thickness_mm",
    "treatments.With grid.changes.layers.top.thickness_mm",
  ]);
});

test("a material is called otherwise in paths too", () => {
  const text = renamed(NAMED, "material", "mix", "fine mix");
  expect(fieldsOf(text)).toContain("materials.fine mix.modulus_MPa");
  expect(fieldsOf(text)).toContain("fine mix");
  expect(text.replaceAll("fine mix", "")).not.toContain("mix");
});

test("a text with a key twice is not renamed in", () => {
  expect(() => renamed("materials: {a: 1, a: 2}", "material", "a", "b")).toThrow(/key twice/);
});

const LIST = `list:
  # about the first
  - {name: one, rate: 5e-6} # beside it
  # about the second
  - name: two
    rate: 25e-6
`;

test("an entry of a list is moved with its comments, numbers as they stood", () => {
  const moved = movedEntry(LIST, ["list"], {from: 1, to: 0});
  expect(parsedText(moved)).toEqual({
    list: [
      {name: "two", rate: 25e-6},
      {name: "one", rate: 5e-6},
    ],
  });
  for (const kept of ["# about the first", "# beside it", "# about the second", "5e-6", "25e-6"])
    expect(moved).toContain(kept);
  expect(parsedText(movedEntry(moved, ["list"], {from: 0, to: 1}))).toEqual(parsedText(LIST));
});

test("an entry is copied beside itself and goes its own way", () => {
  const edits = [{path: ["name"], value: "three"}];
  const copied = copiedEntry(LIST, ["list"], {from: 1, to: 2, edits});
  expect(parsedText(copied)).toEqual({
    list: [
      {name: "one", rate: 5e-6},
      {name: "two", rate: 25e-6},
      {name: "three", rate: 25e-6},
    ],
  });
  expect(copied).not.toMatch(/[&*]/); // no anchors
  expect(() => copiedEntry(LIST, ["list"], {from: 7, to: 8, edits})).toThrow("list has no entry 7");
  expect(() => movedEntry("list: [", ["list"], {from: 0, to: 1})).toThrow("no YAML");
});
