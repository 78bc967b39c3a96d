import {expect, test} from "vitest";
import {pavementTemperatures, type WeatherRecord} from "../../../src/engine/climate/index.ts";
import {repeatingRainflowDamage} from "../../../src/engine/crack/rainflow.ts";
import {EXCHANGE, greensboro, OVERLAID} from "./fixtures.ts";

/** Each hour replaced by the mean of the same hour of day over the 15 days before to the 14 days after it. */
function smoothed(values: Float64Array, days = 30): Float64Array {
  const n = values.length;
  return values.map((_, i) => {
    let sum = 0;
    for (let d = -days / 2; d < days / 2; d++) sum += values[(i + 24 * d + n) % n];
    return sum / days;
  });
}

function smoothedRecord(record: WeatherRecord): WeatherRecord {
  return {
    ...record,
    temperature: smoothed(record.temperature),
    solar: record.solar && smoothed(record.solar),
    wind: record.wind && smoothed(record.wind),
  };
}

/** Mean over the days of the day's highest less its lowest value. */
function meanDailyRange(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 24) {
    const day = values.subarray(i, i + 24);
    sum += Math.max(...day) - Math.min(...day);
  }
  return (24 * sum) / values.length;
}

/** Σ range⁴ of the slab's mean temperature over a repeating year, without its one largest (the yearly) cycle. */
function damage(values: Float64Array): {readonly all: number; readonly withinTheYear: number} {
  const all = repeatingRainflowDamage(values, values.length, 4, new Float64Array(values.length + 1));
  const yearly = (Math.max(...values) - Math.min(...values)) ** 4;
  return {all, withinTheYear: all - yearly};
}

// The figures are those of the table in docs/theory/climate.md, "Why averages will not do".
test("averages over many days lose the cycles that do the damage", () => {
  const months = greensboro();
  const averages = smoothedRecord(months);
  expect(meanDailyRange(months.temperature)).toBeCloseTo(10.705, 3); // a fact of the file
  const real = pavementTemperatures(OVERLAID, months, EXCHANGE);
  const mean = pavementTemperatures(OVERLAID, averages, EXCHANGE);

  const slab = {real: damage(real.slabMean), mean: damage(mean.slabMean)};
  const overlay = {real: damage(real.overlayMean), mean: damage(mean.overlayMean)};
  const table = [
    meanDailyRange(averages.temperature),
    meanDailyRange(real.slabMean),
    meanDailyRange(mean.slabMean),
    slab.mean.all / slab.real.all,
    slab.mean.withinTheYear / slab.real.withinTheYear,
    overlay.mean.all / overlay.real.all,
    overlay.mean.withinTheYear / overlay.real.withinTheYear,
  ].map(x => x.toPrecision(3));
  expect(table).toEqual(["9.03", "4.81", "4.41", "0.351", "0.233", "0.405", "0.486"]); // as printed in the page
  expect(slab.mean.all / slab.real.all).toBeLessThan(0.5);
  expect(slab.mean.withinTheYear / slab.real.withinTheYear).toBeLessThan(0.4);
});
