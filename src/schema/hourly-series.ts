import type {Findings} from "./fault.ts";
import {columnPath} from "./hourly-table.ts";
import type {HourlyDocument} from "./study.ts";
import {linesText, type NumberColumn, numberColumn, type Table} from "./table.ts";
import {longestGap_h, type Slots} from "./timestamps.ts";

/** A record's rows, where they lie in time, and how the study describes them. */
export interface Rows {
  readonly hourly: HourlyDocument;
  readonly table: Table;
  readonly findings: Findings;
}

type Range = readonly [low: number, high: number, unit: string];

/** What can be; wider than any weather, narrower than a column in another unit. */
const ranges: Readonly<Record<string, Range>> = {
  solar_W_per_m2: [-20, 1600, "W/m²"],
  wind_m_per_s: [0, 75, "m/s"],
  relative_humidity_percent: [1, 110, "%"],
  cloud_tenths: [0, 10, "tenths"],
  cloud_oktas: [0, 9, "eighths, 9 for obscured"],
  cloud_percent: [0, 100, "%"],
};

/** A column as numbers, impossible ones told; null when there is none or a fault. */
export function readColumn(role: string, {hourly, table, findings}: Rows): NumberColumn | null {
  if (!table.columns[role]) return null;
  const column = numberColumn(table, role, ["climate", "hourly"], findings);
  const range = ranges[role];
  if (!column || !range) return column;
  const [low, high, unit] = range;
  const bad = [...column.values.keys()].filter(i => column.values[i] < low || column.values[i] > high);
  if (bad.length > 0)
    findings.fault(columnPath(hourly, role), {
      problem: `impossible values${named(hourly, role)} in ${linesText(bad.map(i => table.lines[i]))} of the file`,
      found: `${column.values[bad[0]]} in line ${table.lines[bad[0]]}`,
      accepted: `${low} to ${high} ${unit}`,
    });
  return column;
}

/** Names a column where its place does not. */
function named(hourly: HourlyDocument, role: string): string {
  return hourly.format === "csv" ? "" : ` of ${role}`;
}

/**
 * Puts a column on equal steps of an hour and fills short gaps; null when a gap is too long. That is a fault, unless nobody has
 * asked for the column: then it is left out, which the findings tell.
 */
export function wholeHours(column: NumberColumn, role: string, slots: Slots, rows: Rows): Float64Array | null {
  const {hourly, table, findings} = rows;
  const {index} = slots;
  const at = columnPath(hourly, role);
  const values = new Float64Array(index[index.length - 1] + 1).fill(Number.NaN);
  for (const [i, slot] of index.entries()) values[slot] = column.values[i];
  const marks = column.sentinelsFound.length > 0 ? ` (${column.sentinelsFound.join(", ")} taken as not recorded)` : "";
  const gaps: number[] = []; // lines before which something was filled in
  const long: number[] = [];
  let filled = 0;
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i])) continue;
    let end = i;
    while (end < values.length && Number.isNaN(values[end])) end++;
    const length = end - i;
    if (length > longestGap_h || i === 0 || end === values.length) long.push(lineAt(i, slots, table));
    else {
      for (let k = i; k < end; k++)
        values[k] = values[i - 1] + ((values[end] - values[i - 1]) * (k - i + 1)) / (length + 1);
      gaps.push(lineAt(i, slots, table));
      filled += length;
    }
    i = end;
  }
  const name = named(hourly, role);
  if (long.length > 0) {
    const missing = `values${name} are missing for more than ${longestGap_h} hours, or at the start or end, from ${linesText(long)} of the file${marks}`;
    const accepted = `gaps of at most ${longestGap_h} hours between recorded values, which are filled in`;
    if (name !== "" && role !== "temperature") findings.warn(at, {problem: `${missing}: they are not used`, accepted});
    else
      findings.fault(at, {
        problem: missing,
        accepted,
        suggestion: "fill the gap from a neighbouring station, or take another year",
      });
    return null;
  }
  if (filled > 0)
    findings.warn(at, {
      problem: `${filled} missing ${filled === 1 ? "hour" : "hours"}${name} ${filled === 1 ? "was" : "were"} filled in by straight lines, at ${linesText(gaps)} of the file${marks}`,
      accepted: "a record without gaps",
    });
  return values;
}

/** Line of the first row at a slot or after it. */
export function lineAt(slot: number, {index}: Slots, table: Table): number {
  let [low, high] = [0, index.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (index[middle] < slot) low = middle + 1;
    else high = middle;
  }
  return table.lines[low];
}
