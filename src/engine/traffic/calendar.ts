import {InputError} from "../errors.ts";
import type {TrafficCalendar} from "./types.ts";

/** First day of each month, and of the next year; of a year without 29 February. */
const MONTHS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];

/**
 * Traffic in each hour of a record, relative to an hour of the mean [–]; null when the calendar makes no difference. Leap
 * days shift the months by a day, which no traffic count tells.
 *
 * @param record  hours in it, local hour of day of the first, and day of the year of the first
 * @throws InputError "shape" | "domain" when a calendar by months meets a record without dates
 */
export function trafficByHour(
  {hours, months}: TrafficCalendar,
  record: {readonly count: number; readonly startHour: number; readonly startDay: number | null},
): Float64Array | null {
  if (!hours && !months) return null;
  if (months && record.startDay === null)
    throw new InputError("domain", "record.startDay", null, "a date, for traffic by months");
  requireShares("calendar.hours", hours, 24);
  requireShares("calendar.months", months, 12);
  const weights = new Float64Array(record.count);
  for (let h = 0; h < weights.length; h++) {
    const since = record.startHour + h; // since midnight of the first day
    const byHour = hours ? 24 * hours[Math.floor(since) % 24] : 1;
    weights[h] = byHour * (months ? monthWeight(months, (record.startDay! + Math.floor(since / 24)) % 365) : 1);
  }
  return weights;
}

function monthWeight(months: readonly number[], day: number): number {
  const month = MONTHS.findIndex((_, m) => day < MONTHS[m + 1]);
  return (365 * months[month]) / (MONTHS[month + 1] - MONTHS[month]);
}

function requireShares(path: string, shares: readonly number[] | null, count: number): void {
  if (!shares) return;
  if (shares.length !== count) throw new InputError("shape", `${path}.length`, shares.length, `${count}`);
  const wrong = shares.findIndex(s => !(s >= 0 && Number.isFinite(s)));
  if (wrong >= 0) throw new InputError("domain", `${path}[${wrong}]`, shares[wrong], "finite, ≥ 0 [–]");
  const sum = shares.reduce((total, s) => total + s, 0);
  if (!(Math.abs(sum - 1) < 1e-9)) throw new InputError("domain", `${path}, sum`, sum, "1 [–]");
}
