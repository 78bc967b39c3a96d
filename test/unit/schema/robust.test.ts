import fc from "fast-check";
import {expect, test} from "vitest";
import {formatFaults, readStudy} from "../../../src/schema/index.ts";
import {editDistance, nearest} from "../../../src/schema/nearest.ts";
import {csv, goodText, study} from "./good-study.ts";

const record = csv(48); // two days: enough to go all the way
const {document} = study(goodText).inputs;

/** Whatever comes in, faults or a study come out, and faults can be shown. */
function survives(text: string, file: string = record): void {
  const outcome = readStudy(text, {fileName: "x.yaml", readCsv: () => file});
  if (outcome.kind === "study") {
    expect(outcome.study.treatments.length).toBeGreaterThan(0);
    for (const {section} of outcome.study.treatments)
      for (const layer of section.layers) {
        expect(layer.thickness).toBeGreaterThan(0);
        for (const {modulus} of layer.material.modulus) expect(modulus).toBeGreaterThan(0);
      }
  } else {
    expect(outcome.faults.length).toBeGreaterThan(0);
    expect(formatFaults(outcome.faults)).not.toBe("");
    for (const fault of outcome.faults) expect(fault.line).toBeGreaterThanOrEqual(1);
  }
}

/** Every path of plain data, leaves and branches. */
function pathsOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== "object" || value === null) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([key, item]) => pathsOf(item, [...path, key]))];
}

const paths = pathsOf(document).filter(path => path.length > 0);

function mutated(path: readonly (string | number)[], change: {kind: string; value: unknown; key: string}): unknown {
  const copy = structuredClone(document) as unknown;
  let parent = copy as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) parent = parent[key] as Record<string | number, unknown>;
  const last = path[path.length - 1];
  if (change.kind === "replace") parent[last] = change.value;
  else if (change.kind === "drop") delete parent[last];
  else if (Array.isArray(parent)) parent.push(change.value);
  else Object.defineProperty(parent, change.key, {value: change.value, enumerable: true, configurable: true});
  return copy;
}

const anyValue = fc.oneof(
  fc.double(),
  fc.integer({min: -5, max: 400}),
  fc.constantFrom(0, -1, 1e-3, 1e300, -0, null, "", "bonded", "derive", "asphalt", [], {}, [null], [[]], true),
  fc.string(),
  fc.jsonValue(),
);

test("any change of the good study gives faults or a study, never an exception", () => {
  const change = fc.record({
    kind: fc.constantFrom("replace", "replace", "drop", "add"),
    value: anyValue,
    key: fc.oneof(fc.string(), fc.constantFrom("__proto__", "constructor", "toString", "thickness_mm")),
  });
  fc.assert(
    fc.property(fc.constantFrom(...paths), change, (path, how) => {
      survives(JSON.stringify(mutated(path, how)));
    }),
    {numRuns: 800, seed: 7},
  );
});

test("any damage to the text gives faults or a study", () => {
  const piece = fc.oneof(
    fc.string({maxLength: 6}),
    fc.constantFrom("\t", ": ", "- ", "[", "}", "&a ", "*a ", "!!x ", "---\n", "#", "|", ">", "\u0000", '"', "<<: "),
  );
  fc.assert(
    fc.property(fc.nat(goodText.length), fc.nat(30), piece, (at, length, put) => {
      survives(goodText.slice(0, at) + put + goodText.slice(at + length));
    }),
    {numRuns: 500, seed: 8},
  );
});

test("any text at all", () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json()), text => survives(text)),
    {numRuns: 300, seed: 9},
  );
});

test("any damage to the record gives faults or a study", () => {
  const piece = fc.oneof(
    fc.string({maxLength: 6}),
    fc.constantFrom('"', ",", ";", "\n", "\r", "\uFEFF", "-999", "99999999", "2023-02-30 01:00", "9999-12-31"),
  );
  fc.assert(
    fc.property(fc.nat(record.length), fc.nat(30), piece, (at, length, put) => {
      survives(goodText, record.slice(0, at) + put + record.slice(at + length));
    }),
    {numRuns: 500, seed: 10},
  );
});

test("an alias that repeats itself beyond reason, or holds itself", () => {
  const levels = Array.from(
    {length: 12},
    (_, i) =>
      `l${i}: &l${i} [${Array(9)
        .fill(i ? `*l${i - 1}` : "x")
        .join(", ")}]`,
  );
  survives(levels.join("\n"));
  survives("name: &a [*a]\nformat: 1\n");
});

test("edit distance is a distance, with swapped neighbours as one edit", () => {
  expect(editDistance("widht", "width")).toBe(1);
  expect(editDistance("kitten", "sitting")).toBe(3);
  fc.assert(
    fc.property(fc.string({maxLength: 12}), fc.string({maxLength: 12}), (a, b) => {
      expect(editDistance(a, b)).toBe(editDistance(b, a));
      expect(editDistance(a, b) === 0).toBe(a === b);
      expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
    }),
    {seed: 11},
  );
});

test("the nearest word, or none", () => {
  expect(nearest("asfalt", ["concrete", "asphalt"])).toBe("asphalt");
  expect(nearest("thickness", ["width_mm", "thickness_mm"])).toBe("thickness_mm");
  expect(nearest("Spacing_M", ["spacing_m", "width_mm"])).toBe("spacing_m");
  expect(nearest("colour", ["base", "joint"])).toBeNull();
});
