/** A survey as a map over two inputs: bands of equal ratio or life, contour lines with their values, the study as it is. */

import * as Plot from "@observablehq/plot";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED, PAPER} from "../palette.ts";
import {clearest, crossings, type Pixel, type ValueGrid} from "./contours.ts";
import {type Axis, type Canvas, chart, HALO, logTicks, textWidth, toPixel} from "./frame.ts";
import type {TakenScale} from "./scales.ts";
import type {MapScale} from "./surveyScale.ts";

export interface MapAxis {
  readonly label: string;
  readonly domain: readonly [number, number];
  readonly log: boolean;
}

/** What a map shows, all by row and column of an even grid over the axes, rows upward. */
export interface SurveyMap {
  readonly title: string; // read out in place of the picture
  readonly x: MapAxis;
  readonly y: MapAxis;
  readonly values: ValueGrid; // [–] or [years]; NaN: not known
  readonly blank: readonly (readonly boolean[])[]; // where there is nothing to show
  readonly regions: readonly (readonly string[])[] | null; // by what is to be said; lines are drawn where it changes
  readonly badges: readonly {readonly text: string; readonly column: number; readonly row: number}[];
  readonly nodes: readonly MapNode[];
  readonly present: {readonly x: number; readonly y: number} | null; // the study as it is
  readonly scale: MapScale;
  readonly height: number; // [px]
}

export interface MapNode {
  readonly x: number;
  readonly y: number;
  readonly kind: "computed" | "bound" | "failed";
}

const MARGIN = {top: 24, bottom: 42, left: 58, right: 16}; // [px]
const BADGE = 9; // radius [px]

export function surveyChart(map: SurveyMap, canvas: Canvas): Html {
  const frame = {
    left: MARGIN.left,
    right: canvas.width - MARGIN.right,
    top: MARGIN.top,
    bottom: map.height - MARGIN.bottom,
  };
  const x: Axis = {...map.x, range: [frame.left, frame.right]};
  const y: Axis = {...map.y, range: [frame.bottom, frame.top]};
  const grid = gridOf(map, frame);
  const badges = map.badges.map(b => ({...b, ...grid.pixel(b)}));
  const present = map.present && {x: toPixel(x, map.present.x), y: toPixel(y, map.present.y)};
  const labels = contourLabels(map, grid, {
    frame,
    taken: [...badges, ...(present ? [present, besideOf(present, frame)] : [])],
  });
  return chart(canvas, map.title, {
    height: map.height,
    margin: MARGIN,
    // Everything is placed in pixels: contours know no logarithmic axis.
    x: {type: "linear", domain: [frame.left, frame.right], axis: null},
    y: {type: "linear", domain: [frame.bottom, frame.top], axis: null},
    color: {type: "identity"},
    told: {x: toldAxis(map.x, x), y: toldAxis(map.y, y)},
    alwaysLight: true,
    marks: [
      ...bands(map, grid),
      ...contourLines(map, grid),
      ...blanks(map, grid),
      ...regionLines(map, grid),
      ...nodeMarks(map, {x, y}),
      ...axisMarks(map, {x, y}),
      Plot.frame({stroke: MUTED, strokeWidth: 0.8}),
      Plot.text(labels, {
        x: "x",
        y: "y",
        text: "text",
        fill: INK,
        fontWeight: (l: Label) => (l.heavy ? 700 : 400),
        ...HALO,
      } as never),
      Plot.dot(badges, {x: "x", y: "y", r: BADGE, fill: PAPER, stroke: INK, strokeWidth: 1.2}),
      Plot.text(badges, {x: "x", y: "y", text: "text", fill: INK, fontWeight: 700}),
      ...presentMarks(present, frame),
    ],
  });
}

/** What stands along an axis that is drawn in pixels. */
function toldAxis({label}: MapAxis, {log, domain, range}: Axis): TakenScale {
  return {type: log ? "log" : "linear", domain, range, label};
}

interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface PlacedGrid {
  readonly columns: number;
  readonly rows: number;
  readonly pixel: (at: {readonly column: number; readonly row: number}) => Pixel;
  readonly area: {readonly x1: number; readonly x2: number; readonly y1: number; readonly y2: number}; // [px]; rows upward
}

/** First and last columns and rows lie on the frame. */
function gridOf({values}: SurveyMap, {left, right, top, bottom}: Frame): PlacedGrid {
  const [rows, columns] = [values.length, values[0]!.length];
  const [dx, dy] = [(right - left) / (columns - 1), (bottom - top) / (rows - 1)];
  return {
    columns,
    rows,
    pixel: ({column, row}) => ({x: left + column * dx, y: bottom - row * dy}),
    // Contours take values to stand at the middle of cells.
    area: {x1: left - dx / 2, x2: right + dx / 2, y1: bottom + dy / 2, y2: top - dy / 2},
  };
}

function contourOptions(grid: PlacedGrid) {
  return {width: grid.columns, height: grid.rows, ...grid.area, clip: true as const};
}

/** From the lowest band up, each over the one before. */
function bands({values, scale}: SurveyMap, grid: PlacedGrid): Plot.Markish[] {
  const flat = logsOf(values);
  const {x1, x2, y1, y2} = grid.area;
  return [
    Plot.rect([0], {x1, x2, y1, y2, fill: scale.colours[0], clip: true}),
    ...scale.levels.map((level, k) =>
      Plot.contour(flat, {
        ...contourOptions(grid),
        thresholds: [Math.log(level)],
        fill: scale.colours[k + 1],
        stroke: "none",
      } as never),
    ),
  ];
}

/** What is not known is blank anyway. */
function logsOf(values: ValueGrid): number[] {
  return values.flat().map(v => (Number.isNaN(v) ? 0 : Math.log(v)));
}

const BLANK = "#c6cad0";

/** Where there is no value. */
function blanks({blank}: SurveyMap, grid: PlacedGrid): Plot.Markish[] {
  const flat: number[] = blank.flat().map(b => (b ? 1 : 0));
  if (!flat.includes(1)) return [];
  return [Plot.contour(flat, {...contourOptions(grid), thresholds: [0.5], fill: BLANK, stroke: "none"} as never)];
}

function contourLines({values, scale}: SurveyMap, grid: PlacedGrid): Plot.Markish[] {
  const flat = logsOf(values);
  return scale.levels.map(level =>
    Plot.contour(flat, {
      ...contourOptions(grid),
      thresholds: [Math.log(level)],
      stroke: INK,
      strokeWidth: level === scale.heavy ? 2.6 : 0.7,
      strokeOpacity: level === scale.heavy ? 1 : 0.65,
    } as never),
  );
}

const SMOOTH = 1.2; // of the lines between regions [cells]

function regionLines({regions}: SurveyMap, grid: PlacedGrid): Plot.Markish[] {
  const names = [...new Set((regions ?? []).flat())];
  if (names.length < 2) return [];
  // The last one is bounded by the others.
  return names.slice(0, -1).map(name =>
    Plot.contour(
      regions!.flat().map(r => (r === name ? 1 : 0)),
      {
        ...contourOptions(grid),
        thresholds: [0.5],
        blur: SMOOTH,
        stroke: INK,
        strokeWidth: 1.3,
        strokeDasharray: "5 3.5",
      } as never,
    ),
  );
}

interface Label extends Pixel {
  readonly text: string;
  readonly heavy: boolean;
}

function contourLabels(
  {values, blank, scale}: SurveyMap,
  grid: PlacedGrid,
  {frame, taken}: {readonly frame: Frame; readonly taken: readonly Pixel[]},
): Label[] {
  const logs = values.map((row, r) => row.map((v, c) => (blank[r]![c] ? Number.NaN : Math.log(v))));
  const placed: Label[] = [];
  for (const level of scale.levels) {
    const text = scale.text(level);
    const room = {width: textWidth(text) + 14, height: 20};
    const candidates = crossings(logs, Math.log(level)).map(grid.pixel);
    const at = clearest(candidates, [...taken, ...placed], {frame, room});
    if (at) placed.push({...at, text, heavy: level === scale.heavy});
  }
  return placed;
}

function nodeMarks({nodes}: SurveyMap, {x, y}: {readonly x: Axis; readonly y: Axis}): Plot.Markish[] {
  const at = (kind: MapNode["kind"]) =>
    nodes.filter(n => n.kind === kind).map(n => ({x: toPixel(x, n.x), y: toPixel(y, n.y)}));
  const dot = {x: "x", y: "y"} as const;
  return [
    Plot.dot(at("computed"), {...dot, r: 1.1, fill: INK, fillOpacity: 0.55}),
    Plot.dot(at("bound"), {...dot, r: 3.2, symbol: "triangle", fill: PAPER, stroke: INK, strokeWidth: 0.9}),
    Plot.dot(at("failed"), {...dot, r: 3.5, symbol: "times", stroke: INK, strokeWidth: 1.4}),
  ];
}

function axisMarks(map: SurveyMap, {x, y}: {readonly x: Axis; readonly y: Axis}): Plot.Markish[] {
  const [left, bottom] = [x.range[0], y.range[0]];
  const ticksX = ticksOf(map.x).map(v => ({v, at: toPixel(x, v)}));
  const ticksY = ticksOf(map.y).map(v => ({v, at: toPixel(y, v)}));
  const label = {fill: INK, textAnchor: "middle"} as const;
  return [
    Plot.text(ticksX, {x: "at", y: bottom, dy: 13, text: t => figures(t.v), ...label}),
    Plot.text(ticksY, {x: left, y: "at", dx: -7, text: t => figures(t.v), fill: INK, textAnchor: "end"}),
    Plot.text([map.x.label], {x: (x.range[0] + x.range[1]) / 2, y: bottom, dy: 31, text: d => d, ...label}),
    Plot.text([map.y.label], {
      x: left,
      y: y.range[1],
      dx: -MARGIN.left + 4,
      dy: -14,
      text: d => d,
      fill: INK,
      textAnchor: "start",
    }),
    Plot.ruleX(ticksX, {x: "at", y1: bottom, y2: bottom + 4, stroke: MUTED}),
    Plot.ruleY(ticksY, {y: "at", x1: left - 4, x2: left, stroke: MUTED}),
  ];
}

const TICK_STEPS = [1, 2, 5];
const MOST_TICKS = 9;

function ticksOf({domain: [low, high], log}: MapAxis): number[] {
  if (log) return logTicks(low, high);
  const power = 10 ** Math.floor(Math.log10((high - low) / MOST_TICKS));
  const step = power * (TICK_STEPS.find(s => (high - low) / (s * power) <= MOST_TICKS) ?? 10);
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  return Array.from({length: count}, (_, k) => Number(((first + k) * step).toPrecision(9)));
}

/** Where the words beside the present section stand. */
function besideOf({x, y}: Pixel, {left, right}: Frame): Pixel {
  return {x: x + (x > (left + right) / 2 ? -50 : 50), y: y - 9};
}

function presentMarks(at: Pixel | null, frame: Frame): Plot.Markish[] {
  if (!at) return [];
  const left = at.x > (frame.left + frame.right) / 2;
  return [
    Plot.dot([at], {x: "x", y: "y", r: 6, symbol: "star", fill: INK, stroke: PAPER, strokeWidth: 1.2}),
    Plot.text([at], {
      x: "x",
      y: "y",
      dx: left ? -9 : 9,
      dy: -9,
      text: () => "as in the study",
      textAnchor: left ? "end" : "start",
      fontWeight: 700,
      fill: INK,
      ...HALO,
    }),
  ];
}
