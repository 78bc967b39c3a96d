import {InputError} from "../errors.ts";
import {requireRecord} from "./record.ts";
import type {WeatherRecord} from "./types.ts";

/** A month of the typical year and where it comes from. */
export interface ChosenMonth {
  readonly month: number; // 0: January
  readonly year: number;
  readonly statistic: number; // weighted Finkelstein-Schafer statistic against all years [–]
  readonly candidates: number; // years whose month was whole
}

export interface TypicalYear {
  readonly record: WeatherRecord; // 365 days from 1 January
  readonly months: readonly ChosenMonth[];
}

/**
 * Weights of the daily values [–], those of the procedure's third edition for the values that a pavement's record has; its
 * weights of humidity, wind and direct sun are left out.
 */
const WEIGHTS = {mean: 2, lowest: 1, highest: 1, sun: 5} as const;

/** Hours on each side of a seam over which the jump between two years is spread. */
const SEAM = 6;

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/**
 * A typical year from several: of each calendar month the year whose daily values are distributed most as those of all years,
 * by the Finkelstein-Schafer statistic, the mean distance of two cumulative distributions over the n days of the month,
 *
 *   FS = (1/n)·Σ |F_all(xᵢ) − F_month(xᵢ)|
 *
 * weighted over daily mean, lowest and highest temperature and, where it is recorded, the day's sun. Simplified from the
 * published procedure: no humidity, wind or direct sun, and the month of the smallest statistic is taken without looking at
 * runs of warm, cold or dull days among the five best. 29 February is left out. Over six hours on each side of a seam between
 * two years, half the jump of temperature and dew point is taken in by a straight ramp.
 *
 * @param firstYear  calendar year of the first value
 * @throws InputError "shape" | "domain", also when a calendar month is whole in no year
 * @source Hall, Prairie, Anderson & Boes 1978, Sandia SAND-78-1601, as described in appendix A of the TMY2 manual (read);
 *   weights of Wilcox & Marion 2008, NREL/TP-581-43156, Table 2, from memory; Finkelstein & Schafer 1971, Biometrika 58, 641-645
 */
export function typicalYear(record: WeatherRecord, firstYear: number): TypicalYear {
  requireRecord(record);
  if (record.startDay === null) throw new InputError("shape", "record.startDay", null, "the day of the first value");
  if (!Number.isInteger(firstYear)) throw new InputError("domain", "firstYear", firstYear, "a calendar year");
  const {hour, months} = wholeMonths(record, firstYear);
  const chosen = MONTH_DAYS.map((_, month) => {
    const candidates = months.filter(m => m.month === month);
    if (candidates.length === 0)
      throw new InputError("shape", `whole months of number ${month + 1}`, 0, "≥ 1 in the record");
    return mostTypical(record, candidates);
  });
  return {record: joined(record, chosen, hour), months: chosen.map(({start: _, ...month}) => month)};
}

/** A calendar month that the record holds entirely. */
interface Month {
  readonly month: number;
  readonly year: number;
  readonly start: number; // index of its first hour
}

/** The months, cut into days that begin at midnight, or at one o'clock when the record does and its hours are told by their end. */
function wholeMonths({temperature, startHour, startDay}: WeatherRecord, firstYear: number) {
  const skipped = startHour < 2 ? 0 : Math.ceil(24 - startHour);
  const hour = skipped === 0 ? startHour : startHour + skipped - 24;
  const months: Month[] = [];
  let day = startDay! + (skipped === 0 ? 0 : 1);
  let [year, month, start] = [firstYear, 0, skipped];
  if (day >= daysOfYear(year)) [year, day] = [year + 1, day - daysOfYear(year)];
  while (day >= daysOf(year, month)) day -= daysOf(year, month++);
  for (; start < temperature.length; day = 0) {
    const end = start + 24 * (daysOf(year, month) - day);
    if (day === 0 && end <= temperature.length) months.push({month, year, start});
    start = end;
    [year, month] = month === 11 ? [year + 1, 0] : [year, month + 1];
  }
  return {hour, months};
}

function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

function daysOf(year: number, month: number): number {
  return MONTH_DAYS[month] + (month === 1 && isLeap(year) ? 1 : 0);
}

function daysOfYear(year: number): number {
  return isLeap(year) ? 366 : 365;
}

function mostTypical(record: WeatherRecord, candidates: readonly Month[]): Month & ChosenMonth {
  const daily = candidates.map(({month, start}) => dailyValues(record, start, MONTH_DAYS[month]));
  const total = daily[0].reduce((sum, {weight}) => sum + weight, 0);
  const statistic = new Float64Array(candidates.length);
  daily[0].forEach(({weight}, v) => {
    const all = Float64Array.from(daily.flatMap(values => [...values[v].days])).sort();
    daily.forEach((values, c) => {
      statistic[c] += (weight / total) * finkelsteinSchafer(values[v].days, all);
    });
  });
  const best = statistic.indexOf(Math.min(...statistic)); // of equals the earliest
  return {...candidates[best], statistic: statistic[best], candidates: candidates.length};
}

interface DailyValue {
  readonly weight: number; // [–]
  readonly days: Float64Array;
}

function dailyValues({temperature, solar}: WeatherRecord, start: number, days: number): DailyValue[] {
  const each = (of: (hours: Float64Array) => number, column: Float64Array) =>
    Float64Array.from({length: days}, (_, d) => of(column.subarray(start + 24 * d, start + 24 * (d + 1))));
  const mean = (hours: Float64Array) => hours.reduce((sum, x) => sum + x, 0) / 24;
  return [
    {weight: WEIGHTS.mean, days: each(mean, temperature)},
    {weight: WEIGHTS.lowest, days: each(hours => Math.min(...hours), temperature)},
    {weight: WEIGHTS.highest, days: each(hours => Math.max(...hours), temperature)},
    ...(solar ? [{weight: WEIGHTS.sun, days: each(mean, solar)}] : []),
  ];
}

/**
 * Mean distance of two cumulative distributions at the values of one of them [–].
 *
 * @param values  of the month
 * @param all     ascending, of the same month in all years
 */
export function finkelsteinSchafer(values: Float64Array, all: Float64Array): number {
  const own = values.toSorted();
  let sum = 0;
  let before = 0; // of all, not above the value
  for (let i = 0; i < own.length; i++) {
    while (before < all.length && all[before] <= own[i]) before++;
    let upTo = i + 1; // of its own, not above the value
    while (upTo < own.length && own[upTo] === own[i]) upTo++;
    sum += Math.abs(before / all.length - upTo / own.length);
  }
  return sum / own.length;
}

/** The months one after the other, with their seams smoothed. */
function joined(record: WeatherRecord, months: readonly (Month & ChosenMonth)[], hour: number): WeatherRecord {
  const put = (column: Float64Array): Float64Array => {
    const out = new Float64Array(24 * 365);
    let at = 0;
    for (const {month, start} of months) {
      const hours = 24 * MONTH_DAYS[month];
      out.set(column.subarray(start, start + hours), at);
      at += hours;
    }
    return out;
  };
  const smooth = (column: Float64Array): Float64Array => {
    const out = put(column);
    let at = 0;
    months.forEach(({month, year}, m) => {
      const before = months[(m + 11) % 12];
      if (m === 0 || before.year !== year) spreadJump(out, at);
      at += 24 * MONTH_DAYS[month];
    });
    return out;
  };
  const {solar, wind, dewPoint, cloud} = record;
  return {
    ...record,
    temperature: smooth(record.temperature),
    solar: solar && put(solar),
    wind: wind && put(wind),
    dewPoint: dewPoint && smooth(dewPoint),
    cloud: cloud && put(cloud),
    startHour: hour,
    startDay: 0,
  };
}

/** Spreads the jump before hour `at` over the hours on both sides; the year is a ring. */
function spreadJump(values: Float64Array, at: number): void {
  const n = values.length;
  const of = (i: number) => (at + i + n) % n;
  const jump = values[of(0)] - values[of(-1)];
  for (let k = 0; k < SEAM; k++) {
    const part = ((SEAM - k) / (SEAM + 0.5)) * 0.5 * jump; // what is left between the two is a step of the ramp
    values[of(k)] -= part;
    values[of(-1 - k)] += part;
  }
}
