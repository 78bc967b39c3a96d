import {typicalYear} from "../engine/climate/index.ts";
import type {WeatherRecord} from "../engine/climate/types.ts";
import {dailyToHourly} from "./daily.ts";
import type {Findings} from "./fault.ts";
import {lineAt, type Rows, readColumn, wholeHours} from "./hourly-series.ts";
import {columnPath, hourlyPath, hourlyTable} from "./hourly-table.ts";
import {dewPointOf} from "./humidity.ts";
import {looksWrong, toCelsius} from "./look-of-temperatures.ts";
import {enoughDays} from "./record-length.ts";
import type {ClimateDocument, HourlyDocument} from "./study.ts";
import {linesText, type NumberColumn, type ReadCsv} from "./table.ts";
import {readTimes, type Slots} from "./timestamps.ts";

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

function readHourly(hourly: HourlyDocument, readCsv: ReadCsv, findings: Findings): WeatherRecord | null {
  const before = findings.faults.length;
  const table = hourlyTable(hourly, readCsv, findings);
  if (!table) return null;
  const rows: Rows = {hourly, table, findings};
  const slots = findings.faults.length === before ? slotsOf(rows) : null;
  const temperatureColumn = readColumn("temperature", rows);
  const columns = {
    solar_W_per_m2: readColumn("solar_W_per_m2", rows),
    wind_m_per_s: readColumn("wind_m_per_s", rows),
    dew_point: readColumn("dew_point", rows),
    relative_humidity_percent: readColumn("relative_humidity_percent", rows),
  };
  const cover = cloudColumn(rows);
  onlyOneHumidity(rows);
  if (!slots || !temperatureColumn || findings.faults.length > before) return null;

  const temperature = wholeHours(temperatureColumn, "temperature", slots, rows);
  const place = (role: keyof typeof columns) => {
    const column = columns[role];
    return column && wholeHours(column, role, slots, rows);
  };
  const solar = place("solar_W_per_m2");
  const wind = place("wind_m_per_s");
  const dewPoint = place("dew_point");
  const humidity = place("relative_humidity_percent");
  const cloud = cover && wholeHours(cover.column, cover.role, slots, rows);
  if (!temperature || findings.faults.length > before) return null;
  toCelsius(temperature, hourly.temperature_unit);
  if (dewPoint) toCelsius(dewPoint, hourly.temperature_unit);
  if (hourly.temperature_is === "surface" && (solar || wind || dewPoint || humidity || cloud))
    findings.warn([...hourlyPath, "columns"], {
      problem: "with temperatures of the surface, sun, wind, humidity and cloud have no effect",
      accepted: "these columns only beside temperatures of the air",
    });
  if (looksWrong(temperature, hourly, {path: hourlyPath, columns: ["temperature"]}, findings)) return null;
  if (dewPoint && aboveAir(dewPoint, temperature, slots, rows)) return null;
  if (solar) nightOffset(solar, rows);
  const days = Math.floor(temperature.length / 24);
  if (!enoughDays(temperature.length, days, hourlyPath, findings)) return null;
  const whole = (values: Float64Array) => values.slice(0, days * 24);
  const record: WeatherRecord = {
    kind: hourly.temperature_is,
    temperature: whole(temperature),
    solar: solar && whole(solar),
    wind: wind && whole(wind),
    dewPoint: dewPoint
      ? whole(dewPoint)
      : humidity && whole(humidity).map((percent, i) => dewPointOf(temperature[i], percent)),
    cloud: cloud && whole(cloud),
    startHour: slots.startHour,
    startDay: slots.startDay,
    label: hourly.label,
  };
  return hourly.choose_typical_year ? chosenYear(record, slots.startYear!, findings) : record; // dated: checkTimeColumns
}

/** Fewer days cannot hold every month twice. */
const fewestForChoice = 730;
/** The published procedure chooses among 15 to 30 years; among fewer than this the choice says little. */
const usualForChoice = 10;
const monthNames = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** A typical year made of months of the record, with a label that says which. */
function chosenYear(record: WeatherRecord, firstYear: number, findings: Findings): WeatherRecord | null {
  const at = [...hourlyPath, "choose_typical_year"];
  const days = record.temperature.length / 24;
  if (days < fewestForChoice) {
    findings.fault(at, {
      problem: "the record is too short to choose a typical year from",
      found: `${days} days`,
      accepted: `at least ${fewestForChoice} days, best ten years or more`,
    });
    return null;
  }
  const {record: typical, months} = typicalYear(record, firstYear);
  const fewest = Math.min(...months.map(({candidates}) => candidates));
  if (fewest < usualForChoice)
    findings.warn(at, {
      problem: "months were chosen among few years",
      found: `${fewest} years`,
      accepted: `${usualForChoice} years or more`,
    });
  const from = months.map(({month, year}) => `${monthNames[month]} ${year}`).join(", ");
  return {...typical, label: `${record.label}; typical year chosen month by month: ${from}`};
}

function slotsOf({hourly, table, findings}: Rows): Slots | null {
  if (!table.columns.timestamp && !table.columns.date) {
    const index = Int32Array.from(table.lines.keys());
    return {index, startHour: hourly.start_hour ?? 0, startDay: null, startYear: null};
  }
  return readTimes(
    table,
    {
      dateFormat: hourly.format === "csv" ? hourly.date_format : "YYYY-MM-DD",
      typicalYear: hourly.record === "typical_year",
      step: 60,
      summerTime: hourly.clock === "summer_time",
    },
    hourlyPath,
    findings,
  );
}

/** Units in which sky cover may be given, and how many of them are the whole sky. */
const cloudUnits = {cloud_tenths: 10, cloud_oktas: 8, cloud_percent: 100} as const;

/** Sky cover as parts of the sky, from whichever column there is. */
function cloudColumn(rows: Rows): {readonly role: string; readonly column: NumberColumn} | null {
  const roles = Object.entries(cloudUnits).filter(([role]) => rows.table.columns[role]);
  if (roles.length > 1)
    rows.findings.fault(columnPath(rows.hourly, roles[1][0]), {
      problem: "sky cover is given twice",
      accepted: `one of ${Object.keys(cloudUnits).join(", ")}`,
    });
  if (roles.length === 0) return null;
  const [[role, whole]] = roles;
  const column = readColumn(role, rows);
  return column && {role, column: {...column, values: column.values.map(value => Math.min(1, value / whole))}}; // 9 eighths: obscured
}

function onlyOneHumidity({hourly, table, findings}: Rows): void {
  if (table.columns.dew_point && table.columns.relative_humidity_percent)
    findings.fault(columnPath(hourly, "relative_humidity_percent"), {
      problem: "humidity is given twice",
      accepted: "either dew_point or relative_humidity_percent",
    });
}

/** Rounding and two instruments may bring the dew point this far above the air [K]. */
const dewPointTolerance = 2;

function aboveAir(
  dewPoint: Float64Array,
  temperature: Float64Array,
  slots: Slots,
  {hourly, table, findings}: Rows,
): boolean {
  const bad = [...dewPoint.keys()].filter(i => dewPoint[i] > temperature[i] + dewPointTolerance);
  if (bad.length === 0) return false;
  findings.fault(columnPath(hourly, "dew_point"), {
    problem: `the dew point is above the temperature of the air in ${linesText(bad.map(i => lineAt(i, slots, table)))} of the file`,
    found: `${dewPoint[bad[0]].toFixed(1)} °C at ${temperature[bad[0]].toFixed(1)} °C`,
    accepted: `a dew point at most ${dewPointTolerance} K above the air`,
    suggestion: "are the two columns swapped, or in different units?",
  });
  return true;
}

/** Radiometers read slightly below zero at night; sunshine is not negative. */
function nightOffset(solar: Float64Array, {hourly, findings}: Rows): void {
  const negative = solar.filter(value => value < 0).length;
  if (negative === 0) return;
  for (let i = 0; i < solar.length; i++) if (solar[i] < 0) solar[i] = 0;
  findings.warn(columnPath(hourly, "solar_W_per_m2"), {
    problem: `${negative} values between -20 and 0 W/m² were taken as 0`,
    accepted: "irradiance of 0 or more",
  });
}
