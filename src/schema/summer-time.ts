import {linesText} from "./table.ts";

const minutesOfDay = 1440;
/** Clocks change at night: the hour after the change begins at four at the latest [min]. */
const latestChange = 4 * 60;
/** Longest summer time in use, 34 weeks, and a week [min]; common practice, no source. */
const longestSummer = 35 * 7 * minutesOfDay;

export type StandardTime =
  | {readonly kind: "standard"; readonly minutes: Float64Array; readonly told: string} // `told`: where clocks change
  | {readonly kind: "unclear"; readonly problem: string};

/**
 * Local clock time with summer time turned into standard time. Clocks go back where an hour of the night stands twice, and forward
 * where one is missing; of several such hours before the same double one, the one on a Sunday. A record may begin or end in
 * summer. One missing hour that no double hour follows is a change only on a Sunday, and otherwise a gap in the record.
 *
 * @param minutes  clock time of each row, an hour apart but for the changes [min]
 * @param lines    of the file, for messages
 */
export function toStandardTime(minutes: Float64Array, lines: Int32Array): StandardTime {
  const {forward, back} = changesIn(minutes);
  const standard = minutes.slice();
  const told: string[] = [];
  const unclear = (problem: string): StandardTime => ({kind: "unclear", problem});
  const where = (row: number) => `line ${lines[row]}`;
  const shift = (from: number, to: number) => {
    for (let i = from; i < to; i++) standard[i] -= 60;
  };
  let since = 0; // row after the last change back
  for (const end of back) {
    const candidates = forward.filter(row => row > since && row < end);
    const beginning = onlyOne(candidates, minutes);
    if (beginning === "several")
      return unclear(
        `several single hours are missing before the double one of ${where(end)}, ${linesText(candidates.map(row => lines[row]))}: where summer time begins cannot be told`,
      );
    if (beginning === null && since > 0)
      return unclear(`the hour of ${where(end)} stands twice, but none is missing in the spring before`);
    const begin = beginning ?? 0;
    if (minutes[end] - minutes[begin] > longestSummer)
      return unclear(`the hour of ${where(end)} stands twice, but none is missing in the spring before`);
    shift(begin, end);
    told.push(`${begin > 0 ? `forward before ${where(begin)}, ` : ""}back at ${where(end)}`);
    since = end;
  }
  const last = onlyOne(
    forward.filter(row => row > since && isSunday(minutes[row])),
    minutes,
  );
  if (last === "several")
    return unclear("several single hours are missing on Sundays and none stands twice after them");
  if (last !== null) {
    if (minutes[minutes.length - 1] - minutes[last] > longestSummer)
      return unclear(`an hour is missing before ${where(last)}, but none stands twice in the autumn after it`);
    shift(last, minutes.length);
    told.push(`forward before ${where(last)}`);
  }
  return {kind: "standard", minutes: standard, told: told.join("; ")};
}

/** Rows before which one hour is missing, and rows whose hour stands twice. */
function changesIn(minutes: Float64Array): {readonly forward: readonly number[]; readonly back: readonly number[]} {
  const forward: number[] = [];
  const back: number[] = [];
  for (let i = 1; i < minutes.length; i++) {
    if (minutes[i] % minutesOfDay > latestChange) continue;
    const passed = minutes[i] - minutes[i - 1];
    if (passed === 120) forward.push(i);
    else if (passed === 0) back.push(i);
  }
  return {forward, back};
}

function onlyOne(rows: readonly number[], minutes: Float64Array): number | null | "several" {
  if (rows.length <= 1) return rows[0] ?? null;
  const sundays = rows.filter(row => isSunday(minutes[row]));
  return sundays.length === 1 ? sundays[0] : "several";
}

function isSunday(minutes: number): boolean {
  return new Date(minutes * 60_000).getUTCDay() === 0;
}
