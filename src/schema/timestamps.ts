import type {DocumentPath, Findings} from "./fault.ts";
import {toStandardTime} from "./summer-time.ts";
import {linesText, type Table} from "./table.ts";

export type DateFormat = "YYYY-MM-DD" | "MM/DD/YYYY" | "DD/MM/YYYY" | "DD.MM.YYYY";

/** Where the rows of a record lie in time. */
export interface Slots {
  readonly index: Int32Array; // whole steps since the first row; strictly ascending
  readonly startHour: number; // local hour of day of the first row [h]
  readonly startDay: number | null; // day of the year of the first row, 0: 1 January; null without dates
  readonly startYear: number | null; // of the first row; null without dates and in a typical year
}

const patterns: Readonly<Record<DateFormat, RegExp>> = {
  "YYYY-MM-DD": /^(?<year>\d{4})-(?<month>\d{1,2})-(?<day>\d{1,2})$/,
  "MM/DD/YYYY": /^(?<month>\d{1,2})\/(?<day>\d{1,2})\/(?<year>\d{4})$/,
  "DD/MM/YYYY": /^(?<day>\d{1,2})\/(?<month>\d{1,2})\/(?<year>\d{4})$/,
  "DD.MM.YYYY": /^(?<day>\d{1,2})\.(?<month>\d{1,2})\.(?<year>\d{4})$/,
};

const minutesOfDay = 1440;
const minutesOfTypicalYear = 365 * minutesOfDay;

/** Minutes since a fixed origin; in a typical year since its first of January. NaN: not a date. */
function dayMinutes(text: string, format: DateFormat, typicalYear: boolean): number {
  const groups = patterns[format].exec(text)?.groups;
  if (!groups) return Number.NaN;
  const [year, month, day] = [Number(groups.year), Number(groups.month), Number(groups.day)];
  const shownYear = typicalYear ? 2001 : year; // 2001 has no 29 February, as a typical year has none
  const date = new Date(Date.UTC(shownYear, month - 1, day));
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return Number.NaN;
  return (date.getTime() - (typicalYear ? Date.UTC(2001, 0, 1) : 0)) / 60_000;
}

/** Day of the year, 0: 1 January, of minutes as `dayMinutes` gives them. */
function dayOfYear(minutes: number, typicalYear: boolean): number {
  const date = new Date((typicalYear ? Date.UTC(2001, 0, 1) : 0) + minutes * 60_000);
  return Math.floor((date.getTime() - Date.UTC(date.getUTCFullYear(), 0, 1)) / 86_400_000);
}

/** Minutes since midnight, up to 24:00. NaN: not a time of day. */
function clockMinutes(text: string): number {
  const match = /^(\d{1,2})(?::?(\d{2})(?::\d{2}(?:\.\d+)?)?)?$/.exec(text);
  if (!match) return Number.NaN;
  const minutes = Number(match[1]) * 60 + Number(match[2] ?? 0);
  return minutes <= minutesOfDay ? minutes : Number.NaN;
}

function splitStamp(stamp: string): [date: string, time: string, zone: string] {
  const [, date = "", time = "", zone = ""] = /^(\S+?)[T ]\s*(\S+?)(?:\s*(Z|[-+]\d{2}:?\d{2}))?$/.exec(stamp) ?? [];
  return [date, time, zone];
}

/** Minutes that a zone suffix is ahead of UTC; null when there is none. */
function zoneMinutes(zone: string): number | null {
  const [, sign, hours, minutes] = /^([-+])(\d{2}):?(\d{2})$/.exec(zone) ?? [];
  if (sign === undefined) return zone === "Z" ? 0 : null;
  return (sign === "-" ? -1 : 1) * (60 * Number(hours) + Number(minutes));
}

export interface TimeOptions {
  readonly dateFormat: DateFormat;
  readonly typicalYear: boolean;
  readonly step: number; // between rows [min]
  readonly summerTime?: boolean; // the clock has summer time; default: standard time throughout
}

/**
 * Reads the times of a table's rows, from its columns timestamp, or date and time, or date alone.
 * Null when they are not readable, not in order or not in the step, which the findings then tell.
 */
export function readTimes(table: Table, options: TimeOptions, path: DocumentPath, findings: Findings): Slots | null {
  const {timestamp, date, time} = table.columns;
  const role = timestamp ? "timestamp" : "date";
  const cells = timestamp ?? date;
  const at = [...path, "columns", role];
  const minutes = Float64Array.from(cells, (cell, i) => {
    const [day, clock] = timestamp ? splitStamp(cell) : [cell, time ? time[i] : "00:00"];
    return dayMinutes(day, options.dateFormat, options.typicalYear) + clockMinutes(clock);
  });
  const bad = [...minutes.keys()].filter(i => Number.isNaN(minutes[i]));
  if (bad.length > 0) {
    const first = `${cells[bad[0]]}${timestamp || !time ? "" : ` ${time[bad[0]]}`}`;
    findings.fault(at, {
      problem: `not a date and time in ${linesText(bad.map(i => table.lines[i]))} of the file`,
      found: `${JSON.stringify(first.slice(0, 40))} in line ${table.lines[bad[0]]}`,
      accepted: `dates as ${options.dateFormat} (see date_format) and times as HH:MM${options.typicalYear ? "; no 29 February in a typical year" : ""}`,
      suggestion: formatSuggestion(timestamp ? splitStamp(cells[bad[0]])[0] : cells[bad[0]], options),
    });
    return null;
  }
  const standard = standardTime(minutes, {table, options, at, path, findings});
  return standard && slotsOf(standard, table, options, at, path, findings);
}

interface Reading {
  readonly table: Table;
  readonly options: TimeOptions;
  readonly at: DocumentPath; // of the time column
  readonly path: DocumentPath;
  readonly findings: Findings;
}

/**
 * Local standard time. Rows with zone suffixes are instants, and standard time is that of the smallest offset among them;
 * without them the clock is that of the options.
 */
function standardTime(minutes: Float64Array, reading: Reading): Float64Array | null {
  const {table, options, at, path, findings} = reading;
  const zones = (table.columns.timestamp ?? []).map(cell => zoneMinutes(splitStamp(cell)[2]));
  const zoned = zones.filter(zone => zone !== null);
  if (zoned.length > 0) {
    const without = [...zones.keys()].filter(i => zones[i] === null);
    if (without.length > 0) {
      findings.fault(at, {
        problem: `some times have a time zone and those in ${linesText(without.map(i => table.lines[i]))} of the file have none`,
        accepted: "a time zone in all rows or in none",
      });
      return null;
    }
    const standard = zoned.reduce((least, zone) => Math.min(least, zone), Infinity);
    return minutes.map((clock, i) => clock - zoned[i] + standard);
  }
  if (!options.summerTime) return minutes;
  const result = toStandardTime(minutes, table.lines);
  if (result.kind === "unclear") {
    findings.fault([...path, "clock"], {
      problem: `${result.problem} of the file`,
      accepted: "one hour missing at night in spring and one double in autumn, in every year",
      suggestion: "take a record in standard time, or with a time zone in each row",
    });
    return null;
  }
  findings.warn([...path, "clock"], {
    problem: result.told
      ? `summer time was turned into standard time: clocks go ${result.told} of the file`
      : "no change of the clocks was found: the record is taken as it is",
    accepted: "standard time throughout",
  });
  return result.minutes;
}

function formatSuggestion(date: string, options: TimeOptions): string | null {
  const fitting = (Object.keys(patterns) as DateFormat[]).filter(
    format => format !== options.dateFormat && !Number.isNaN(dayMinutes(date, format, options.typicalYear)),
  );
  return fitting.length === 0 ? null : `perhaps date_format: ${fitting.join(" or ")}`;
}

function slotsOf(
  minutes: Float64Array,
  table: Table,
  options: TimeOptions,
  at: DocumentPath,
  path: DocumentPath,
  findings: Findings,
): Slots | null {
  const {step, typicalYear} = options;
  const index = new Int32Array(minutes.length);
  const offStep: number[] = [];
  const again: number[] = [];
  const backward: number[] = [];
  let longestGap = 0;
  let gapLine = 0;
  for (let i = 1; i < minutes.length; i++) {
    let since = minutes[i] - minutes[0];
    if (typicalYear && since < 0) since += minutesOfTypicalYear;
    const steps = since / step;
    index[i] = Math.round(Math.max(-2e9, Math.min(2e9, steps))); // the bound only guards the integer; such a gap is refused below
    if (!Number.isInteger(steps)) offStep.push(table.lines[i]);
    else if (index[i] === index[i - 1]) again.push(table.lines[i]);
    else if (index[i] < index[i - 1]) backward.push(table.lines[i]);
    else if (index[i] - index[i - 1] - 1 > longestGap) {
      longestGap = index[i] - index[i - 1] - 1;
      gapLine = table.lines[i];
    }
  }
  const unit = step === minutesOfDay ? "day" : "hour";
  const typicalHint = typicalYear ? null : "if months of different years were put together, write record: typical_year";
  const before = findings.faults.length;
  if (offStep.length > 0)
    findings.fault(at, {
      problem: `the rows are not one ${unit} apart: ${linesText(offStep)} of the file`,
      accepted: `one row a ${unit}`,
      suggestion: unit === "hour" ? "take the value on the hour of a finer record" : null,
    });
  if (again.length > 0 && offStep.length === 0)
    findings.fault(at, {
      problem: `the same time again in ${linesText(again)} of the file`,
      accepted: `every ${unit} once`,
      suggestion:
        unit === "hour" && !options.summerTime
          ? "if the clock has summer time, write clock: summer_time; otherwise leave the second of the two out"
          : null,
    });
  if (backward.length > 0 && offStep.length === 0)
    findings.fault(at, {
      problem: `time runs backward in ${linesText(backward)} of the file`,
      accepted: "rows in the order of time",
      suggestion: typicalHint,
    });
  const allowed = unit === "hour" ? longestGap_h : 0;
  if (longestGap > allowed && findings.faults.length === before)
    findings.fault([...path, "file"], {
      problem: `${longestGap} ${unit}${longestGap === 1 ? " is" : "s are"} missing before line ${gapLine} of the file`,
      found: `a gap of ${longestGap} ${unit}${longestGap === 1 ? "" : "s"}`,
      accepted: unit === "hour" ? `gaps of at most ${longestGap_h} hours, which are filled in` : "every day",
      suggestion: longestGap > 24 * 28 ? typicalHint : "fill the gap from a neighbouring station, or take another year",
    });
  if (findings.faults.length > before) return null;
  return {
    index,
    startHour: (((minutes[0] % minutesOfDay) + minutesOfDay) % minutesOfDay) / 60,
    startDay: dayOfYear(minutes[0], typicalYear),
    startYear: typicalYear ? null : new Date(minutes[0] * 60_000).getUTCFullYear(),
  };
}

/** Longest run of hours that is filled in by straight lines; longer ones are refused [h]. */
export const longestGap_h = 3;
