import type {DocumentPath, Findings} from "./fault.ts";
import {dewPointOf} from "./humidity.ts";
import {linesText, type Table} from "./table.ts";

/** Place of a field in a row, from 0, and the value from which on it means "not recorded". */
interface Field {
  readonly index: number;
  readonly missing: number;
}

const fields = {
  temperature: {index: 6, missing: 99.9},
  dewPoint: {index: 7, missing: 99.9},
  humidity: {index: 8, missing: 999},
  solar: {index: 13, missing: 9999},
  wind: {index: 21, missing: 999},
  totalCloud: {index: 22, missing: 99},
  opaqueCloud: {index: 23, missing: 99},
} as const satisfies Readonly<Record<string, Field>>;

const headerLines = 8;
const fewestFields = 24;

/**
 * Hourly weather in the EPW format: eight header lines, then comma separated rows of year, month, day, hour 1 to 24, minute,
 * flags and numbers. Temperatures in °C, irradiance as Wh/m² of the hour that ends there, wind in m/s, sky cover in tenths;
 * local standard time. Opaque cover is taken where there is one, the total one elsewhere; a missing dew point is made up for
 * from relative humidity. Columns without any value are left out.
 *
 * @source EPW data dictionary in the public documentation of EnergyPlus (NREL/EnergyPlus, doc/auxiliary-programs, read)
 */
export function readEpw(text: string, path: DocumentPath, findings: Findings): Table | null {
  const at = [...path, "file"];
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
  const periods = lines[headerLines - 1]?.split(",") ?? [];
  if (!/^LOCATION,/i.test(lines[0]) || !/^DATA PERIODS$/i.test(periods[0].trim())) {
    findings.fault(at, {
      problem: `the file does not begin with the ${headerLines} header lines of the format`,
      found: JSON.stringify(lines[0].slice(0, 40)),
      accepted: "a first line that begins with LOCATION, an eighth that begins with DATA PERIODS",
    });
    return null;
  }
  if (Number(periods[2]) !== 1) {
    findings.fault(at, {
      problem: `line ${headerLines} says that there is not one row an hour`,
      found: `${periods[2]} rows an hour`,
      accepted: "one row an hour",
    });
    return null;
  }
  const rows = lines.flatMap((line, i) =>
    i < headerLines || line.trim() === "" ? [] : [{cells: line.split(","), line: i + 1}],
  );
  const bad = rows.filter(({cells}) => !isRow(cells)).map(({line}) => line);
  if (bad.length > 0 || rows.length === 0) {
    findings.fault(at, {
      problem:
        rows.length === 0 ? "the file has no rows below its header" : `no rows of the format in ${linesText(bad)}`,
      accepted: `year, month, day, hour, minute, flags and numbers: at least ${fewestFields} fields`,
    });
    return null;
  }
  return tableOf(rows);
}

function isRow(cells: readonly string[]): boolean {
  const numbers = [0, 1, 2, 3, ...Object.values(fields).map(({index}) => index)];
  return cells.length >= fewestFields && numbers.every(i => /^\s*[-+]?\d*\.?\d*([eE][-+]?\d+)?\s*$/.test(cells[i]));
}

function tableOf(rows: readonly {readonly cells: readonly string[]; readonly line: number}[]): Table {
  const value = (cells: readonly string[], {index, missing}: Field): number | null => {
    const cell = cells[index].trim();
    return cell === "" || Number(cell) >= missing ? null : Number(cell);
  };
  const column = (of: (cells: readonly string[]) => number | null) => rows.map(({cells}) => String(of(cells) ?? ""));
  const optional = {
    dew_point: column(cells => {
      const temperature = value(cells, fields.temperature);
      const humidity = value(cells, fields.humidity);
      const fromHumidity = temperature === null || !humidity ? null : dewPointOf(temperature, humidity);
      return value(cells, fields.dewPoint) ?? fromHumidity;
    }),
    solar_W_per_m2: column(cells => value(cells, fields.solar)),
    wind_m_per_s: column(cells => value(cells, fields.wind)),
    cloud_tenths: column(cells => value(cells, fields.opaqueCloud) ?? value(cells, fields.totalCloud)),
  };
  return {
    columns: {
      date: rows.map(({cells}) => [0, 1, 2].map(i => cells[i].trim().padStart(i === 0 ? 4 : 1, "0")).join("-")),
      time: rows.map(({cells}) => `${Number(cells[3])}:00`),
      temperature: column(cells => value(cells, fields.temperature)),
      ...Object.fromEntries(Object.entries(optional).filter(([, cells]) => cells.some(cell => cell !== ""))),
    },
    lines: Int32Array.from(rows, ({line}) => line),
    cleaned: true,
  };
}
