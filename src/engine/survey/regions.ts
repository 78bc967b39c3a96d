/** Parts of a survey where the same is to be said. */
import {axisValues, coordinate, type Field, type Survey, type SurveyAxis} from "./field.ts";
import {type Judgement, judge} from "./judgement.ts";

/** A field looked at on an even grid, finer than its nodes; rows from the first value of y up. */
export interface Panorama {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly cells: readonly (readonly (Judgement | null)[])[]; // by row and column; null: could not be computed
}

export interface PanoramaPlaces {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly longest: number; // life that is told [years]
}

/** Of a treatment and of what it is compared with. */
export interface FieldPair {
  readonly control: Field;
  readonly treated: Field;
}

export function panorama({control, treated}: FieldPair, {x, y, longest}: PanoramaPlaces): Panorama {
  const cells = y.map(b =>
    x.map(a => {
      const [own, other] = [treated(a, b), control(a, b)];
      return own && other && judge(other, own, longest);
    }),
  );
  return {x, y, cells};
}

/** So many values over the whole of an axis. */
export function evenly({values, log}: SurveyAxis, count: number): number[] {
  return axisValues(values[0], values[values.length - 1], {count, log});
}

export interface Region {
  readonly cause: Judgement["cause"];
  readonly effect: Judgement["effect"];
  readonly share: number; // of the panorama's area [–]
  readonly ratio: readonly [low: number, high: number]; // as computed
  readonly life: readonly [low: number, high: number]; // of the treated section [years]
  readonly mechanisms: readonly string[]; // that govern it, by frequency
  readonly inside: {readonly column: number; readonly row: number}; // the cell farthest from where it ends
}

/** Largest first. */
export function regionsOf({cells}: Panorama): Region[] {
  const keys = cells.map(row => row.map(c => (c ? `${c.cause}/${c.effect}` : "")));
  const groups = new Map<string, Judgement[]>();
  for (const cell of cells.flat()) {
    if (!cell) continue;
    const key = `${cell.cause}/${cell.effect}`;
    const group = groups.get(key);
    if (group) group.push(cell);
    else groups.set(key, [cell]);
  }
  const total = cells.length * cells[0].length;
  return [...groups]
    .map(([key, own]) => ({
      cause: own[0].cause,
      effect: own[0].effect,
      share: own.length / total,
      ratio: range(own.map(c => c.ratio)),
      life: range(own.map(c => c.treated.years)),
      mechanisms: byFrequency(own.map(c => c.treated.mechanism)),
      inside: innermost(keys, key),
    }))
    .sort((a, b) => b.share - a.share);
}

function range(values: readonly number[]): [number, number] {
  return values.reduce<[number, number]>(
    ([low, high], v) => [Math.min(low, v), Math.max(high, v)],
    [Infinity, -Infinity],
  );
}

function byFrequency(words: readonly string[]): string[] {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]).map(([word]) => word);
}

/** The cell of a region from which most steps lead to its end, walls of the picture counting as one. */
function innermost(keys: readonly (readonly string[])[], key: string): Region["inside"] {
  const steps = keys.map(row => row.map(k => (k === key ? Infinity : 0)));
  const at = (r: number, c: number): number => steps[r]?.[c] ?? 0;
  const relax = (r: number, c: number, neighbours: readonly (readonly [number, number])[]): void => {
    for (const [dr, dc] of neighbours) steps[r][c] = Math.min(steps[r][c], 1 + at(r + dr, c + dc));
  };
  const [rows, columns] = [keys.length, keys[0].length];
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++)
      relax(r, c, [
        [-1, -1],
        [-1, 0],
        [-1, 1],
        [0, -1],
      ]);
  for (let r = rows - 1; r >= 0; r--)
    for (let c = columns - 1; c >= 0; c--)
      relax(r, c, [
        [1, -1],
        [1, 0],
        [1, 1],
        [0, 1],
      ]);
  let best = {column: 0, row: 0};
  let most = -1;
  steps.forEach((row, r) => {
    row.forEach((s, c) => {
      if (s > most) [best, most] = [{column: c, row: r}, s];
    });
  });
  return best;
}

/** By how much the ratio changes along an axis at most, the other held: largest over smallest, less 1 [–]. Null: no ratios. */
export function variationAlong({cells}: Panorama, axis: "x" | "y"): number | null {
  const lines = axis === "x" ? cells : cells[0].map((_, c) => cells.map(row => row[c]));
  const each = lines.flatMap(line => {
    const ratios = line.flatMap(c => (c?.kind === "ratio" ? [c.ratio] : []));
    return ratios.length > 1 ? [Math.max(...ratios) / Math.min(...ratios) - 1] : [];
  });
  return each.length > 0 ? Math.max(...each) : null;
}

/** The judgement at one value of each input; null outside the survey. */
export function judgedAt(
  {x, y}: Pick<Survey, "x" | "y">,
  {control, treated}: FieldPair,
  at: {readonly x: number; readonly y: number; readonly longest: number},
): Judgement | null {
  if (!within(x, at.x) || !within(y, at.y)) return null;
  const [own, other] = [treated(at.x, at.y), control(at.x, at.y)];
  return own && other && judge(other, own, at.longest);
}

const SLACK = 1e-9; // relative to the length of an axis

function within(axis: SurveyAxis, value: number): boolean {
  const [low, high] = [axis.values[0], axis.values[axis.values.length - 1]].map(v => coordinate(axis, v));
  const slack = SLACK * (high - low);
  const place = coordinate(axis, value);
  return place >= low - slack && place <= high + slack;
}
