import fc from "fast-check";
import {expect, test} from "vitest";
import {hourlyFromDailyExtremes} from "../../../src/engine/climate/index.ts";
import {greensboro} from "./fixtures.ts";

const HOURS = {minimum: 6, maximum: 14};

test("days keep their extremes, at their hours", () => {
  const day = fc.tuple(fc.double({min: -30, max: 30, noNaN: true}), fc.double({min: 0, max: 25, noNaN: true}));
  fc.assert(
    fc.property(fc.array(day, {minLength: 1, maxLength: 20}), days => {
      const minimum = Float64Array.from(days, ([low]) => low);
      const maximum = Float64Array.from(days, ([low, range]) => low + range);
      const hourly = hourlyFromDailyExtremes(minimum, maximum, HOURS);
      days.forEach((_, d) => {
        expect(hourly[24 * d + 6]).toBeCloseTo(minimum[d], 12);
        expect(hourly[24 * d + 14]).toBeCloseTo(maximum[d], 12);
        const between = hourly.subarray(24 * d + 6, 24 * d + 15);
        for (let i = 1; i < between.length; i++) expect(between[i]).toBeGreaterThanOrEqual(between[i - 1]);
      });
    }),
  );
});

test("half way in time is half way in temperature", () => {
  const hourly = hourlyFromDailyExtremes(new Float64Array([0, 4]), new Float64Array([10, 12]), HOURS);
  expect(hourly[10]).toBeCloseTo(5, 12); // cos(π/2) = 0
  expect(hourly[22]).toBeCloseTo(7, 12); // from 10 down to the next minimum, 4
  expect(hourly[46]).toBeCloseTo(6, 12); // the last night ends at the first minimum: from 12 to 0
  // Before the minimum, three quarters down the night: sin²(3π/8) = (2 + √2)/4.
  expect(hourly[26]).toBeCloseTo(10 - (6 * (2 + Math.SQRT2)) / 4, 12); // from yesterday's 10 to 4
  expect(hourly[2]).toBeCloseTo(12 - (12 * (2 + Math.SQRT2)) / 4, 12); // from the last day's 12 to 0
});

test("comes near a real year", () => {
  const real = greensboro().temperature;
  const first = 23; // the record starts at 1 h: the whole days from hour 0 on
  const days = 364;
  const minimum = new Float64Array(days);
  const maximum = new Float64Array(days);
  for (let d = 0; d < days; d++) {
    const day = real.subarray(first + 24 * d, first + 24 * (d + 1));
    minimum[d] = Math.min(...day);
    maximum[d] = Math.max(...day);
  }
  const made = hourlyFromDailyExtremes(minimum, maximum, HOURS);
  const square = made.reduce((sum, x, i) => sum + (x - real[first + i]) ** 2, 0) / made.length;
  expect(Math.sqrt(square)).toBeLessThan(3); // [K]; fronts make days that no daily shape can follow (practice)
});

test("refuses", () => {
  const one = new Float64Array([1]);
  expect(() => hourlyFromDailyExtremes(new Float64Array(0), one, HOURS)).toThrow("minimum.length");
  expect(() => hourlyFromDailyExtremes(one, new Float64Array(2), HOURS)).toThrow("maximum.length: got 2, need 1");
  expect(() => hourlyFromDailyExtremes(one, new Float64Array([0]), HOURS)).toThrow("maximum[0]: got 0");
  expect(() => hourlyFromDailyExtremes(new Float64Array([NaN]), one, HOURS)).toThrow("minimum[0]: got NaN");
  expect(() => hourlyFromDailyExtremes(one, one, {minimum: 15, maximum: 14})).toThrow("hours.minimum: got 15");
  expect(() => hourlyFromDailyExtremes(one, one, {minimum: 5, maximum: 24})).toThrow("hours.maximum: got 24");
});
