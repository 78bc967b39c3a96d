import {describe, expect, test} from "vitest";
import {faults, goodText, study} from "./good-study.ts";

const withInputs = (...inputs: string[]) =>
  `${goodText}uncertainty:\n  inputs:\n${inputs.map(i => `    - ${i}\n`).join("")}`;
const riskOf = (...inputs: string[]) => study(withInputs(...inputs)).risk.inputs;

describe("uncertain inputs", () => {
  test("a field by its path, about its value in the study", () => {
    expect(riskOf("{field: section.layers.overlay.thickness_mm, normal: {deviation: 5}}")).toEqual([
      {
        name: "section.layers[0].thickness_mm",
        effect: {kind: "field", path: ["section", "layers", 0, "thickness_mm"]},
        distribution: {kind: "normal", mean: 80, deviation: 5},
      },
    ]);
  });

  test("factors about one, growth in percentage points", () => {
    expect(
      riskOf(
        "{scale: passes, lognormal: {cv_percent: 20}}",
        "{scale: growth_percent, uniform: {low: -1, high: 2}, truncated: {high: 1.5}}",
        "{name: mine, relaxation: soft, triangular: {low: 0.5, high: 3}}",
      ),
    ).toMatchObject([
      {effect: {kind: "passes"}, distribution: {kind: "lognormal", median: 1, coefficientOfVariation: 0.2}},
      {
        effect: {kind: "growth"},
        distribution: {kind: "uniform", low: -0.01, high: 0.02, truncated: {low: -Infinity, high: 0.015}},
      },
      {name: "mine", distribution: {kind: "triangular", low: 0.5, mode: 1, high: 3}},
    ]);
  });

  test("a law by deviations and correlation", () => {
    const [law] = riskOf("{law: asphalt, ln_A_deviation: 0.5, n_deviation: 0.2, correlation: -0.9}");
    expect(law).toMatchObject({
      members: ["ln A", "n"],
      joint: {
        mean: [0, 0],
        covariance: [
          [0.25, expect.closeTo(-0.09, 15)],
          [expect.closeTo(-0.09, 15), expect.closeTo(0.04, 15)],
        ],
      },
    });
  });

  test("without the part everything has its usual spread; with it only what is said, unless usual", () => {
    const names = study(goodText).risk.inputs.map(i => i.name);
    expect(names).toEqual(
      expect.arrayContaining(["law of asphalt", "number of passes", "thickness of overlay", "weight of shear"]),
    );
    const mixed = study(`${goodText}uncertainty: {usual: true, inputs: [{scale: passes, normal: {deviation: 0.4}}]}\n`);
    const passes = mixed.risk.inputs.filter(i => i.effect.kind === "passes");
    expect(passes).toMatchObject([{distribution: {deviation: 0.4}}]);
    expect(mixed.risk.inputs.length).toBe(names.length);
  });

  test("limits that cut much away are told", () => {
    const cut = study(withInputs("{scale: loads, normal: {deviation: 0.1}, truncated: {low: 0.95}}"));
    expect(cut.warnings.map(w => w.problem)).toEqual([
      // Φ(−0.5) = 0.3085: tables
      "the limits cut away 31 % of the distribution; what is left is scaled up",
    ]);
  });

  const wrong: [what: string, input: string, path: string, says: RegExp][] = [
    ["nothing", "{normal: {deviation: 1}}", "", /what is uncertain is not said/],
    ["two things", "{law: asphalt, scale: passes, normal: {deviation: 1}}", "", /two things/],
    [
      "an unknown field",
      "{field: section.layers.overlay.thick_mm, normal: {deviation: 1}}",
      ".field",
      /has no thick_mm/,
    ],
    ["a text", "{field: section.layers.overlay.name, normal: {deviation: 1}}", ".field", /no number/],
    ["no distribution", "{scale: loads}", "", /how it is spread/],
    ["two distributions", "{scale: loads, normal: {deviation: 0.1}, uniform: {low: 0, high: 1}}", "", /more than one/],
    ["upside down", "{scale: loads, uniform: {low: 2, high: 1}}", ".uniform", /no distribution/],
    ["an unknown material", "{law: asfalt, ln_A_deviation: 1}", ".law", /no material/],
    ["a law without a spread", "{law: asphalt}", "", /how sure the law is/],
    ["a material without a law", "{law: cemented, ln_A_deviation: 1}", ".law", /no growth law/],
    ["too much cut away", "{scale: loads, normal: {deviation: 0.1}, truncated: {low: 1.2}}", ".normal", /cut away/],
  ];
  test.each(wrong)("%s: told at its place", (_, input, path, says) => {
    const [fault] = faults(withInputs(input));
    expect(fault.path).toBe(`uncertainty.inputs[0]${path}`);
    expect(fault.problem).toMatch(says);
  });
});
