import {describe, expect, test} from "vitest";
import {
  axisLevels,
  axisValues,
  cubicWeights,
  evenly,
  fieldOf,
  judge,
  missesOf,
  newNodes,
  panorama,
  type Reached,
  refinement,
  regionsOf,
  type Survey,
  type TreatmentPoint,
  variationAlong,
  weighted,
} from "../../../src/engine/survey/index.ts";

describe("order of points", () => {
  test("ends first, then between those that are there, at last all", () => {
    expect(axisLevels(5)).toEqual([
      [0, 4],
      [0, 2, 4],
      [0, 1, 2, 3, 4],
    ]);
    expect(axisLevels(1)).toEqual([[0]]);
    expect(axisLevels(2)).toEqual([[0, 1]]);
    for (let count = 1; count < 60; count++) {
      const levels = axisLevels(count);
      expect(levels.at(-1)).toEqual(Array.from({length: count}, (_, k) => k));
      levels.slice(1).forEach((level, k) => {
        expect(level).toEqual(expect.arrayContaining(levels[k])); // nothing is computed in vain
        expect(level.length).toBeLessThanOrEqual(2 * levels[k].length - 1);
      });
    }
  });

  test("new nodes are those that the level before has not", () => {
    const level = {x: [0, 1, 2], y: [0, 4]};
    expect(newNodes(level, null).length).toBe(6);
    expect(newNodes(level, {x: [0, 2], y: [0, 4]})).toEqual([
      {i: 1, j: 0},
      {i: 1, j: 4},
    ]);
  });

  test("axes go by equal differences or equal ratios, ends exactly", () => {
    expect(axisValues(1, 3, {count: 3, log: false})).toEqual([1, 2, 3]);
    const [a, b, c] = axisValues(1, 100, {count: 3, log: true});
    expect([a, c]).toEqual([1, 100]);
    expect(b).toBeCloseTo(10, 12);
    expect(evenly({values: [0.1, 0.7], log: false}, 2)).toEqual([0.1, 0.7]);
  });
});

describe("interpolation", () => {
  test("is exact for products of cubics and returns nodes as they are", () => {
    const [x, y] = [
      [0, 1, 3, 4, 7],
      [-1, 2, 3, 5],
    ];
    const f = (u: number, v: number): number => (1 - 2 * u + 0.5 * u ** 3) * (2 + v - 0.25 * v ** 3);
    const values = y.map(v => x.map(u => f(u, v)));
    for (const u of [0, 0.3, 2, 3.5, 6.9, 7])
      for (const v of [-1, 0, 2.5, 5]) {
        const weights = {x: cubicWeights(x, u), y: cubicWeights(y, v)};
        expect(weighted(values, weights)).toBeCloseTo(f(u, v), 9);
      }
    expect(weighted(values, {x: cubicWeights(x, 3), y: cubicWeights(y, 2)})).toBe(values[1][2]);
    expect(cubicWeights([5], 9).weights).toEqual([1]);
    expect(cubicWeights([0, 1, 2, 3, 4, 5], 2.5).first).toBe(1); // two nodes on either side
  });

  test("error falls with the fourth power of the distance", () => {
    const worst = (count: number): number => {
      const nodes = axisValues(0, 2, {count, log: false});
      const values = [nodes.map(Math.exp)];
      const errors = axisValues(0, 2, {count: 301, log: false}).map(t =>
        Math.abs(weighted(values, {x: cubicWeights(nodes, t), y: cubicWeights([0], 0)}) - Math.exp(t)),
      );
      return Math.max(...errors);
    };
    expect(Math.log2(worst(17) / worst(33))).toBeGreaterThan(3.7);
  });
});

const point = (name: string, overlay: number, lives: Readonly<Record<string, number>>): TreatmentPoint => ({
  name,
  overlay,
  lives: Object.fromEntries(Object.entries(lives).map(([k, years]) => [k, {years, censored: years >= 1e5}])),
  presentWorth: null,
});
const reflections = (traffic: number, thermal: number) => ({
  "reflection by traffic": traffic,
  "reflection by temperature": thermal,
  "reflection, both together": 1 / (1 / traffic + 1 / thermal),
});

describe("judgement", () => {
  const control = point("plain", 0.06, reflections(10, 1000));

  test("names what ends the section and whether it gains", () => {
    const treated = point("soft", 0.05, reflections(20, 1e4));
    expect(judge(control, treated, 100)).toMatchObject({kind: "ratio", cause: "traffic", effect: "gain"});
    expect(judge(control, treated, 100).ratio).toBeCloseTo(19.96 / 9.901, 3);
    expect(judge(control, point("soft", 0.05, reflections(5, 1e4)), 100).effect).toBe("harm by thinner overlay");
    expect(judge(control, point("soft", 0.06, reflections(5, 1e4)), 100).effect).toBe("harm");
    expect(judge(control, point("soft", 0.05, reflections(1e4, 20)), 100).cause).toBe("temperature");
    expect(judge(control, point("soft", 0.05, reflections(20, 25)), 100).cause).toBe("both");
    const tired = point("soft", 0.05, {...reflections(50, 60), "underside fatigue, overlay": 8});
    expect(judge(control, tired, 100)).toMatchObject({cause: "ordinary", effect: "harm by thinner overlay"});
    expect(judge(control, tired, 100).treated.mechanism).toBe("underside fatigue, overlay");
  });

  test("lives beyond what is told give bounds, or nothing", () => {
    const long = point("soft", 0.05, reflections(500, 1e4));
    expect(judge(control, long, 100)).toMatchObject({kind: "atLeast", cause: "nothing", effect: "gain"});
    expect(judge(control, long, 100).ratio).toBeCloseTo(100 / 9.901, 3);
    expect(judge(long, control, 100)).toMatchObject({kind: "atMost"});
    expect(judge(long, control, 100).ratio).toBeCloseTo(9.901 / 100, 5);
    expect(judge(long, long, 100)).toMatchObject({kind: "none", ratio: 1, effect: "waste"});
  });
});

/** Lives that are powers of both inputs: their logarithms are what cubics give exactly. The ratio is 0.02·x, whatever y is. */
function powers(countX: number, countY: number): Survey {
  const x = {values: axisValues(10, 100, {count: countX, log: true}), log: true};
  const y = {values: axisValues(1, 8, {count: countY, log: true}), log: true};
  const outcome = (i: number, j: number) => {
    const traffic = (0.1 * x.values[i]) / y.values[j];
    const soft = traffic * 0.02 * x.values[i];
    return {
      treatments: [
        point("plain", 0.06, {"reflection by traffic": traffic}),
        point("soft", 0.05, {"reflection by traffic": soft}),
      ],
      warnings: [],
    };
  };
  return {x, y, level: {x: x.values.map((_, i) => i), y: y.values.map((_, j) => j)}, outcome};
}

describe("a survey of known lives", () => {
  const survey = {...powers(9, 9), level: {x: [0, 4, 8], y: [0, 4, 8]}};
  const fields = {control: fieldOf(survey, 0), treated: fieldOf(survey, 1)};
  const places = {x: evenly(survey.x, 91), y: evenly(survey.y, 11), longest: 1000};

  test("between nodes lives are as they are", () => {
    expect(fields.treated(30, 3)!.lives["reflection by traffic"].years).toBeCloseTo((3 / 3) * 0.6, 9);
    const misses = missesOf(powers(9, 9), survey.level, {treatment: 1, longest: 1000});
    expect(misses.all.count).toBe(81 - 9);
    expect(misses.x.count).toBe(18);
    expect(misses.all.life).toBeLessThan(1e-9);
  });

  test("regions part where the ratio is 1", () => {
    const regions = regionsOf(panorama(fields, places));
    expect(regions.map(r => r.effect)).toEqual(["harm by thinner overlay", "gain"]);
    // ratio 1 at x = 50: a share of ln 5/ln 10 of the axis lies below
    expect(regions[0].share).toBeCloseTo(Math.log(5) / Math.log(10), 1);
    expect(regions[0].ratio[0]).toBeCloseTo(0.2, 9);
    expect(regions[1].ratio[1]).toBeCloseTo(2, 9);
    const {column, row} = regions[1].inside;
    expect(places.x[column]).toBeGreaterThan(50);
    expect(row).toBeGreaterThan(0);
    expect(row).toBeLessThan(10);
  });

  test("an axis that does not matter is seen", () => {
    const view = panorama(fields, places);
    expect(variationAlong(view, "y")).toBeLessThan(1e-9);
    expect(variationAlong(view, "x")).toBeCloseTo(9, 6);
  });

  test("a node that failed leaves a hole and no more", () => {
    const holed: Survey = {
      ...powers(9, 9),
      outcome: (i, j) => (i === 0 && j === 0 ? {failed: "no"} : survey.outcome(i, j)),
    };
    const field = fieldOf(holed, 1);
    expect(field(10, 1)).toBeNull();
    expect(field(90, 7)).not.toBeNull();
    expect(field(holed.x.values[1], 1)!.lives["reflection by traffic"].years).toBeGreaterThan(0); // a node itself
  });
});

describe("refinement", () => {
  const miss = (size: number) => ({count: 5, life: size, ratio: size, typical: size});
  const steps = (x: number, y: number, tolerance: number): string[] => {
    const {next} = refinement(20, 20);
    const seen: string[] = [];
    let reached: Reached = {x: -1, y: -1};
    let moved = {x: true, y: true};
    for (;;) {
      const none = {...miss(0), count: 0};
      const missed = {x: moved.x ? miss(x) : none, y: moved.y ? miss(y) : none, all: miss(Math.max(x, y))};
      const step = next(reached, seen.length < 1 ? null : missed, tolerance);
      if (!step) return seen;
      moved = {x: step.reached.x > reached.x, y: step.reached.y > reached.y};
      reached = step.reached;
      seen.push(`${step.level.x.length}×${step.level.y.length}`);
    }
  };

  test("the first picture costs four points; then each axis by itself, as far as it needs", () => {
    expect(steps(0.001, 0.001, 0.02)).toEqual(["2×2", "3×3", "5×5"]);
    expect(steps(0.5, 0.001, 0.02)).toEqual(["2×2", "3×3", "5×5", "9×5", "17×5", "20×5"]);
    expect(steps(0.001, 0.001, -1).at(-1)).toBe("20×20");
  });
});
