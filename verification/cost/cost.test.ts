import {describe, test} from "vitest";
import {
  annuityFactor,
  breakEven,
  type CostOptions,
  cashFlows,
  cheaperThan,
  costOf,
  discountFactor,
  presentWorth,
  type Rates,
  type TreatmentWorks,
  type Works,
} from "../../src/engine/cost/index.ts";
import {verificationTable} from "../table.ts";

const table = verificationTable(
  "cost",
  "Costs over a period",
  "Compound interest, renewals, what is left at the end and break-even prices, against published numbers and sums by hand. " +
    "All of it is closed arithmetic, so where a source prints all its digits only rounding is allowed, and otherwise half of its last digit.",
);
const {compare, heading, page} = table;

const LIBRARY = "example in the documentation of numpy-financial";
const TABLES = "interest tables of a textbook of engineering economy, 1/4 % (Appendix C, discrete compounding)";

describe("compound interest", () => {
  test("annuity factor", () => {
    const common = {unit: "1/year", standing: "derived"} as const;
    compare({
      ...common,
      name: "annuity of capital over 20 years at 5 %",
      source: "r/(1 − (1+r)⁻ⁿ) in 30 digits",
      expected: 0.0802425871906913,
      computed: annuityFactor(0.05, 20),
      tolerance: 1e-13,
    });
    compare({
      ...common,
      name: "20 periods at 1/4 %",
      source: TABLES,
      standing: "read",
      expected: 0.05132,
      computed: annuityFactor(0.0025, 20),
      tolerance: 1e-4, // half of the last digit
    });
    compare({
      ...common,
      name: "480 periods at 1/4 %",
      source: TABLES,
      standing: "read",
      expected: 0.00358,
      computed: annuityFactor(0.0025, 480),
      tolerance: 1.4e-3,
    });
    compare({
      name: "monthly payment for 200,000 over 15 years at 7.5 % a year",
      source: LIBRARY,
      standing: "read",
      unit: "cur",
      expected: 1854.0247200054619,
      computed: 200_000 * annuityFactor(0.075 / 12, 180),
      tolerance: 1e-12,
    });
  });

  test("limit of no interest", () => {
    const common = {source: "1/n·(1 + r·(n+1)/2) + O(r²)", standing: "derived", unit: "1/year"} as const;
    compare({
      ...common,
      name: "20 years at no interest",
      expected: 0.05,
      computed: annuityFactor(0, 20),
      tolerance: 1e-15,
    });
    for (const rate of [1e-14, 1e-9, -1e-9])
      compare({
        ...common,
        name: `20 years at r = ${rate}`,
        expected: 0.05 * (1 + 10.5 * rate),
        computed: annuityFactor(rate, 20),
        tolerance: 1e-14,
      });
    compare({
      ...common,
      source: "(1+r)⁻ᵗ = 0.98⁻¹⁰ in 30 digits",
      name: "discount factor of 10 years at −2 %",
      unit: "–",
      expected: 1.223881142011411,
      computed: discountFactor(-0.02, 10),
      tolerance: 1e-13,
    });
  });

  test("present worth", () => {
    compare({
      name: "−40,000 now, then 5000, 8000, 12,000 and 30,000 at 8 %",
      source: `${LIBRARY}, after Gitman (2003)`,
      standing: "read",
      unit: "cur",
      expected: 3065.22267,
      computed: presentWorth(
        [-40_000, 5000, 8000, 12_000, 30_000].map((amount, years) => ({years, amount})),
        0.08,
      ),
      tolerance: 2e-9,
    });
    compare({
      name: "single payment after 20 periods at 1/4 %",
      source: TABLES,
      standing: "read",
      unit: "–",
      expected: 0.9513,
      computed: discountFactor(0.0025, 20),
      tolerance: 5.3e-5,
    });
  });
});

/** One operation for a price: material by volume, a metre thick. */
function bought(material: string): Works {
  const layer = {name: material, role: "overlay", material, thickness: 1, density: 1} as const;
  return {layers: [layer], planedDepth: 0, reinforcement: null, cracking: false};
}

function rates(prices: Readonly<Record<string, number>>): Rates {
  return {
    materials: Object.fromEntries(
      Object.entries(prices).map(([name, rate]) => [name, {kind: "volume", rate} as const]),
    ),
    reinforcements: {},
    laying: 0,
    planing: {area: 0, volume: 0},
    cracking: 0,
    fixed: 0,
    trafficManagement: 0,
  };
}

const STRATEGY: TreatmentWorks = {
  name: "strategy",
  first: bought("construction"),
  renewal: bought("rehabilitation"),
  renewalLife: null,
};
const options = (discountRate: number, period: number): CostOptions => ({discountRate, period, longestLife: Infinity});

describe("life cycles", () => {
  test("two strategies for a pavement", () => {
    heading("Renewals, and what is left at the end");
    // Factors at 4 %: 10 years 0.6756, 15 years 0.5553, 20 years 0.4564, 30 years 0.3083, 35 years 0.2534
    const problem =
      "students’ problem of two pavement strategies (read, without its answer); sum by hand with four-digit interest factors";
    const common = {source: problem, standing: "derived", unit: "cur", tolerance: 1e-4} as const;
    compare({
      ...common,
      name: "1,000,000 now, 250,000 every 10 years, over 35 years at 4 %; 125,000 of the last is left",
      expected: 1_000_000 + 250_000 * (0.6756 + 0.4564 + 0.3083) - 125_000 * 0.2534,
      computed: costOf(
        {works: STRATEGY, rates: rates({construction: 1e6, rehabilitation: 250_000})},
        [10],
        options(0.04, 35),
      ).presentWorth[0],
    });
    compare({
      ...common,
      name: "1,200,000 now, 350,000 every 15 years; 10 of 15 years of the last are left",
      expected: 1_200_000 + 350_000 * (0.5553 + 0.3083) - (350_000 / 1.5) * 0.2534,
      computed: costOf(
        {works: STRATEGY, rates: rates({construction: 1.2e6, rehabilitation: 350_000})},
        [15],
        options(0.04, 35),
      ).presentWorth[0],
    });
  });

  test("what is left", () => {
    const flows = cashFlows({first: 1e6, renewal: 325_000}, {life: 15, renewalLife: 15, period: 35});
    compare({
      name: "left of 325,000 spent after 30 years that last 15, after 35",
      source: "straight line: 325,000·(1 − 5/15)",
      standing: "derived",
      unit: "cur",
      expected: 650_000 / 3,
      computed: -flows[3].amount,
      tolerance: 1e-13,
    });
  });

  test("lives that are no whole years", () => {
    const unit = rates({construction: 1, rehabilitation: 1});
    compare({
      name: "7.5 years in 20 at 5 %, each costing 1",
      source: "1 + 1/√1.05¹⁵ + 1/1.05¹⁵ − (1/3)/1.05²⁰ in 30 digits",
      standing: "derived",
      unit: "cur",
      expected: 2.04894123238378,
      computed: costOf({works: STRATEGY, rates: unit}, [7.5], options(0.05, 20)).presentWorth[0],
      tolerance: 1e-13,
    });
    // A renewal that is made the moment before the end is left whole, and so costs nothing but its interest
    const [before, after] = [20 - 1e-9, 20].map(
      life => costOf({works: STRATEGY, rates: unit}, [life], options(0.05, 20)).presentWorth[0],
    );
    compare({
      name: "a life of just less than the period costs as much as one of all of it",
      source: "a renewal at the end is left whole",
      standing: "derived",
      unit: "cur",
      expected: after,
      computed: before,
      tolerance: 1e-9,
    });
    // Lives for ever at no interest: value used up in proportion to time
    compare({
      name: "no interest: 30 years of lives of 7 at a price of 3.5 a life",
      source: "30/7·3.5: without interest each year costs the same",
      standing: "derived",
      unit: "cur",
      expected: 15,
      computed: costOf({works: STRATEGY, rates: rates({construction: 3.5, rehabilitation: 3.5})}, [7], options(0, 30))
        .presentWorth[0],
      tolerance: 1e-13,
    });
  });

  test("annual cost of a strategy that repeats itself", () => {
    compare({
      name: "annual cost of 100 every 8 years over 40 years at 6 %, against that of one life",
      source: "over whole lives both are 100·r/(1 − (1+r)⁻⁸)",
      standing: "derived",
      unit: "cur/year",
      expected: 100 * annuityFactor(0.06, 8),
      computed: costOf(
        {works: STRATEGY, rates: rates({construction: 100, rehabilitation: 100})},
        [8],
        options(0.06, 40),
      ).annual[0],
      tolerance: 1e-13,
    });
  });
});

const overlay = {name: "overlay", role: "overlay", material: "overlay", thickness: 0.05, density: 2400} as const;
const interlayer = {name: "interlayer", role: "interlayer", material: "soft", thickness: 0.02, density: 2300} as const;
const works = (layers: Works["layers"], planedDepth: number): Works => ({
  layers,
  planedDepth,
  reinforcement: null,
  cracking: false,
});
const CONTROL: TreatmentWorks = {
  name: "control",
  first: works([overlay], 0),
  renewal: works([overlay], 0.05),
  renewalLife: null,
};
const TREATED: TreatmentWorks = {
  name: "treated",
  first: works([overlay, interlayer], 0),
  renewal: works([overlay, interlayer], 0.05),
  renewalLife: null,
};
/** An overlay of 10 and planing of 2 a square metre; the interlayer has its price. */
const priced = (price: number): Rates => ({
  ...rates({overlay: 200, soft: price}),
  planing: {area: 1, volume: 20},
});

describe("break-even", () => {
  const level = (lives: readonly [treated: readonly number[], control: readonly number[]], chosen: CostOptions) =>
    breakEven({
      treated: TREATED,
      control: CONTROL,
      rates: priced(100),
      lives: {treated: lives[0], control: lives[1]},
      options: chosen,
    })!;
  const common = {standing: "derived", unit: "cur/m²", tolerance: 1e-12} as const;

  test("by hand", () => {
    heading("Break-even price of an interlayer");
    const once = level([[30], [15]], options(0.04, 30));
    compare({
      ...common,
      name: "30 years instead of 15 in 30, at 4 %",
      source: "the renewal of 12 after 15 years that it saves: 12/1.04¹⁵ in 30 digits",
      expected: 6.6631740325593,
      computed: once.perArea,
    });
    compare({
      ...common,
      name: "the same, of an interlayer of 20 mm",
      unit: "cur/m³",
      source: "12/1.04¹⁵/0.02",
      expected: 333.158701627965,
      computed: once.perVolume!,
    });
    compare({
      ...common,
      name: "20 years instead of 10 in 40, without interest",
      source: "46 = 22 + 2·p",
      expected: 12,
      computed: level([[20], [10]], options(0, 40)).perArea,
    });
    compare({
      ...common,
      name: "as long a life as without",
      source: "it is worth nothing",
      expected: 0,
      computed: level([[11.3], [11.3]], options(0.03, 40)).perArea,
      absolute: true,
    });
  });

  test("with 85 % probability, by hand", () => {
    const draws = (without: number) => Array.from({length: 21}, (_, k) => (k < without ? 15 : 30));
    const control = Array.from({length: 21}, () => 15);
    const source = "of 21 prices in order the fourth, 0.15·20 = 3 from the least";
    compare({
      ...common,
      name: "3 draws of 21 without any gain",
      source,
      expected: 6.6631740325593,
      computed: level([draws(3), control], options(0.04, 30)).perAreaSure,
    });
    compare({
      ...common,
      name: "4 draws of 21 without any gain",
      source,
      expected: 0,
      computed: level([draws(4), control], options(0.04, 30)).perAreaSure,
      absolute: true,
    });
  });

  test("at that price both cost the same", () => {
    const lives = [9.3, 14.2, 22.8, 31.5, 17.7];
    const shorter = lives.map((v, k) => v / (1.2 + 0.1 * k));
    for (const rate of [-0.01, 0, 0.03, 0.08]) {
      const chosen = options(rate, 40);
      const {perVolume} = level([lives, shorter], chosen);
      const mean = (w: TreatmentWorks, of: readonly number[]) =>
        costOf({works: w, rates: priced(perVolume!)}, of, chosen).summary.presentWorth.mean;
      compare({
        ...common,
        name: `mean present worth of five draws at the break-even price, r = ${rate}`,
        source: "that of the control",
        expected: mean(CONTROL, shorter),
        computed: mean(TREATED, lives),
      });
    }
  });

  test("one or the other is cheaper", () => {
    const random = Array.from({length: 1000}, (_, k) => 5 + 30 * ((k * 0.6180339887) % 1)); // evenly spread
    const other = Array.from({length: 1000}, (_, k) => 5 + 30 * ((k * 0.4142135624) % 1));
    const [a, b] = [random, other].map(
      of => costOf({works: CONTROL, rates: priced(100)}, of, options(0.03, 40)).presentWorth,
    );
    compare({
      name: "two treatments alike, lives spread evenly and independently: how often one is cheaper",
      source: "symmetry, within the unevenness of 1000 draws",
      standing: "derived",
      unit: "–",
      expected: 0.5,
      computed: cheaperThan(a, b).cheaper,
      tolerance: 0.02,
      absolute: true,
    });
    compare({
      name: "the same the other way round, and ties, together",
      source: "one of the three holds in each draw",
      standing: "derived",
      unit: "–",
      expected: 1,
      computed: cheaperThan(a, b).cheaper + cheaperThan(b, a).cheaper + cheaperThan(a, b).equal,
      tolerance: 1e-14,
    });
  });
});

page();
