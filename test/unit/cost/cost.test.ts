import {describe, expect, test} from "vitest";
import {
  annuityFactor,
  breakEven,
  type CostOptions,
  cashFlows,
  cheaperThan,
  costOf,
  discountFactor,
  operationCost,
  operationItems,
  presentWorth,
  type Rates,
  schedule,
  studyCosts,
  type TreatmentWorks,
  type Works,
  worthWeights,
} from "../../../src/engine/cost/index.ts";

const RATES: Rates = {
  materials: {dense: {kind: "volume", rate: 200}, soft: {kind: "mass", rate: 0.2}},
  reinforcements: {grid: 6},
  laying: 1,
  planing: {area: 1.5, volume: 50},
  cracking: 3,
  fixed: 0.5,
  trafficManagement: 2,
};

const NOTHING: Works = {layers: [], planedDepth: 0, reinforcement: null, cracking: false};
const dense = {name: "overlay", role: "overlay", material: "dense", thickness: 0.05, density: 2400} as const;
const soft = {name: "interlayer", role: "interlayer", material: "soft", thickness: 0.01, density: 2300} as const;

const PLAIN: TreatmentWorks = {
  name: "plain",
  first: {...NOTHING, layers: [dense]},
  renewal: {...NOTHING, layers: [dense], planedDepth: 0.05},
  renewalLife: null,
};
const TREATED: TreatmentWorks = {
  name: "treated",
  first: {...NOTHING, layers: [dense, soft]},
  renewal: {...NOTHING, layers: [dense, soft], planedDepth: 0.06},
  renewalLife: null,
};
const OPTIONS: CostOptions = {discountRate: 0.04, period: 30, longestLife: Infinity};

describe("an operation", () => {
  test("items by hand", () => {
    const works: Works = {layers: [dense, soft], planedDepth: 0.04, reinforcement: "grid", cracking: true};
    // planing 1.5 + 50·0.04; cracking 3; 200·0.05; 0.2·2300·0.01; grid 6; two courses; 0.5; 2
    expect(
      operationItems(works, RATES).map(({what, name, amount}) => [what, name, Number(amount.toFixed(10))]),
    ).toEqual([
      ["planing", "", 3.5],
      ["cracking", "", 3],
      ["material", "overlay", 10],
      ["material", "interlayer", 4.6],
      ["reinforcement", "grid", 6],
      ["laying", "", 2],
      ["fixed", "", 0.5],
      ["traffic management", "", 2],
    ]);
    expect(operationCost(works, RATES)).toBeCloseTo(31.6, 12);
  });

  test("a rate that is missing or negative is refused", () => {
    expect(() => operationCost({...NOTHING, layers: [{...dense, material: "other"}]}, RATES)).toThrow(/got other/);
    expect(() => operationCost({...NOTHING, reinforcement: "mesh"}, RATES)).toThrow(/got mesh/);
    expect(() => operationCost(PLAIN.first, {...RATES, laying: -1})).toThrow(/laying: got -1/);
    expect(() => operationCost({...NOTHING, planedDepth: Number.NaN}, RATES)).toThrow(/planedDepth/);
  });
});

describe("renewals", () => {
  const at = (life: number, period: number, renewalLife = life) => schedule({life, renewalLife, period});

  test("come at the end of each life before the end of the period, and not at it", () => {
    expect(at(10, 30)).toEqual({count: 2, left: 0});
    expect(at(20 / 3, 20)).toEqual({count: 2, left: 0}); // 3 · 20/3 is 20, whatever rounding says
    expect(at(30, 30)).toEqual({count: 0, left: 0});
    expect(at(0.1, 0.7).count).toBe(6);
    expect(at(7, 20)).toEqual({count: 2, left: expect.closeTo(1 / 7, 12)}); // 7, 14; the last to 21
    expect(at(40, 30)).toEqual({count: 0, left: 0.25});
    expect(at(10, 30, 15)).toEqual({count: 2, left: expect.closeTo(10 / 15, 12)}); // 10, 25; the last to 40
  });

  test("lives without end", () => {
    expect(at(Infinity, 30)).toEqual({count: 0, left: 1});
    expect(at(10, 30, Infinity)).toEqual({count: 1, left: 1});
    expect(costOf({works: PLAIN, rates: RATES}, [Infinity], {...OPTIONS, longestLife: 60})).toEqual(
      expect.objectContaining({
        capped: 1,
        presentWorth: costOf({works: PLAIN, rates: RATES}, [60], OPTIONS).presentWorth,
      }),
    );
  });

  test("no life and negative lives are refused", () => {
    for (const life of [0, -1, Number.NaN]) expect(() => at(life, 30)).toThrow(/life: got/);
    expect(() => at(5, Infinity)).toThrow(/period/);
  });

  test("the closed sum is the sum of the payments one by one", () => {
    for (const rate of [-0.02, 0, 1e-9, 0.03, 0.2])
      for (const [life, renewalLife] of [
        [3.7, 3.7],
        [0.013, 0.013],
        [12.5, 4.2],
        [35, 1],
        [4, Infinity],
      ]) {
        const cycle = {life, renewalLife, period: 30};
        const weights = worthWeights(cycle, rate);
        const listed = presentWorth(cashFlows({first: 11, renewal: 7}, cycle), rate);
        const closed = 11 * weights.first + 7 * weights.renewal;
        expect(Math.abs(closed / listed - 1), `${rate} ${life}`).toBeLessThan(1e-12);
      }
  });

  test("too many to list", () => {
    expect(() => cashFlows({first: 1, renewal: 1}, {life: 1e-4, renewalLife: 1e-4, period: 30})).toThrow(
      /at most 10000/,
    );
    expect(worthWeights({life: 1e-4, renewalLife: 1e-4, period: 30}, 0).renewal).toBeCloseTo(299_999, 5);
  });
});

describe("a sample of lives", () => {
  const lives = Float64Array.from({length: 400}, (_, k) => 4 + ((k * 7919) % 400) / 20);

  test("a constant sample has no spread, and its mean is the value to the last bit", () => {
    const {
      presentWorth: worth,
      annual,
      summary,
    } = costOf({works: PLAIN, rates: RATES}, new Float64Array(7).fill(9.3), OPTIONS);
    expect(summary.presentWorth.mean).toBe(worth[3]);
    expect(new Set(summary.presentWorth.quantiles.map(q => q.value))).toEqual(new Set([worth[0]]));
    expect(annual[0] / annuityFactor(0.04, 30)).toBeCloseTo(worth[0], 12);
  });

  test("longer lives cost less: present worth falls with life, the residual taking out the jumps", () => {
    const rising = Float64Array.from({length: 600}, (_, k) => 1 + k / 10);
    const {presentWorth: worth} = costOf({works: PLAIN, rates: RATES}, rising, {...OPTIONS, discountRate: 0});
    for (let k = 1; k < rising.length; k++) if (rising[k] >= 30) expect(worth[k]).toBeLessThanOrEqual(worth[k - 1]);
    expect(worth[0]).toBeGreaterThan(3 * worth[599]);
  });

  test("one or the other is cheaper, or neither", () => {
    const a = costOf({works: PLAIN, rates: RATES}, lives, OPTIONS).presentWorth;
    const b = costOf(
      {works: TREATED, rates: RATES},
      lives.map(v => 1.35 * v),
      OPTIONS,
    ).presentWorth;
    const [ab, ba] = [cheaperThan(a, b), cheaperThan(b, a)];
    expect(ab.cheaper + ba.cheaper + ab.equal).toBeCloseTo(1, 14);
    expect(ab.equal).toBe(ba.equal);
    expect(cheaperThan(a, a)).toEqual({cheaper: 0, equal: 1});
    expect(cheaperThan(Float64Array.of(1, 2, 3, 4), Float64Array.of(2, 2, 2, 2))).toEqual({cheaper: 0.25, equal: 0.25});
    expect(() => cheaperThan(a, a.subarray(1))).toThrow(/as many/);
  });

  test("a negative rate works and is told", () => {
    const told = costOf({works: PLAIN, rates: RATES}, [10], {...OPTIONS, discountRate: -0.01});
    expect(told.warnings).toHaveLength(1);
    expect(told.presentWorth[0]).toBeGreaterThan(costOf({works: PLAIN, rates: RATES}, [10], OPTIONS).presentWorth[0]);
    expect(() => costOf({works: PLAIN, rates: RATES}, [10], {...OPTIONS, discountRate: -1})).toThrow(/discountRate/);
    expect(() => costOf({works: PLAIN, rates: RATES}, [], OPTIONS)).toThrow(/lives.length/);
  });

  const request = {treated: TREATED, control: PLAIN, rates: RATES, options: OPTIONS};

  test("at the break-even price both cost the same in the mean; at the sure one it is not dearer in 85 % of draws", () => {
    const longer = lives.map((v, k) => v * (1.1 + ((k * 31) % 97) / 100));
    const level = breakEven({...request, lives: {treated: longer, control: lives}})!;
    const priced = (price: number) => {
      const rates: Rates = {...RATES, materials: {...RATES.materials, soft: {kind: "volume", rate: price}}};
      return costOf({works: TREATED, rates}, longer, OPTIONS);
    };
    const control = costOf({works: PLAIN, rates: RATES}, lives, OPTIONS);
    expect(priced(level.perVolume!).summary.presentWorth.mean).toBeCloseTo(control.summary.presentWorth.mean, 9);
    const dearer = (price: number) => cheaperThan(control.presentWorth, priced(price).presentWorth).cheaper;
    expect(dearer(level.perVolumeSure!)).toBeGreaterThan(0.14);
    expect(dearer(level.perVolumeSure!)).toBeLessThan(0.16);
    expect(level.perAreaSure).toBeLessThan(level.perArea);
    expect(level.perArea / level.perVolume!).toBeCloseTo(0.01, 12);
    expect(level.paid).toBeCloseTo(4.6, 12);
  });

  test("nothing to bring level", () => {
    const same = {treated: [10], control: [10]};
    expect(breakEven({...request, treated: PLAIN, lives: same})).toBeNull();
    expect(breakEven({...request, control: TREATED, lives: same})).toBeNull(); // the control has one as well
    // All of it is left at the end, undiscounted: its price does not matter
    const forEver = {treated: [Infinity], control: [10]};
    expect(breakEven({...request, options: {...OPTIONS, discountRate: 0}, lives: forEver})).toBeNull();
    expect(breakEven({...request, lives: same})!.perArea).toBeLessThan(0); // one course more to lay, no gain
    expect(() => breakEven({...request, lives: same, probability: 1})).toThrow(/probability/);
    expect(() => breakEven({...request, lives: {treated: [1, 2], control: [1]}})).toThrow(/as many/);
  });

  test("a reinforcement by area: with the same lives what else it saves is nothing", () => {
    const grid = (works: Works): Works => ({...works, reinforcement: "grid"});
    const treated = {...PLAIN, first: grid(PLAIN.first), renewal: grid(PLAIN.renewal)};
    const level = breakEven({...request, treated, lives: {treated: [10], control: [10]}})!;
    expect(level).toMatchObject({subject: "reinforcement", perVolume: null, paid: 6});
    expect(level.perArea).toBeCloseTo(0, 12);
    // Twice the life of 15 in 30 years: it may cost as much as the renewal at 15 that it saves, 16.5 + 1 = 17.5 today's
    const twice = breakEven({...request, treated, lives: {treated: [30], control: [15]}})!;
    expect(twice.perArea).toBeCloseTo(operationCost(PLAIN.renewal, RATES) * discountFactor(0.04, 15), 12);
  });
});

describe("costs of a study", () => {
  const costs = {
    ...OPTIONS,
    currency: "cur",
    priceDate: "now",
    prices: RATES,
    carbon: {...RATES, planing: {area: 0, volume: 0}},
    treatments: [PLAIN, TREATED],
  };
  const result = (...years: number[]) => ({
    study: {costs},
    treatments: years.map(y => ({governing: {life: {years: y}}})),
  });

  test("none without prices", () => {
    expect(studyCosts({...result(10, 20), study: {costs: null}})).toBeNull();
  });

  test("one life is a sample of one, and carbon is not discounted", () => {
    const told = studyCosts(result(9, 21))!;
    const {presentWorth: worth} = costOf({works: TREATED, rates: RATES}, [21], OPTIONS);
    expect(told.treatments[1].presentWorth).toBe(worth[0]);
    expect(told.treatments[0].breakEven).toBeNull();
    expect(presentWorth(told.treatments[1].flows, 0.04)).toBeCloseTo(worth[0], 12);
    // 9, 18, 27 of 13.5: the last one half a third used: 36 − 30 of 9 years left
    expect(told.treatments[0].carbon!.total).toBeCloseTo(13.5 + 3 * 13.5 - (6 / 9) * 13.5, 12);
    expect(told.treatments[0].carbon!.annual).toBeCloseTo(told.treatments[0].carbon!.total / 30, 12);
  });

  test("lives below a year are told, and are not drawn one by one", () => {
    const told = studyCosts(result(0.5, 1e-4))!;
    expect(told.warnings).toHaveLength(2);
    expect(told.treatments.map(t => t.flows.length > 0)).toEqual([true, false]);
  });

  test("works and lives of other treatments", () => {
    expect(() => studyCosts(result(10))).toThrow(/costs.treatments.length: got 2/);
  });
});
