import {parseHTML} from "linkedom";
import {expect, test} from "vitest";
import {type BowlLayer, backAnalyse} from "../../../src/engine/backanalysis/index.ts";
import {type BowlCase, bowlReport, bowlTable} from "../../../src/report/index.ts";
import {bowlOf, PRESSURE, ROAD, testOf, unknown} from "../backanalysis/fixture.ts";

const {layers, moduli} = ROAD;
const plain = {colour: false, width: 100};
const caseOf = (result: BowlCase["result"]): BowlCase => ({
  name: "A road <b>",
  source: null,
  temperatures: layers.map(() => null),
  result,
});
const context = {
  document: parseHTML("<html></html>").document as never,
  software: "test",
  inputHash: "0".repeat(64),
  date: "today",
  sources: {},
  warnings: [],
};

test("an exact bowl: every modulus determined", () => {
  const text = bowlTable(caseOf(backAnalyse(testOf(layers, bowlOf(layers, moduli)))), plain);
  expect(text).toContain("Moduli: asphalt 5,000 MPa, granular base 250 MPa, soil 70 MPa.");
  expect(text).toContain("The bowl determines every modulus to within");
  expect(text).not.toContain("\n- "); // no warning
});

test("every warning has words; names are escaped", () => {
  const thin = layers.map((l, j): BowlLayer => {
    if (j === 0) return {...l, thickness: 0.05, modulus: unknown(5e9, 2)};
    return j === 2 ? {...l, modulus: {kind: "unknown", start: 3e8, low: 2.5e8, high: 1e9}} : l;
  });
  const exact = bowlOf(layers, moduli);
  const drops = [1, 1.5].map((f, i) => ({
    pressure: f * PRESSURE,
    deflections: exact.map((d, k) => d * f * (1 + 0.1 * i) * (k === 3 ? 1.2 : 1) * (k > 6 ? 0.5 : 1)),
  }));
  const result = backAnalyse(testOf(thin, exact, {drops}));
  const codes = result.warnings.map(w => w.code);
  for (const code of ["thin-layer", "at-bound", "misfit", "stiff-bottom", "load-dependent"])
    expect(codes).toContain(code);
  const html = bowlReport(caseOf(result), context);
  expect(html).toContain("Moduli, though the layers do not fit the bowl: ");
  expect(html).toContain("A road &lt;b&gt;");
  expect(html).not.toMatch(/undefined|NaN|\[object/);
  const text = bowlTable(caseOf(result), {colour: false, width: 60});
  expect(text.match(/^- /gm)).toHaveLength(result.warnings.length);
  expect(Math.max(...text.split("\n").map(line => line.length))).toBeLessThanOrEqual(60);
});

test("nothing free", () => {
  const away = layers.map(
    (l, j): BowlLayer => ({
      ...l,
      modulus: {kind: "unknown", start: moduli[j] * 4, low: moduli[j] * 3, high: moduli[j] * 9},
    }),
  );
  const result = backAnalyse(testOf(away, bowlOf(layers, moduli)));
  expect(bowlReport(caseOf(result), context)).not.toMatch(/undefined|NaN/);
  expect(bowlTable(caseOf(result), plain)).toContain("lower end of its range or beyond");
});

test("as many unknowns as sensors, and one unknown alone", () => {
  const offsets = [0, 0.45, 1.2];
  const three = backAnalyse(testOf(layers, bowlOf(layers, moduli, {offsets}), {offsets}));
  expect(bowlReport(caseOf(three), context)).not.toMatch(/undefined|NaN/);
  const half: BowlLayer[] = [{name: "soil", thickness: Infinity, poisson: 0.4, modulus: unknown(8e7)}];
  const one = backAnalyse(testOf(half, bowlOf(half, [8e7])));
  expect(bowlTable(caseOf(one), plain)).toContain("There is one unknown modulus.");
});
