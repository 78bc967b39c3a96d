import {expect, test} from "vitest";
import {typicalYear, type WeatherRecord} from "../../../src/engine/climate/index.ts";
import {finkelsteinSchafer} from "../../../src/engine/climate/typicalYear.ts";
import {recordOf} from "./fixtures.ts";

test("the statistic, by hand", () => {
  const own = Float64Array.of(1, 3);
  // F_all at 1 and 3 of {1, 2, 3, 4}: 1/4, 3/4; F_own: 1/2, 1. Mean distance 1/4.
  expect(finkelsteinSchafer(own, Float64Array.of(1, 2, 3, 4))).toBeCloseTo(0.25, 15);
  expect(finkelsteinSchafer(own, own)).toBe(0);
  // All of its own below all others: F_own − F_all runs 1/3 − 1/6, 2/3 − 2/6, 1 − 3/6. Mean 1/3.
  expect(finkelsteinSchafer(Float64Array.of(3, 1, 2), Float64Array.of(1, 2, 3, 4, 5, 6))).toBeCloseTo(1 / 3, 15);
  // Equal values count together: at 2 twice, F_own = 1, F_all = 2/4.
  expect(finkelsteinSchafer(Float64Array.of(2, 2), Float64Array.of(2, 2, 5, 5))).toBeCloseTo(0.5, 15);
});

const FIRST = 2001;
const YEARS = 5; // with the leap year 2004

/** Temperature by year, month (0 …) and hour; the record begins with any hour of the first year. */
function years(of: (year: number, month: number, hour: number, day: number) => number, from = 0): WeatherRecord {
  const values: number[] = [];
  for (let t = Date.UTC(FIRST, 0, 1, from); t < Date.UTC(FIRST + YEARS, 0, 1, from); t += 3_600_000) {
    const d = new Date(t);
    values.push(of(d.getUTCFullYear(), d.getUTCMonth(), d.getUTCHours(), d.getUTCDate()));
  }
  return recordOf(Float64Array.from(values), {startHour: from % 24, startDay: Math.floor(from / 24)});
}

test("takes of each month the year in the middle", () => {
  // Years are apart by whole kelvins, a different one in the middle of each month: rank (year + month) mod 5.
  const rank = (year: number, month: number) => (year - FIRST + month) % YEARS;
  const record = years(
    (year, month, hour, day) => 10 + rank(year, month) + Math.sin((Math.PI * hour) / 12) + 0.01 * day,
  );
  const {months, record: typical} = typicalYear(record, FIRST);
  expect(months.map(m => rank(m.year, m.month))).toEqual(new Array(12).fill(2));
  expect(months.map(m => m.candidates)).toEqual(new Array(12).fill(YEARS));
  expect(typical.temperature).toHaveLength(8760);
  expect(typical).toMatchObject({startHour: 0, startDay: 0, solar: null});
});

test("sun decides where temperature does not", () => {
  const record = years(() => 10);
  const solar = years((year, _, hour, day) => (hour > 6 && hour < 18 ? 100 * (year - FIRST) + day : 0)).temperature;
  expect(typicalYear({...record, solar}, FIRST).months.map(m => m.year)).toEqual(new Array(12).fill(2003));
});

test("hours stand where the calendar has them, over leap years and from any first hour", () => {
  for (const from of [0, 1, 19 + 24 * 40]) {
    const record = years((_, month, hour) => 100 * month + hour, from);
    const {record: typical, months} = typicalYear({...record, kind: "surface"}, FIRST);
    const cleanHour = (day: number, h: number) => typical.temperature[24 * day + h];
    expect(typical.startHour).toBe(from === 1 ? 1 : 0);
    const shift = typical.startHour;
    for (const [day, month] of [
      [15, 0],
      [45, 1],
      [73, 2],
      [200, 6],
      [350, 11],
    ]) {
      expect(cleanHour(day, 12 - shift)).toBe(100 * month + 12);
    }
    // A record that begins on 10 February lacks the February of its first year and has no other one cut short.
    expect(months[1].candidates).toBe(from > 24 ? YEARS - 1 : YEARS);
  }
});

test("jumps at the seams are spread, and nothing else is touched", () => {
  const record = years((year, month) => (month % 2 === 0 ? 0 : 13) + 0 * year);
  // All years alike: the first is taken throughout, so only the seam of the year is smoothed.
  const {record: typical, months} = typicalYear(record, FIRST);
  expect(months.every(m => m.year === FIRST && m.statistic === 0)).toBe(true);
  const around = [-7, -6, -1, 0, 5, 6].map(i => typical.temperature[(8760 + i) % 8760]);
  // From 13 in December to 0 in January in 13 steps of 1 K.
  [13, 12, 7, 6, 1, 0].forEach((value, i) => {
    expect(around[i]).toBeCloseTo(value, 12);
  });
  expect(typical.temperature[31 * 24 - 1]).toBe(0);
  expect(typical.temperature[31 * 24]).toBe(13);
});

test("refuses a record in which a month is nowhere whole", () => {
  const short = recordOf(new Float64Array(24 * 200));
  expect(() => typicalYear(short, FIRST)).toThrow("whole months of number 7: got 0");
  expect(() => typicalYear({...short, startDay: null}, FIRST)).toThrow("record.startDay");
});
