/** Crack fronts against time in one treatment: depth downward, layers as bands, one line style a scenario. */

import * as Plot from "@observablehq/plot";
import type {CrackHistory, Scenario, TreatmentLife} from "../../engine/life/types.ts";
import {beyondCap, figures, LIFE_CAP, lifeText} from "../format.ts";
import {betweenSteps} from "../fronts.ts";
import type {Html} from "../html.ts";
import {INK, LAYER_FILL, LAYER_FILL_ALTERNATE, MUTED, PAPER, SCENARIO} from "../palette.ts";
import {type Measure, measure} from "../units.ts";
import {
  type Axis,
  type Canvas,
  chart,
  FONT_SIZE,
  fromPixel,
  HALO,
  logAxisX,
  logTicks,
  niceCeiling,
  spread,
  textWidth,
  toPixel,
} from "./frame.ts";

const HEIGHT = 262; // [px]
const MARGIN = {top: 22, bottom: 40, left: 46, right: 12}; // [px]
const DRAWN: readonly Scenario[] = ["thermal", "traffic", "together"]; // the last lies on top

/** A common time axis for all treatments, so that panels can be compared. */
export interface TimeAxis {
  readonly log: boolean;
  readonly domain: readonly [number, number]; // [years]
}

/**
 * Linear up to a little beyond the longest combined life or the analysis period (never beyond the cap); logarithmic when the shortest
 * life would be squeezed into the first tenth of that.
 */
export function timeAxis(treatments: readonly TreatmentLife[], analysisPeriod: number): TimeAxis {
  const lives = treatments.flatMap(t => t.histories).filter(h => h.failed && !beyondCap(h.life));
  const combined = treatments.map(t => t.histories.find(h => h.scenario === "together") ?? t.histories[0]);
  const longest = Math.max(0, ...combined.filter(h => h?.failed && !beyondCap(h.life)).map(h => h!.life.years));
  const end = Math.min(LIFE_CAP, niceCeiling(Math.max(1.08 * longest, analysisPeriod, 1e-3)));
  const shortest = Math.min(end, ...lives.map(h => h.life.years));
  if (shortest >= end / 10) return {log: false, domain: [0, end]};
  return {log: true, domain: [Number((10 ** Math.floor(Math.log10(shortest / 3))).toPrecision(1)), end]};
}

/** What a picture of fronts shows. */
export interface FrontsView extends TimeAxis {
  readonly cursor?: number | undefined; // a time to be marked [years]
}

const TIME = "Time, years";

interface Front {
  readonly years: number[];
  readonly depth: number[]; // from the surface
}

/** The part of a history inside the window, with interpolated ends. */
function inWindow(years: Float64Array, depth: (i: number) => number, [start, end]: readonly [number, number]): Front {
  const front: Front = {years: [], depth: []};
  for (let i = 0; i < years.length; i++) {
    const [t, next] = [years[i]!, years[i + 1]];
    if (t >= start && t <= end) {
      front.years.push(t);
      front.depth.push(depth(i));
    }
    if (next === undefined) break;
    for (const edge of [start, end])
      if (t < edge && next > edge) {
        front.years.push(edge);
        front.depth.push(betweenSteps(years, depth, i, edge));
      }
  }
  return front;
}

/** Thicknesses and depths in the unit of the picture. */
interface Geometry {
  readonly overlay: number; // thickness of all courses
  readonly interlayer: number;
  readonly of: Measure["of"];
}

function geometry(t: TreatmentLife, {of}: Measure): Geometry {
  const sum = (role: string) =>
    t.treatment.section.layers.filter(l => l.role === role).reduce((total, l) => total + of(l.thickness), 0);
  return {overlay: sum("overlay"), interlayer: sum("interlayer"), of};
}

interface Track extends Front {
  readonly face: number; // where this front starts
}

function tracks(h: CrackHistory, g: Geometry, window: readonly [number, number]): Track[] {
  const bottom = g.overlay + g.interlayer;
  const all: Track[] = [
    {face: 0, ...inWindow(h.years, i => g.of(h.surface[i]!), window)},
    {face: g.overlay, ...inWindow(h.years, i => g.overlay - g.of(h.underside[i]!), window)},
  ];
  if (g.interlayer > 0) all.push({face: bottom, ...inWindow(h.years, i => bottom - g.of(h.interlayer[i]!), window)});
  return all.filter(t => t.years.length > 1);
}

interface EndLabel {
  readonly scenario: Scenario;
  readonly x: number; // [years]
  readonly y: number; // depth where the fronts met or left the window
  readonly met: boolean;
  readonly text: string;
}

function endLabel(h: CrackHistory, g: Geometry, axis: TimeAxis): EndLabel {
  const met = h.failed && h.life.years <= axis.domain[1];
  const name = SCENARIO[h.scenario].name;
  const last = inWindow(h.years, i => g.overlay - g.of(h.underside[i]!), axis.domain);
  return {
    scenario: h.scenario,
    x: met ? h.life.years : axis.domain[1],
    y: last.depth.at(-1) ?? g.overlay,
    met,
    text: `${name}: ${lifeText(h.life).short} years${met ? "" : " →"}`,
  };
}

const CLUSTER = 70; // dots this near share the foot of their labels, so that no label crosses a dot [px]
const GAP = 8; // between a dot and its label [px]

interface Placed extends EndLabel {
  readonly before: boolean; // text to the left of its foot
  readonly foot: number; // [px] across
  readonly height: number; // [px] down, not yet moved apart
}

/** Side, foot and height of each label: where there is room, clear of the dots of others. */
function placeLabels(labels: readonly EndLabel[], depth: Axis, time: Axis): Placed[] {
  const dots = labels.map(l => ({x: toPixel(time, l.x), y: toPixel(depth, l.y), met: l.met}));
  const room = (i: number) => textWidth(labels[i]!.text) + 2 * GAP;
  const before = dots.map(({x}, i) => {
    const [left, right] = [x - time.range[0], time.range[1] - x];
    return right < room(i) && (left >= room(i) || left > right);
  });
  return labels.map((label, i) => {
    const {x, y, met} = dots[i]!;
    const near = dots.filter((d, j) => d.met && before[j] === before[i] && Math.abs(d.x - x) < CLUSTER).map(d => d.x);
    const foot = !met ? x : before[i] ? Math.min(...near) : Math.max(...near);
    const [low, high] = before[i] ? [foot - room(i), foot - 1] : [foot + 1, foot + room(i)];
    const crosses = dots.some(d => d.met && d.x > low && d.x < high && Math.abs(d.y - y) < 10);
    const lift = crosses ? FONT_SIZE + 6 : met ? 0 : 9;
    return {...label, before: before[i]!, foot, height: y - lift};
  });
}

function labelMarks(labels: readonly EndLabel[], depth: Axis, time: Axis): Plot.Markish[] {
  const rows = placeLabels(labels, depth, time);
  const heights = spread(
    rows.map(r => r.height),
    FONT_SIZE + 4,
    MARGIN.top + 10,
    HEIGHT - MARGIN.bottom - 10,
  );
  const texts = rows.map((l, i) =>
    Plot.text([l], {
      x: fromPixel(time, l.foot),
      y: fromPixel(depth, heights[i]!),
      text: "text",
      textAnchor: l.before ? "end" : "start",
      dx: l.before ? -GAP : GAP,
      fill: SCENARIO[l.scenario].colour,
      fontWeight: l.scenario === "together" ? 700 : 500,
      ...HALO,
    }),
  );
  const colour = (l: EndLabel) => SCENARIO[l.scenario].colour;
  const met = labels.filter(l => l.met);
  return [...texts, Plot.dot(met, {x: "x", y: "y", r: 3.4, fill: colour, stroke: PAPER})];
}

/** Layers as bands, and their names, which go on top of the curves. */
function bandMarks(
  t: TreatmentLife,
  [start, end]: readonly [number, number],
  {depth, of}: {readonly depth: Axis; readonly of: Measure["of"]},
): {bands: Plot.Markish[]; names: Plot.Markish} {
  let top = 0;
  const rows = t.treatment.section.layers
    .filter(l => l.role === "overlay" || l.role === "interlayer")
    .map((l, i) => {
      const row = {
        top,
        bottom: top + of(l.thickness),
        fill: (i % 2 === 0 ? LAYER_FILL : LAYER_FILL_ALTERNATE)[l.role],
        name: l.name,
        role: l.role,
      };
      top = row.bottom;
      return row;
    });
  const tall = rows.filter(r => toPixel(depth, r.bottom) - toPixel(depth, r.top) >= FONT_SIZE + 2);
  const bands = [
    Plot.rect(rows, {x1: start, x2: end, y1: "top", y2: "bottom", fill: "fill", fillOpacity: 0.55}),
    Plot.ruleY(
      rows.slice(1).map(r => r.top),
      {stroke: MUTED, strokeWidth: 0.7},
    ),
  ];
  const names = Plot.text(tall, {
    x: start,
    y: r => (r.role === "overlay" ? (2 * r.top + r.bottom) / 3 : (r.top + r.bottom) / 2),
    text: "name",
    textAnchor: "start",
    dx: 6,
    fontStyle: "italic",
    fill: INK,
    ...HALO,
    strokeOpacity: 0.75,
  });
  return {bands, names};
}

/** Fronts of one treatment: bold with shaded cracked depth for both causes together, thin for each alone. */
export function frontsChart(t: TreatmentLife, axis: FrontsView, canvas: Canvas): Html {
  const length = measure("length", canvas.units);
  const g = geometry(t, length);
  const bottom = g.overlay + g.interlayer;
  const depth: Axis = {log: false, domain: [0, bottom], range: [MARGIN.top, HEIGHT - MARGIN.bottom]};
  const time: Axis = {log: axis.log, domain: axis.domain, range: [MARGIN.left, canvas.width - MARGIN.right]};
  const histories = DRAWN.flatMap(s => t.histories.filter(h => h.scenario === s));
  const main = histories.at(-1)?.scenario; // drawn bold: both causes, or the only one there is
  const lines = histories.flatMap(h =>
    tracks(h, g, axis.domain).flatMap(track => {
      const points = track.years.map((year, i) => ({year, depth: track.depth[i]!}));
      const style = SCENARIO[h.scenario];
      return [
        h.scenario === main
          ? Plot.areaY(points, {x: "year", y1: track.face, y2: "depth", fill: style.colour, fillOpacity: 0.3})
          : null,
        Plot.lineY(points, {
          x: "year",
          y: "depth",
          stroke: style.colour,
          strokeWidth: h.scenario === main ? 2.4 : style.width,
          strokeDasharray: style.dash,
        }),
      ];
    }),
  );
  const {bands, names} = bandMarks(t, axis.domain, {depth, of: length.of});
  const {cursor = Number.NaN} = axis;
  const marked = cursor >= axis.domain[0] && cursor <= axis.domain[1] ? [cursor] : [];
  return chart(canvas, `Depth of the crack fronts against years, ${t.treatment.name}`, {
    height: HEIGHT,
    margin: MARGIN,
    x: {type: axis.log ? "log" : "linear", domain: [...axis.domain], axis: null, label: TIME},
    y: {
      domain: [bottom, 0],
      ticks: 5,
      tickFormat: (v: number) => figures(v),
      label: `Depth below surface, ${length.unit}`,
      labelAnchor: "top",
      labelArrow: "none",
    },
    marks: [
      axis.log
        ? logAxisX(logTicks(...axis.domain), `${TIME} (log scale)`)
        : Plot.axisX({
            ticks: 5,
            tickFormat: v => figures(v),
            label: TIME,
            labelAnchor: "center",
            labelArrow: "none",
          }),
      ...bands,
      ...lines,
      names,
      ...labelMarks(
        histories.map(h => endLabel(h, g, axis)),
        depth,
        time,
      ),
      Plot.frame({stroke: MUTED, strokeWidth: 0.8}),
      ...marked.map(time => Plot.ruleX([time], {stroke: INK, strokeWidth: 0.8, className: "cursor"})),
    ],
  });
}
