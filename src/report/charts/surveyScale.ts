/** Bands and colours of maps of a survey, and the key to them. */

import {figures, yearsNumber} from "../format.ts";
import {type Html, html} from "../html.ts";
import {MUTED} from "../palette.ts";
import {levelsFor} from "./contours.ts";
import {divergingColour, sequentialColour} from "./scheme.ts";

export interface MapScale {
  readonly levels: readonly number[]; // ascending, > 0
  readonly colours: readonly string[]; // of the bands: one more than levels
  readonly text: (level: number) => string;
  readonly heavy: number | null; // level drawn as a thick line
}

const RATIO_LADDERS = [
  [1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.8, 2, 2.25, 2.5, 3, 4, 5, 6, 7, 8, 9],
  [1, 1.1, 1.25, 1.5, 1.75, 2, 2.5, 3, 4, 5, 7, 8, 9],
  [1, 1.25, 1.5, 2, 3, 5, 7, 9],
  [1, 2, 5],
  [1],
] as const;
const LIFE_LADDERS = [[1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9], [1, 1.5, 2, 3, 4, 5, 7], [1, 2, 5], [1]] as const;

/** White lies at 1 and the ends are so far from it at least. */
const LEAST_REACH = Math.log(2);

/**
 * Bands of what is compared with the control; 1 is always a level when it is within.
 *
 * @param good  side of 1 that has the colours of gain
 */
export function ratioScale(values: Iterable<number>, good: "above" | "below" = "above"): MapScale {
  const [low, high] = extent(values);
  const levels = levelsFor(low, high, RATIO_LADDERS);
  const reach = Math.max(LEAST_REACH, Math.log(high), -Math.log(low));
  const middles = bandMiddles(levels, low, high);
  return {
    levels,
    colours: middles.map(m => divergingColour((good === "above" ? 1 : -1) * (Math.log(m) / reach))),
    text: v => `×${figures(v)}`,
    heavy: 1,
  };
}

/** Bands of life; the same for all maps that are to be compared. */
export function lifeScale(values: Iterable<number>): MapScale {
  const [low, high] = extent(values);
  const levels = levelsFor(low, high, LIFE_LADDERS);
  const middles = bandMiddles(levels, low, high);
  const part = (v: number): number => (high > low ? Math.log(v / low) / Math.log(high / low) : 0.5);
  return {levels, colours: middles.map(m => sequentialColour(part(m))), text: yearsNumber, heavy: null};
}

function extent(values: Iterable<number>): [number, number] {
  let [low, high] = [Infinity, 0];
  for (const v of values) if (v > 0 && v < Infinity) [low, high] = [Math.min(low, v), Math.max(high, v)];
  return high > 0 ? [low, high] : [1, 1];
}

/** Where a band ends outside the values, the value. */
function bandMiddles(levels: readonly number[], low: number, high: number): number[] {
  const ends = [low, ...levels, high];
  return ends.slice(1).map((end, k) => Math.sqrt(end * ends[k]!));
}

/** Colours with what they stand for. */
export function mapKey({levels, colours, text}: MapScale): Html {
  const words = colours.map((_, k) => {
    if (levels.length === 0) return "all alike";
    if (k === 0) return `below ${text(levels[0]!)}`;
    return k === levels.length ? `above ${text(levels[k - 1]!)}` : `${text(levels[k - 1]!)} to ${text(levels[k]!)}`;
  });
  return html`<p class="legend">${colours.map(
    (colour, k) =>
      html`<span><b style="display:inline-block;width:1.5em;height:.8em;background:${colour};border:1px solid ${MUTED}"></b> ${words[k]}</span> `,
  )}</p>`;
}
