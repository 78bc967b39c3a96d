import type {DocumentPath, Findings} from "./fault.ts";
import {linesText, type Table} from "./table.ts";

/** First and last character of the fields that are used, from 0 and exclusive. */
const places = {
  year: [0, 4],
  month: [5, 7],
  day: [8, 11],
  hour: [11, 13],
  temperature: [13, 19],
  dewPoint: [19, 25],
  wind: [37, 43],
  cloud: [43, 49],
} as const;
type Place = keyof typeof places;

const missing = -9999;
const tenths = 10;

/**
 * Part of the sky under cloud by the codes above the oktas 0 to 8: obscured sky counts as covered; scattered, broken and
 * overcast as the 4, 7 and 8 oktas that the format's own list gives for these words; a partly obscured sky (10) tells nothing.
 */
const oktasOfCode: Readonly<Record<number, number>> = {
  9: 8,
  11: 4,
  12: 4,
  13: 4,
  14: 7,
  15: 7,
  16: 7,
  17: 8,
  18: 8,
  19: 8,
};

/**
 * Hourly weather in the ISD-Lite format: lines of fixed width with year, month, day and hour in UTC, then air temperature and
 * dew point in tenths of °C, pressure, wind direction, wind speed in tenths of m/s and a code of sky cover; −9999 stands for
 * not recorded. It has no sunshine.
 *
 * @param utcOffset  of local standard time, east positive [h]
 * @source ISD-Lite format documentation, 20 June 2006 (read in a copy; the codes of sky cover above 8 from memory)
 */
export function readIsdLite(text: string, utcOffset: number, path: DocumentPath, findings: Findings): Table | null {
  const rows = text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\r|\n/)
    .flatMap((line, i) => (line.trim() === "" ? [] : [{values: valuesOf(line), line: i + 1}]));
  const bad = rows.filter(({values}) => values === null).map(({line}) => line);
  if (bad.length > 0 || rows.length === 0) {
    findings.fault([...path, "file"], {
      problem: rows.length === 0 ? "the file is empty" : `no rows of the format in ${linesText(bad)} of the file`,
      accepted: "lines of fixed width: year, month, day, hour and eight whole numbers of six places",
    });
    return null;
  }
  const good = rows as readonly {readonly values: Values; readonly line: number}[];
  const local = good.map(({values: {year, month, day, hour}}) =>
    new Date(Date.UTC(year, month - 1, day, hour) + utcOffset * 3_600_000).toISOString(),
  );
  const column = (place: Place) =>
    good.map(({values}) => (values[place] === missing ? "" : String(values[place] / tenths)));
  const optional = {
    dew_point: column("dewPoint"),
    wind_m_per_s: column("wind"),
    cloud_oktas: good.map(({values: {cloud}}) => String((cloud >= 0 && cloud <= 8 ? cloud : oktasOfCode[cloud]) ?? "")),
  };
  return {
    columns: {
      date: local.map(instant => instant.slice(0, 10)),
      time: local.map(instant => instant.slice(11, 16)),
      temperature: column("temperature"),
      ...Object.fromEntries(Object.entries(optional).filter(([, cells]) => cells.some(cell => cell !== ""))),
    },
    lines: Int32Array.from(good, ({line}) => line),
    cleaned: true,
  };
}

type Values = Readonly<Record<Place, number>>;

/** The fields of a line as numbers, or null when it is none of the format. */
function valuesOf(line: string): Values | null {
  const cells = Object.entries(places).map(([place, [from, to]]) => [place, line.slice(from, to).trim()] as const);
  if (!cells.every(([, cell]) => /^-?\d+$/.test(cell))) return null;
  const values = Object.fromEntries(cells.map(([place, cell]) => [place, Number(cell)])) as Values;
  const {year, month, day, hour} = values;
  const date = new Date(Date.UTC(year, month - 1, day));
  const isDate = date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return isDate && hour >= 0 && hour < 24 ? values : null;
}
