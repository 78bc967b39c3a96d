import type {WeatherRecord} from "../engine/climate/types.ts";
import {dailyToHourly} from "./daily.ts";
import type {DocumentPath, Findings} from "./fault.ts";
import {looksWrong, toCelsius} from "./look-of-temperatures.ts";
import {enoughDays} from "./record-length.ts";
import type {ClimateDocument, HourlyDocument} from "./study.ts";
import {linesText, type NumberColumn, numberColumn, type ReadCsv, readTable, type Table} from "./table.ts";
import {longestGap_h, readTimes} from "./timestamps.ts";

/** The record that a study refers to. Null when there is a fault, which the findings then tell. */
export function readWeather(climate: ClimateDocument, readCsv: ReadCsv, findings: Findings): WeatherRecord | null {
  const {hourly, daily} = climate;
  if (hourly && daily) {
    findings.fault(["climate", "daily"], {
      problem: "the climate is given twice",
      accepted: "either hourly or daily",
    });
    return null;
  }
  if (hourly) return readHourly(hourly, readCsv, findings);
  if (daily) return dailyToHourly(daily, readCsv, findings);
  findings.fault(["climate"], {problem: "the climate has no record", accepted: "hourly or daily"});
  return null;
}

const hourlyPath: DocumentPath = ["climate", "hourly"];

function readHourly(hourly: HourlyDocument, readCsv: ReadCsv, findings: Findings): WeatherRecord | null {
  const before = findings.faults.length;
  checkTimeColumns(hourly, findings);
  const {columns} = hourly;
  const table = readTable(
    {file: hourly.file, headerLine: hourly.header_line, columns: {...columns}},
    hourlyPath,
    readCsv,
    findings,
  );
  if (!table) return null;
  const hasTimes = columns.timestamp !== undefined || columns.date !== undefined;
  const slots =
    hasTimes && findings.faults.length === before
      ? readTimes(
          table,
          {dateFormat: hourly.date_format, typicalYear: hourly.record === "typical_year", step: 60},
          hourlyPath,
          findings,
        )
      : {index: Int32Array.from(table.lines.keys()), startHour: hourly.start_hour ?? 0, startDay: null};
  const read = (role: string) => (table.columns[role] ? numberColumn(table, role, hourlyPath, findings) : null);
  const raw = {temperature: read("temperature"), solar: read("solar_W_per_m2"), wind: read("wind_m_per_s")};
  if (raw.solar) checkRange(raw.solar, table, "solar_W_per_m2", [-20, 1600, "W/m²"], findings);
  if (raw.wind) checkRange(raw.wind, table, "wind_m_per_s", [0, 75, "m/s"], findings);
  if (!slots || !raw.temperature || findings.faults.length > before) return null;

  const place = (column: NumberColumn | null, role: string) =>
    column && wholeHours(column, slots.index, table, role, findings);
  const temperature = place(raw.temperature, "temperature");
  const solar = place(raw.solar, "solar_W_per_m2");
  const wind = place(raw.wind, "wind_m_per_s");
  if (!temperature || (raw.solar && !solar) || (raw.wind && !wind)) return null;
  toCelsius(temperature, hourly.temperature_unit);
  if (hourly.temperature_is === "surface" && (solar || wind))
    findings.warn([...hourlyPath, "columns"], {
      problem: "with temperatures of the surface, sun and wind have no effect",
      accepted: "solar_W_per_m2 and wind_m_per_s only beside temperatures of the air",
    });
  const at = {path: hourlyPath, columns: ["temperature"]};
  if (looksWrong(temperature, hourly, at, findings)) return null;
  if (solar) nightOffset(solar, findings);
  const days = Math.floor(temperature.length / 24);
  if (!enoughDays(temperature.length, days, hourlyPath, findings)) return null;
  const whole = (values: Float64Array) => values.slice(0, days * 24);
  return {
    kind: hourly.temperature_is,
    temperature: whole(temperature),
    solar: solar && whole(solar),
    wind: wind && whole(wind),
    startHour: slots.startHour,
    startDay: slots.startDay,
    label: hourly.label,
  };
}

function checkTimeColumns(hourly: HourlyDocument, findings: Findings): void {
  const {timestamp, date, time} = hourly.columns;
  const at = [...hourlyPath, "columns"];
  if (timestamp !== undefined && (date !== undefined || time !== undefined))
    findings.fault([...at, "timestamp"], {
      problem: "the time is given twice",
      accepted: "either timestamp, or date and time",
    });
  else if ((date === undefined) !== (time === undefined))
    findings.fault([...at, date === undefined ? "date" : "time"], {
      problem: "date and time go together",
      accepted: "both columns, or timestamp",
    });
  const hasTimes = timestamp !== undefined || date !== undefined || time !== undefined;
  if (hasTimes && hourly.start_hour !== undefined)
    findings.fault([...hourlyPath, "start_hour"], {
      problem: "the first hour is told by the time columns already",
      accepted: "start_hour only for a file without them",
    });
  if (!hasTimes && hourly.start_hour === undefined)
    findings.fault([...hourlyPath, "start_hour"], {
      problem: "a file without time columns needs the hour of its first row",
      accepted: "a number from 0 to below 24, or the time columns of the file",
    });
}

function checkRange(
  column: NumberColumn,
  table: Table,
  role: string,
  [low, high, unit]: readonly [number, number, string],
  findings: Findings,
): void {
  const bad = [...column.values.keys()].filter(i => column.values[i] < low || column.values[i] > high);
  if (bad.length === 0) return;
  findings.fault([...hourlyPath, "columns", role], {
    problem: `impossible values in ${linesText(bad.map(i => table.lines[i]))} of the file`,
    found: `${column.values[bad[0]]} in line ${table.lines[bad[0]]}`,
    accepted: `${low} to ${high} ${unit}`,
  });
}

/** Puts a column on equal steps of an hour and fills short gaps; null when a gap is too long. */
function wholeHours(
  column: NumberColumn,
  index: Int32Array,
  table: Table,
  role: string,
  findings: Findings,
): Float64Array | null {
  const at = [...hourlyPath, "columns", role];
  const values = new Float64Array(index[index.length - 1] + 1).fill(Number.NaN);
  for (const [i, slot] of index.entries()) values[slot] = column.values[i];
  const marks = column.sentinelsFound.length > 0 ? ` (${column.sentinelsFound.join(", ")} taken as not recorded)` : "";
  const gaps: number[] = []; // lines before which something was filled in
  const long: number[] = [];
  let filled = 0;
  const lineOf = (slot: number) => table.lines[index.findIndex(other => other >= slot)];
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i])) continue;
    let end = i;
    while (end < values.length && Number.isNaN(values[end])) end++;
    const length = end - i;
    if (length > longestGap_h || i === 0 || end === values.length) long.push(lineOf(i));
    else {
      for (let k = i; k < end; k++)
        values[k] = values[i - 1] + ((values[end] - values[i - 1]) * (k - i + 1)) / (length + 1);
      gaps.push(lineOf(i));
      filled += length;
    }
    i = end;
  }
  if (long.length > 0) {
    findings.fault(at, {
      problem: `values are missing for more than ${longestGap_h} hours, or at the start or end, from ${linesText(long)} of the file${marks}`,
      accepted: `gaps of at most ${longestGap_h} hours between recorded values, which are filled in`,
      suggestion: "fill the gap from a neighbouring station, or take another year",
    });
    return null;
  }
  if (filled > 0)
    findings.warn(at, {
      problem: `${filled} missing ${filled === 1 ? "hour was" : "hours were"} filled in by straight lines, at ${linesText(gaps)} of the file${marks}`,
      accepted: "a record without gaps",
    });
  return values;
}

/** Radiometers read slightly below zero at night; sunshine is not negative. */
function nightOffset(solar: Float64Array, findings: Findings): void {
  const negative = solar.filter(value => value < 0).length;
  if (negative === 0) return;
  for (let i = 0; i < solar.length; i++) if (solar[i] < 0) solar[i] = 0;
  findings.warn([...hourlyPath, "columns", "solar_W_per_m2"], {
    problem: `${negative} values between -20 and 0 W/m² were taken as 0`,
    accepted: "irradiance of 0 or more",
  });
}
