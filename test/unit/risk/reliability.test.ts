import fc from "fast-check";
import {expect, test} from "vitest";
import {
  censoredAt,
  fan,
  geometricMean,
  lifeAtReliability,
  lifeOfReplicates,
  orderedLives,
  ratioOf,
  replicated,
  type SampledLife,
  survivalOf,
  survivalOfReplicates,
} from "../../../src/engine/risk/index.ts";
import {shareInterval} from "../../../src/engine/risk/ordered.ts";

const ended = (...years: number[]): SampledLife[] => years.map(one => ({years: one, censored: false}));
const longer = (count: number, years: number): SampledLife[] => Array(count).fill({years, censored: true});

test("life at a reliability is the quantile of the lives, each in the middle of its share", () => {
  const lives = ended(5, 1, 2, 4, 3); // shares of 20 %: 1 is the quantile at 10 %, 3 at 50 %
  expect(lifeAtReliability(lives, 0.9).life).toEqual({low: 1, high: 1});
  expect(lifeAtReliability(lives, 0.5).life).toEqual({low: 3, high: 3});
  expect(lifeAtReliability(lives, 0.6).life.low).toBeCloseTo(2.5, 12);
  expect(lifeAtReliability(lives, 0.1).life).toEqual({low: 5, high: 5});
});

test("too few samples for so high a reliability: only that it is shorter than the shortest", () => {
  expect(lifeAtReliability(ended(5, 1, 2, 4, 3), 0.95).life).toEqual({low: 0, high: 1});
  expect(lifeAtReliability(ended(5, 1, 2, 4, 3), 0.05).life).toEqual({low: 5, high: Infinity});
  const one = lifeAtReliability(ended(8), 0.5);
  expect(one.life).toEqual({low: 8, high: 8});
  expect(one.logError).toBeNull();
  expect(one.interval).toEqual({low: 0, high: Infinity});
  expect(lifeAtReliability(ended(8), 0.9).life).toEqual({low: 0, high: 8});
});

test("censored lives leave a lower bound", () => {
  const lives = [...ended(10, 20, 30), ...longer(7, 40)];
  expect(lifeAtReliability(lives, 0.75).life).toEqual({low: 30, high: 30});
  expect(lifeAtReliability(lives, 0.7).life).toEqual({low: expect.closeTo(35, 12), high: Infinity}); // between 30 and something over 40
  expect(lifeAtReliability(lives, 0.5).life).toEqual({low: 40, high: Infinity});
  const all = lifeAtReliability(longer(20, 40), 0.9);
  expect(all.life).toEqual({low: 40, high: Infinity});
  expect(all.logError).toBeNull();
  expect(all.interval.high).toBe(Infinity);
  expect(lifeAtReliability(longer(1, 40), 0.9).life).toEqual({low: 0, high: Infinity}); // one sample says nothing of 90 %
});

test("what the horizon hides does not change what is below it", () => {
  const life = fc.integer({min: 1, max: 1000});
  fc.assert(
    fc.property(
      fc.array(life, {minLength: 1, maxLength: 40}),
      life,
      fc.double({min: 0.02, max: 0.98, noNaN: true}),
      (all, h, r) => {
        const whole = lifeAtReliability(ended(...all), r);
        const cut = lifeAtReliability(censoredAt(ended(...all), h), r);
        expect(cut.life.low).toBeLessThanOrEqual(whole.life.low);
        expect(cut.life.high).toBeGreaterThanOrEqual(whole.life.high);
        expect(cut.interval.low).toBeLessThanOrEqual(whole.interval.low);
        expect(cut.interval.high).toBeGreaterThanOrEqual(whole.interval.high);
        if (cut.life.low === cut.life.high) expect(cut.life).toEqual(whole.life);
      },
    ),
  );
});

test("lives that cannot be are refused", () => {
  expect(() => orderedLives([])).toThrow("lives.length: got 0, need ≥ 1");
  expect(() => orderedLives(ended(1, Number.NaN))).toThrow("lives[1].years: got NaN, need finite, ≥ 0");
  expect(() => orderedLives(ended(-1))).toThrow("lives[0].years");
  expect(() => orderedLives([...ended(50), ...longer(1, 40)])).toThrow("got 50, need ≤ 40, the horizon of those");
  expect(() => lifeAtReliability(ended(1), 1)).toThrow("reliability: got 1, need in (0, 1)");
  expect(() => lifeAtReliability(ended(1), Number.NaN)).toThrow("reliability");
  expect(() => censoredAt(longer(1, 30), 40)).toThrow("lives[0].years: got 30, need ≥ 40");
  expect(() => censoredAt(ended(1), 0)).toThrow("horizon");
  expect(lifeAtReliability(ended(0, 0, 0), 0.5)).toMatchObject({life: {low: 0, high: 0}, logError: null});
});

test("survival counts the longer lives", () => {
  const lives = [...ended(10, 20, 30), ...longer(7, 40)];
  expect(survivalOf(lives, 20).probability).toBe(0.8); // 20 itself is not longer than 20
  expect(survivalOf(lives, 19.9).probability).toBe(0.9);
  expect(survivalOf(lives, 40).probability).toBe(0.7);
  expect(survivalOf(lives, 0).probability).toBe(1);
  expect(() => survivalOf(lives, 41)).toThrow("years: got 41, need 0 to 40, the horizon");
  expect(() => survivalOf(ended(1), Infinity)).toThrow("years");
  expect(() => survivalOf(lives, Number.NaN)).toThrow("years");
  expect(survivalOf(ended(1), 50).probability).toBe(0);
});

test("none lost is not certainty", () => {
  const {probability, error, interval} = survivalOf(longer(20, 40), 40);
  expect(probability).toBe(1);
  expect(error).toBeGreaterThan(0.02);
  expect(interval.low).toBeCloseTo(0.05 ** (1 / 20), 10); // closed form: p^n = tail
  expect(interval.high).toBe(1);
});

// Beta quantiles of SciPy 1.17.1: beta.ppf(0.05, k, n − k + 1), beta.ppf(0.95, k + 1, n − k).
test("intervals of a share are those of the beta distribution", () => {
  for (const [k, n, low, high] of [
    [0, 10, 0, 0.2588655508930522],
    [3, 20, 0.04216940778587861, 0.3436638043142818],
    [977, 1000, 0.9675711295586809, 0.9842307306846954],
    [19990, 20000, 0.9991520366561334, 0.9997287054684337],
  ]) {
    expect(shareInterval(k, n, 0.9).low).toBeCloseTo(low, 9);
    expect(shareInterval(k, n, 0.9).high).toBeCloseTo(high, 9);
  }
});

test("a geometric mean only where all is known", () => {
  expect(geometricMean(ended(1, 4, 16))?.years).toBeCloseTo(4, 12);
  expect(geometricMean(ended(1, 4, 16))?.logDeviation).toBeCloseTo(Math.log(4), 12);
  expect(geometricMean(ended(5))).toEqual({years: expect.closeTo(5, 12), logDeviation: null, logError: null});
  expect(geometricMean([...ended(1, 4), ...longer(1, 16)])).toBeNull();
  expect(() => geometricMean(ended(0, 1))).toThrow("lives > 0");
});

test("ratios sample by sample, with bounds where a life is censored", () => {
  const first = [...ended(20, 30), ...longer(1, 40), ...ended(10), ...longer(1, 40)];
  const second = [...ended(10, 10, 10), ...longer(2, 40)];
  // 2, 3, > 4, < 0.25, unknown
  const {quantiles, longer: share, exact, geometricMean: mean} = ratioOf({first, second}, [0.1, 0.5, 0.9]);
  expect(quantiles.map(one => one.ratio)).toEqual([
    {low: 0, high: 0.25},
    {low: 2, high: 3},
    {low: 4, high: Infinity},
  ]);
  expect(share).toEqual({low: 0.6, high: 0.8});
  expect(exact).toBe(2);
  expect(mean).toBeNull();
});

test("ratios without censoring are exact", () => {
  const {
    quantiles,
    longer: share,
    geometricMean: mean,
  } = ratioOf({first: ended(2, 8, 9), second: ended(1, 1, 9)}, [0.5]);
  expect(quantiles[0].ratio).toEqual({low: 2, high: 2});
  expect(share).toEqual({low: 2 / 3, high: 2 / 3});
  expect(mean).toBeCloseTo(16 ** (1 / 3), 12);
  const none = ratioOf({first: longer(3, 40), second: longer(3, 40)}, [0.5]);
  expect(none.quantiles[0].ratio).toEqual({low: 0, high: Infinity});
  expect(none.longer).toEqual({low: 0, high: 1});
  const one = ratioOf({first: longer(1, 40), second: ended(40)}, [0.5]);
  expect(one.longer).toEqual({low: 1, high: 1}); // longer than 40 over 40
});

test("ratios that cannot be are refused", () => {
  expect(() => ratioOf({first: ended(1), second: ended(1, 2)}, [0.5])).toThrow("second.length: got 2, need 1");
  expect(() => ratioOf({first: ended(0), second: ended(1)}, [0.5])).toThrow("first[0].years: got 0, need > 0");
  expect(() => ratioOf({first: ended(1), second: ended(0)}, [0.5])).toThrow("second[0].years: got 0, need > 0");
  expect(() => ratioOf({first: [], second: []}, [0.5])).toThrow("first.length");
  expect(() => ratioOf({first: ended(1), second: ended(1)}, [0])).toThrow("probabilities");
});

test("replicates give their mean and its error", () => {
  const {mean, error, interval} = replicated([1, 2, 3, 4]);
  expect(mean).toBe(2.5);
  expect(error).toBeCloseTo(Math.sqrt(5 / 3 / 4), 12);
  expect(interval.high - 2.5).toBeCloseTo(2.3533634348 * error, 8); // t(0.95; 3), tables, from memory
  expect(() => replicated([1])).toThrow("estimates.length: got 1, need ≥ 2");
  expect(() => replicated([1, Number.NaN])).toThrow("estimates[1]");
});

test("life and survival from replicates take their error from the spread, where there is one", () => {
  const sets = [ended(1, 2, 4), ended(1, 3, 4)];
  const life = lifeOfReplicates(sets, 0.5);
  expect(life.life).toEqual(lifeAtReliability(sets.flat(), 0.5).life);
  expect(life.logError).toBeCloseTo(Math.log(1.5) / 2, 12); // s/√2 of ln 2 and ln 3
  expect(life.errorFrom).toBe("replicates");
  expect(lifeOfReplicates([sets[0], sets[0]], 0.5).errorFrom).toBe("independent samples");
  expect(lifeOfReplicates([sets[0]], 0.5)).toEqual({
    ...lifeAtReliability(sets[0], 0.5),
    errorFrom: "independent samples",
  });
  expect(lifeOfReplicates([sets[0], longer(3, 5)], 0.4).errorFrom).toBe("independent samples");
  // All together tell it, the third alone does not.
  const half = [...ended(1), ...longer(3, 5)];
  const partly = lifeOfReplicates([ended(1, 2, 3, 4), ended(1, 2, 4, 4), half], 0.6);
  expect(partly.life.low).toBe(partly.life.high);
  expect(partly.errorFrom).toBe("independent samples");
  const survival = survivalOfReplicates(sets, 2.5);
  expect(survival).toMatchObject({probability: 0.5, errorFrom: "replicates", interval: {low: 0, high: 1}});
  expect(survival.error).toBeCloseTo(1 / 6, 12);
  expect(survivalOfReplicates(sets, 0.5).errorFrom).toBe("independent samples");
  expect(survivalOfReplicates(sets, 0.5).error).toBeGreaterThan(0);
  expect(() => survivalOfReplicates([sets[0], ended(1)], 1)).toThrow("sets[1].length: got 1, need 3");
  expect(() => lifeOfReplicates([], 0.5)).toThrow("lives.length");
});

test("a fan of depths", () => {
  const slope = (rate: number, to: number, failed: boolean) => ({years: [0, to], depth: [0, rate * to], failed});
  const histories = [slope(0.01, 20, false), slope(0.02, 20, false), slope(0.03, 10, true)];
  const {depths} = fan(histories, {years: [0, 5, 10, 20], probabilities: [0.5, 5 / 6]});
  expect([...depths[0]].map(x => Math.round(1e9 * x) / 1e9)).toEqual([0, 0.1, 0.2, 0.3]);
  expect([...depths[1]].map(x => Math.round(1e9 * x) / 1e9)).toEqual([0, 0.15, 0.3, 0.4]);
  const still = fan([{years: [0], depth: [0.01], failed: true}], {years: [0, 9], probabilities: [0.5]});
  expect([...still.depths[0]]).toEqual([0.01, 0.01]);
});

test("a fan does not invent depths", () => {
  const one = {years: [0, 10], depth: [0, 0.1], failed: false};
  const plan = {years: [5], probabilities: [0.5]};
  expect(() => fan([one], {...plan, years: [11]})).toThrow("years: got 11, need ≤ 10, where histories[0] ends");
  expect(() => fan([one], {...plan, years: [-1]})).toThrow("need ≥ 0");
  expect(() => fan([one], {...plan, years: [Number.NaN]})).toThrow("years");
  expect(() => fan([one], {...plan, probabilities: [0.1]})).toThrow("histories.length: got 1, need ≥ 5 for 0.1");
  expect(() => fan([], plan)).toThrow("histories.length");
  expect(() => fan([{...one, depth: [0]}], plan)).toThrow("histories[0].depth.length: got 1, need 2");
  expect(() => fan([{...one, years: [10, 0]}], plan)).toThrow("histories[0].years[1]");
  expect(() => fan([{...one, depth: [0, Number.NaN]}], plan)).toThrow("histories[0].depth[1]");
  expect(() => fan([{years: [], depth: [], failed: true}], plan)).toThrow("histories[0].years.length");
});
