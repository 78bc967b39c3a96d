import fc from "fast-check";
import {describe, expect, test} from "vitest";
import {
  rainflow,
  rainflowDamage,
  repeatingRainflow,
  repeatingRainflowDamage,
  turningPoints,
} from "../../../src/engine/crack/rainflow.ts";

const anySeries = fc
  .array(fc.integer({min: -20, max: 20}), {minLength: 1, maxLength: 60}) // integers: many ties and plateaus
  .map(values => Float64Array.from(values));

function cyclesOf(count: typeof rainflow, series: Float64Array): [number, number, number][] {
  const cycles: [number, number, number][] = [];
  count(series, (...cycle) => cycles.push(cycle));
  return cycles;
}

function halves(cycles: readonly [number, number, number][]): number {
  return cycles.reduce((sum, cycle) => sum + 2 * cycle[2], 0);
}

describe("turning points", () => {
  test("of plateaus, of a constant, of nothing", () => {
    expect([...turningPoints(Float64Array.of(1, 1, 2, 3, 3, 0, 0, -1, 4))]).toEqual([1, 3, -1, 4]);
    expect([...turningPoints(Float64Array.of(5, 5, 5))]).toEqual([5]);
    expect([...turningPoints(new Float64Array(0))]).toEqual([]);
  });

  test("alternate in direction", () => {
    fc.assert(
      fc.property(anySeries, series => {
        const points = turningPoints(series);
        for (let i = 2; i < points.length; i++) {
          expect((points[i] - points[i - 1]) * (points[i - 1] - points[i - 2])).toBeLessThan(0);
        }
      }),
    );
  });
});

describe("a history that happens once", () => {
  test("counts add up to the number of ranges, and plateaus and points between change nothing", () => {
    fc.assert(
      fc.property(anySeries, series => {
        const cycles = cyclesOf(rainflow, series);
        expect(halves(cycles)).toBe(turningPoints(series).length - 1);
        expect(cyclesOf(rainflow, turningPoints(series))).toEqual(cycles);
      }),
    );
  });

  test("has one largest range, from the largest to the smallest value", () => {
    fc.assert(
      fc.property(anySeries, series => {
        const span = Math.max(...series) - Math.min(...series);
        expect(Math.max(0, ...cyclesOf(rainflow, series).map(([range]) => range))).toBe(span);
      }),
    );
  });

  test("keeps distance: Σ count × range is half the way gone up and down", () => {
    fc.assert(
      fc.property(anySeries, series => {
        let way = 0;
        for (let i = 1; i < series.length; i++) way += Math.abs(series[i] - series[i - 1]);
        expect(rainflowDamage(series, series.length, 1, new Float64Array(series.length))).toBe(way / 2);
      }),
    );
  });
});

describe("a history that repeats", () => {
  test("has whole cycles only, wherever its period starts", () => {
    fc.assert(
      fc.property(anySeries, fc.nat(59), (series, shift) => {
        const n = series.length;
        const cycles = cyclesOf(repeatingRainflow, series);
        expect(cycles.every(cycle => cycle[2] === 1)).toBe(true);
        const shifted = series.map((_, i) => series[(i + shift) % n]);
        const ranges = (list: [number, number, number][]) => list.map(([range]) => range).sort((a, b) => a - b);
        expect(ranges(cyclesOf(repeatingRainflow, shifted))).toEqual(ranges(cycles));
      }),
    );
  });

  test("is the limit of the same history many times over", () => {
    const series = Float64Array.of(-2, 1, -3, 5, -1, 3, -4, 4);
    const many = Float64Array.from({length: 8 * 500}, (_, i) => series[i % 8]);
    const once = repeatingRainflowDamage(series, 8, 4, new Float64Array(9));
    const mean = rainflowDamage(many, many.length, 4, new Float64Array(many.length)) / 500;
    expect(Math.abs(mean / once - 1)).toBeLessThan(0.01); // the ends are worth a few cycles in 500
  });
});

test("damage is that of the visited cycles, over the part asked for", () => {
  fc.assert(
    fc.property(anySeries, fc.double({min: 1, max: 8, noNaN: true}), (series, exponent) => {
      const sum = cyclesOf(rainflow, series).reduce((s, [range, , count]) => s + count * range ** exponent, 0);
      const longer = Float64Array.from([...series, 1e6, -1e6]);
      const stack = new Float64Array(longer.length);
      expect(rainflowDamage(longer, series.length, exponent, stack)).toBeCloseTo(sum, 6);
    }),
  );
});

test("refuses", () => {
  const series = Float64Array.of(1, 2, NaN, 4);
  const stack = new Float64Array(5);
  expect(() => rainflow(series, () => {})).toThrow("series[2]: got NaN");
  expect(() => turningPoints(series)).toThrow("series[2]: got NaN");
  expect(() => repeatingRainflow(Float64Array.of(1, Infinity), () => {})).toThrow("series[1]: got Infinity");
  expect(() => rainflowDamage(series, 2, 4, new Float64Array(1))).toThrow("stack.length: got 1, need ≥ 2");
  expect(() => repeatingRainflowDamage(series, 2, 4, new Float64Array(2))).toThrow("stack.length: got 2, need ≥ 3");
  expect(() => rainflowDamage(series, 5, 4, stack)).toThrow("length: got 5");
  expect(() => rainflowDamage(series, 2, NaN, stack)).toThrow("exponent: got NaN");
  rainflow(new Float64Array(0), () => expect.unreachable());
  repeatingRainflow(new Float64Array(0), () => expect.unreachable());
});
