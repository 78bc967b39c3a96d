import {parseHTML} from "linkedom";
import {expect, test} from "vitest";
import type {Costs, TreatmentWorks} from "../../../src/engine/cost/index.ts";
import type {LifeResult} from "../../../src/engine/life/types.ts";
import {cumulated} from "../../../src/report/charts/costs.ts";
import {money} from "../../../src/report/format.ts";
import {lifeReport, lifeTable} from "../../../src/report/index.ts";
import {type FixtureOptions, fixture} from "./fixture.ts";

const {document} = parseHTML("<!doctype html><html><body></body></html>");

const overlay = {name: "overlay", role: "overlay", material: "dense", thickness: 0.05, density: 2400} as const;
const soft = {name: "soft course", role: "interlayer", material: "soft", thickness: 0.01, density: 2300} as const;

function works(name: string, layers: TreatmentWorks["first"]["layers"]): TreatmentWorks {
  const first = {layers, planedDepth: 0, reinforcement: null, cracking: false};
  return {name, first, renewal: {...first, planedDepth: 0.05}, renewalLife: null};
}

const COSTS: Costs = {
  currency: "k<€>",
  priceDate: "spring & summer",
  discountRate: 0.04,
  period: 30,
  longestLife: 20,
  prices: {
    materials: {dense: {kind: "volume", rate: 200}, soft: {kind: "volume", rate: 400}},
    reinforcements: {},
    laying: 1,
    planing: {area: 2, volume: 0},
    cracking: 0,
    fixed: 0,
    trafficManagement: 3,
  },
  carbon: null,
  treatments: [works("plain", [overlay]), works("treated", [overlay, soft])],
};

function priced(costs: Partial<Costs> = {}, options: FixtureOptions = {}): LifeResult {
  const result = fixture({
    lives: [
      [20, 90, 15],
      [90, 400, 80],
    ],
    fatigue: 45,
    ...options,
  });
  return {...result, study: {...result.study, costs: {...COSTS, ...costs}}};
}

function report(result: LifeResult): string {
  const context = {document, software: "0", inputHash: "0", date: "today", sources: {}, warnings: []};
  return lifeReport(result, context).replaceAll("\u00a0", " ");
}

test("without prices nothing is said of costs", () => {
  expect(report(fixture())).not.toMatch(/What it costs|Costs are as good/);
  expect(lifeTable(fixture(), {colour: false, width: 90})).not.toContain("Costs");
});

test("table, verdict and caution", () => {
  const page = report(priced());
  expect(page).toContain("<h2>What it costs</h2>");
  // 200·0.05 + 1 + 3 = 14 at first, 16 each time; 15 of 30 years: 14 + 16/1.04^15 = 22.884, by hand
  expect(page).toMatch(/plain[\s\S]*?14\.00[\s\S]*?15[\s\S]*?16\.00[\s\S]*?22\.88/);
  expect(page).toContain("other causes are taken to end it by then"); // 45 years count as 20
  expect(page).toMatch(/Its interlayer costs 4\.00 k&lt;€&gt;\/m²/);
  expect(page).toContain("spring &amp; summer.");
  expect(page).toContain("were not checked");
  expect(page).not.toContain("k<€>"); // escaped in the figure as well
  expect(page).not.toContain("Embodied carbon");
});

test("carbon has its table", () => {
  const page = report(priced({carbon: {...COSTS.prices, materials: COSTS.prices.materials}}));
  expect(page).toContain("Embodied carbon");
});

test("an interlayer that gains nothing is not worth having as a gift", () => {
  const same = priced({}, {lives: [[20, 90, 15]], fatigue: 90});
  expect(report(same)).toContain("would be dearer even if the interlayer were free");
  expect(lifeTable(same, {colour: false, width: 200})).toContain("interlayer not worth having even as a gift");
});

test("a line for each treatment under its lives, within the width", () => {
  const text = lifeTable(priced({currency: "EUR"}), {colour: false, width: 200}).replaceAll("\n  ", " ");
  expect(text).toContain("Costs: 14.00 EUR/m² at first, one renewal in 30 years; present worth 22.88, 1.32 a year.");
  expect(text).toMatch(
    /one renewal in 30 years \(life counted as 20 years\); present worth .* interlayer worth up to \d+ EUR\/m³\./,
  );
  for (const width of [32, 60, 90])
    for (const line of lifeTable(priced(), {colour: false, width}).split("\n"))
      expect(line.length).toBeLessThanOrEqual(Math.max(38, width));
});

test("a negative rate is told", () => {
  expect(lifeTable(priced({discountRate: -0.01}), {colour: false, width: 200})).toContain("Warning: The discount rate");
  expect(report(priced({discountRate: -0.01}))).toContain("costs to come count more");
});

test("the steps add up to the present worth", () => {
  const flows = [
    {kind: "first", years: 0, amount: 10},
    {kind: "renewal", years: 10, amount: 12},
    {kind: "residual", years: 15, amount: -6},
  ] as const;
  expect(cumulated(flows, 0).map(s => s.sum)).toEqual([10, 22, 16]);
  expect(cumulated(flows, 0.05)[1].sum).toBeCloseTo(10 + 12 / 1.05 ** 10, 12);
});

test("money to the hundredth, and whole from a thousand on", () => {
  expect([0, 0.854, 23.449, 999.994, 999.996, 1234.5, -7.9, 123_456.7].map(money)).toEqual([
    "0.00",
    "0.85",
    "23.45",
    "999.99",
    "1,000",
    "1,235",
    "−7.90",
    "123,500",
  ]);
});
