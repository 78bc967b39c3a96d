import type {WeatherRecord} from "../engine/climate/types.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {looksWrong, toCelsius} from "./look-of-temperatures.ts";
import {enoughDays} from "./record-length.ts";
import type {DailyDocument} from "./study.ts";
import {linesText, numberColumn, type ReadCsv, readTable} from "./table.ts";
import {readTimes} from "./timestamps.ts";

const dailyPath: DocumentPath = ["climate", "daily"];

/** Usual hours of the lowest and the highest temperature of the day [h]. */
const coldestHour = 6;
const warmestHour = 15;

/** Reads daily minima and maxima and makes hours of them. Null when there is a fault. */
export function dailyToHourly(daily: DailyDocument, readCsv: ReadCsv, findings: Findings): WeatherRecord | null {
  const before = findings.faults.length;
  const table = readTable(
    {file: daily.file, headerLine: daily.header_line, columns: {...daily.columns}},
    dailyPath,
    readCsv,
    findings,
  );
  if (!table) return null;
  const times =
    daily.columns.date === undefined
      ? null
      : readTimes(
          table,
          {dateFormat: daily.date_format, typicalYear: daily.record === "typical_year", step: 1440},
          dailyPath,
          findings,
        );
  const minimum = numberColumn(table, "minimum", dailyPath, findings)?.values;
  const maximum = numberColumn(table, "maximum", dailyPath, findings)?.values;
  if (!minimum || !maximum) return null;
  for (const [role, values] of Object.entries({minimum, maximum})) {
    const missing = [...values.keys()].filter(i => Number.isNaN(values[i]));
    if (missing.length > 0)
      findings.fault([...dailyPath, "columns", role], {
        problem: `no value in ${linesText(missing.map(i => table.lines[i]))} of the file`,
        accepted: "a value for every day",
      });
  }
  const crossed = [...minimum.keys()].filter(i => minimum[i] > maximum[i]);
  if (crossed.length > 0)
    findings.fault([...dailyPath, "columns", "minimum"], {
      problem: `the minimum is above the maximum in ${linesText(crossed.map(i => table.lines[i]))} of the file`,
      accepted: "minimum ≤ maximum",
      suggestion: "are the two columns swapped?",
    });
  if (findings.faults.length > before) return null;
  toCelsius(minimum, daily.temperature_unit);
  toCelsius(maximum, daily.temperature_unit);
  if (looksWrong(maximum, daily, {path: dailyPath, columns: ["maximum"]}, findings)) return null;
  if (looksWrong(minimum, daily, {path: dailyPath, columns: ["minimum"]}, findings)) return null;
  enoughDays(24 * minimum.length, minimum.length, dailyPath, findings);
  findings.warn(dailyPath, {
    problem: `the course of each day is assumed: lowest at ${coldestHour} h, highest at ${warmestHour} h, half cosine waves between`,
    accepted: "an hourly record, where there is one",
  });
  return {
    kind: daily.temperature_is,
    temperature: hoursFromExtremes(minimum, maximum),
    solar: null,
    wind: null,
    dewPoint: null,
    cloud: null,
    startHour: 0,
    startDay: times?.startDay ?? null,
    label: daily.label,
  };
}

/**
 * Hourly temperatures from midnight of the first day: half cosine waves through each day's minimum and maximum.
 * Before the first minimum and after the last maximum the neighbouring day is taken equal to the first or last.
 *
 * @param minimum  of each day [°C]
 * @param maximum  of each day [°C], as many
 */
export function hoursFromExtremes(minimum: Float64Array, maximum: Float64Array): Float64Array {
  const days = minimum.length;
  const hours = new Float64Array(24 * days);
  const wave = (from: number, to: number, part: number) => from + ((to - from) * (1 - Math.cos(Math.PI * part))) / 2;
  const fall = 24 - warmestHour + coldestHour; // from a maximum to the next minimum [h]
  for (let h = 0; h < hours.length; h++) {
    const day = Math.floor(h / 24);
    const clock = h % 24;
    if (clock < coldestHour)
      hours[h] = wave(maximum[Math.max(0, day - 1)], minimum[day], (clock + 24 - warmestHour) / fall);
    else if (clock <= warmestHour)
      hours[h] = wave(minimum[day], maximum[day], (clock - coldestHour) / (warmestHour - coldestHour));
    else hours[h] = wave(maximum[day], minimum[Math.min(days - 1, day + 1)], (clock - warmestHour) / fall);
  }
  return hours;
}
