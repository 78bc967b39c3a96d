import {describe, expect, test} from "vitest";
import {faults, goodText, lineOf, read, study} from "./good-study.ts";

const costs = `costs:
  currency: EUR
  price_date: invented
  discount_percent: 3
  longest_life_years: 30
  materials:
    asphalt: {price_per_m3: 200}
    soft: {price_per_tonne: 150}
  operations: {laying_per_m2: 1, planing_per_m2: 1.5, planing_per_m2_and_mm: 0.05, fixed_per_m2: 0.5}
  traffic_management_per_m2: 2
`;
const carbon = `  carbon:
    materials: {asphalt: {kg_CO2e_per_kg: 0.06}, soft: {kg_CO2e_per_m3: 250}}
    planing_kg_CO2e_per_m2_and_mm: 0.01
`;
const renewals = `  renewals:
    - {treatment: with interlayer, planing_mm: 40, layers: [{material: asphalt, thickness_mm: 40}], life_years: 12}
`;
const good = goodText + costs;

const changed = (from: string, to: string, text = good): string => {
  if (!text.includes(from)) throw new Error(`not in the text: ${from}`);
  return text.replace(from, () => to);
};

test("without prices there are no costs", () => {
  expect(study(goodText).study.costs).toBeNull();
});

test("prices in SI", () => {
  const {study: own, warnings} = study(good + carbon);
  expect(warnings).toEqual([]);
  expect(own.costs).toMatchObject({
    currency: "EUR",
    priceDate: "invented",
    discountRate: 0.03,
    period: 20, // that of the study
    longestLife: 30,
    prices: {
      materials: {asphalt: {kind: "volume", rate: 200}, soft: {kind: "mass", rate: 0.15}},
      planing: {area: 1.5, volume: 50}, // 0.05 for each mm of a square metre is 50 a cubic metre
      laying: 1,
      fixed: 0.5,
      trafficManagement: 2,
    },
    carbon: {
      materials: {asphalt: {kind: "mass", rate: 0.06}, soft: {kind: "volume", rate: 250}},
      planing: {area: 0, volume: 10},
    },
  });
});

test("what each treatment lays follows from its section, and at first is done again", () => {
  const [plain, treated] = study(good).study.costs!.treatments;
  const asphalt = {name: "overlay", role: "overlay", material: "asphalt", density: 2350};
  const soft = {name: "interlayer", role: "interlayer", material: "soft", density: 2300, thickness: 0.01};
  expect(plain.first).toEqual({
    layers: [{...asphalt, thickness: 0.08}],
    planedDepth: 0,
    reinforcement: null,
    cracking: false,
  });
  expect(treated.first.layers).toEqual([{...asphalt, thickness: 0.07}, soft]);
  expect(treated.renewal).toEqual({...treated.first, planedDepth: 0.08});
  expect(treated.renewalLife).toBeNull();
});

test("sublayers are one course", () => {
  const text = changed("material: asphalt, thickness_mm: 80}", "material: asphalt, thickness_mm: 80, sublayer_mm: 20}");
  const {treatments} = study(text).study;
  expect(treatments[0].section.layers.filter(l => l.role === "overlay")).toHaveLength(4);
  expect(study(text).study.costs!.treatments[0].first.layers).toMatchObject([{name: "overlay", thickness: 0.08}]);
});

test("another renewal", () => {
  const [plain, treated] = study(good + renewals).study.costs!.treatments;
  expect(plain.renewal.planedDepth).toBe(0.08);
  expect(treated.renewal).toMatchObject({
    layers: [{material: "asphalt", role: "overlay", thickness: 0.04}],
    planedDepth: 0.04,
  });
  expect(treated.renewalLife).toBe(12);
  const level = study(good + changed("planing_mm: 40, ", "", renewals)).study.costs!.treatments[1];
  expect(level.renewal.planedDepth).toBe(0.04); // as much as is laid
});

test("slabs are cracked by another spacing or a factor, once, and that needs a price", () => {
  for (const change of ["joint: {spacing_m: 1}", "jointed_modulus_factor: 0.5"]) {
    const text = changed("interlayer: {material: soft", `${change}\n      interlayer: {material: soft`);
    expect(faults(text)).toMatchObject([
      {path: "costs.operations.cracking_per_m2", problem: expect.stringMatching(/cracks/)},
    ]);
    const priced = changed("laying_per_m2: 1,", "laying_per_m2: 1, cracking_per_m2: 4,", text);
    const {prices, treatments} = study(priced).study.costs!;
    expect(prices.cracking).toBe(4);
    expect(treatments.map(t => [t.first.cracking, t.renewal.cracking])).toEqual([
      [false, false],
      [true, false],
    ]);
  }
  expect(
    read(changed("interlayer: {material: soft", "joint: {spacing_m: 4.5}\n      interlayer: {material: soft")).kind,
  ).toBe("study");
});

test("a reinforcement needs a price by its name", () => {
  const grid =
    "reinforcement: {name: glass grid, position: below overlay, stiffness_kN_per_m: 3000, bond_length_mm: 50}";
  const text = changed("interlayer: {material: soft", `${grid}\n      interlayer: {material: soft`);
  expect(faults(text)).toMatchObject([{path: 'costs.reinforcements."glass grid"', line: expect.any(Number)}]);
  const misspelt = `${text}  reinforcements: {glas grid: {price_per_m2: 5}}\n`;
  expect(faults(misspelt)).toMatchObject([
    {path: 'costs.reinforcements."glas grid"', suggestion: "did you mean glass grid?"},
  ]);
  const told = study(`${text}  reinforcements: {glass grid: {price_per_m2: 5}}\n`).study.costs!;
  expect(told.prices.reinforcements).toEqual({"glass grid": 5});
  expect(told.treatments[1].renewal.reinforcement).toBe("glass grid");
});

describe("one fault each", () => {
  const cases: [what: string, text: string, path: string, says: RegExp, suggests?: RegExp][] = [
    [
      "unknown material",
      changed("    asphalt: {price", "    asphlat: {price"),
      "costs.materials.asphlat",
      /no material/,
      /asphalt/,
    ],
    ["no price", changed("    soft: {price_per_tonne: 150}\n", ""), "costs.materials.soft", /soft is laid/],
    [
      "price twice",
      changed("{price_per_m3: 200}", "{price_per_m3: 200, price_per_tonne: 85}"),
      "costs.materials.asphalt",
      /twice/,
    ],
    ["price neither way", changed("{price_per_m3: 200}", "{}"), "costs.materials.asphalt", /neither/],
    [
      "misspelt unit",
      changed("price_per_m3: 200", "price_per_m2: 200"),
      "costs.materials.asphalt.price_per_m2",
      /no such field/,
      /price_per_m3/,
    ],
    [
      "negative price",
      changed("price_per_m3: 200", "price_per_m3: -2"),
      "costs.materials.asphalt.price_per_m3",
      /0 or more/,
    ],
    ["no currency", changed("  currency: EUR\n", ""), "costs.currency", /missing/],
    ["no longest life", changed("  longest_life_years: 30\n", ""), "costs.longest_life_years", /missing/],
    ["rate of −100 %", changed("discount_percent: 3", "discount_percent: -100"), "costs.discount_percent", /−20/],
    [
      "planing without a price",
      changed("planing_per_m2: 1.5, planing_per_m2_and_mm: 0.05, ", ""),
      "costs.operations.planing_per_m2",
      /planed off/,
    ],
    [
      "renewal of no treatment",
      good + changed("with interlayer", "with interlayr", renewals),
      "costs.renewals[0].treatment",
      /no treatment/,
      /with interlayer/,
    ],
    [
      "renewal of no material",
      good + changed("{material: asphalt", "{material: asphat", renewals),
      "costs.renewals[0].layers[0].material",
      /no material/,
      /asphalt/,
    ],
    [
      "renewal twice",
      `${good + renewals}    - {treatment: with interlayer, planing_mm: 10}\n`,
      "costs.renewals[1].treatment",
      /twice/,
    ],
    [
      "carbon left out of a material",
      good + changed(", soft: {kg_CO2e_per_m3: 250}", "", carbon),
      "costs.carbon.materials.soft",
      /soft is laid/,
    ],
    [
      "carbon of an unknown material",
      good + changed("{asphalt: {kg", "{ashpalt: {kg", carbon),
      "costs.carbon.materials.ashpalt",
      /no material/,
      /asphalt/,
    ],
  ];
  for (const [what, text, path, says, suggests] of cases)
    test(what, () => {
      const found = faults(text);
      expect(found.map(fault => fault.path)).toEqual([path]);
      expect(found[0].problem).toMatch(says);
      expect(found[0].line).toBeGreaterThanOrEqual(lineOf(text, "costs:"));
      if (suggests) expect(found[0].suggestion).toMatch(suggests);
    });
});

test("worth a look: a negative rate, more planed off than laid", () => {
  expect(study(changed("discount_percent: 3", "discount_percent: -1")).warnings).toMatchObject([
    {path: "costs.discount_percent"},
  ]);
  const deep = changed("planing_mm: 40", "planing_mm: 60", renewals);
  expect(study(good + deep).warnings).toMatchObject([{path: "costs.renewals[0].planing_mm"}]);
});
