/** Temperature below the surface: hour by hour in a week at the depths shown, and over the whole record by depth. */

import * as Plot from "@observablehq/plot";
import type {PavementTemperatures, TemperatureAtDepth} from "../../engine/climate/types.ts";
import type {Layer} from "../../engine/section/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED} from "../palette.ts";
import {measure, quantityText, type UnitSystem} from "../units.ts";
import {type Axis, type Canvas, chart, fromPixel, HALO, RULE, shorten, spread, toPixel} from "./frame.ts";

const HOURS = 24;
const WEEK = 7; // [days]
const WEEK_HEIGHT = 230; // [px]
const WEEK_MARGIN = {top: 24, bottom: 40, left: 44, right: 176}; // [px]
const ENVELOPE_HEIGHT = 330; // [px]
const ENVELOPE_MARGIN = {top: 40, bottom: 14, left: 56, right: 20}; // [px]
const RANGE = "#e9b384";
const LINE_HEIGHT = 14; // [px]

/** From warm at the surface to cool and dark below; in order of depth. */
const BY_DEPTH = ["#d4661f", "#b8742f", "#9a7f3f", "#6f8a5a", "#3f8a86", "#2a6f9e", "#3b5590", "#333a66", "#1c2530"];

/** First days of the weeks with the warmest and the coldest surface, counted from the start of the record [days]. */
export function extremeWeeks(surface: Float64Array): {readonly warm: number; readonly cold: number} {
  const days = Math.floor(surface.length / HOURS);
  const last = Math.max(0, days - WEEK);
  const mean = (day: number) => {
    const hours = surface.subarray(HOURS * day, HOURS * (day + WEEK));
    return hours.reduce((sum, T) => sum + T, 0) / hours.length;
  };
  let [warm, cold] = [0, 0];
  let [highest, lowest] = [mean(0), mean(0)];
  for (let day = 1; day <= last; day++) {
    const own = mean(day);
    if (own > highest) [warm, highest] = [day, own];
    if (own < lowest) [cold, lowest] = [day, own];
  }
  return {warm, cold};
}

/** @param day first one of the week, counted from the start of the record */
export function weekChart(
  atDepth: readonly TemperatureAtDepth[],
  {layers, day}: {readonly layers: readonly Layer[]; readonly day: number},
  canvas: Canvas,
): Html {
  const {of, unit} = measure("temperature", canvas.units);
  const lines = atDepth.map((shown, k) => {
    const hours = Array.from(shown.temperature.subarray(HOURS * day, HOURS * (day + WEEK)), of);
    return {
      label: placeName(shown, layers, canvas.units),
      colour: BY_DEPTH[Math.round((k * (BY_DEPTH.length - 1)) / Math.max(1, atDepth.length - 1))],
      points: hours.map((value, h) => ({day: day + h / HOURS, value})),
    };
  });
  const every = lines.flatMap(l => l.points.map(p => p.value));
  const low = Math.floor(Math.min(...every) / 5) * 5;
  const high = Math.ceil(Math.max(...every) / 5) * 5;
  const end = lines[0].points.at(-1)!.day;
  const vertical: Axis = {
    log: false,
    domain: [low, high],
    range: [WEEK_HEIGHT - WEEK_MARGIN.bottom, WEEK_MARGIN.top],
  };
  const placed = spread(
    lines.map(l => toPixel(vertical, l.points.at(-1)!.value)),
    LINE_HEIGHT,
    WEEK_MARGIN.top,
    WEEK_HEIGHT - WEEK_MARGIN.bottom,
  );
  return chart(canvas, `Temperature hour by hour at several depths, ${unit}`, {
    height: WEEK_HEIGHT,
    margin: WEEK_MARGIN,
    x: {
      domain: [day, end],
      ticks: Array.from({length: WEEK}, (_, d) => day + d),
      tickFormat: (v: number) => figures(v),
      label: "Day of the record",
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {
      domain: [low, high],
      ticks: 6,
      tickFormat: (v: number) => figures(v),
      label: `Temperature, ${unit}`,
      labelArrow: "none",
    },
    marks: [
      Plot.gridY({...RULE, ticks: 6, strokeOpacity: 1}),
      Plot.ruleX([day], {stroke: MUTED}),
      ...lines
        .toReversed()
        .map(l => Plot.lineY(l.points, {x: "day", y: "value", stroke: l.colour, strokeWidth: 1.5, curve: "linear"})),
      ...lines.map((l, i) =>
        Plot.text([l], {
          x: end,
          y: fromPixel(vertical, placed[i]!),
          text: "label",
          textAnchor: "start",
          dx: 8,
          fill: l.colour,
          fontWeight: 600,
        }),
      ),
    ],
  });
}

function placeName(
  {depth, layer, place}: TemperatureAtDepth,
  layers: readonly Layer[],
  units: UnitSystem = "metric",
): string {
  if (place === "surface") return "surface";
  return `${quantityText(depth, "length", units)}, ${place} of ${shorten(layers[layer].name, 14)}`;
}

/** Lowest, mean and highest temperature against depth, with the layers' interfaces. */
export function envelopeChart(
  {envelope}: Pick<PavementTemperatures, "envelope">,
  layers: readonly Layer[],
  canvas: Canvas,
): Html {
  const {of, unit} = measure("temperature", canvas.units);
  const length = measure("length", canvas.units);
  const rows = Array.from(envelope.depth, (depth, i) => ({
    depth: length.of(depth),
    low: of(envelope.lowest[i]),
    mean: of(envelope.mean[i]),
    high: of(envelope.highest[i]),
  }));
  const deepest = rows.at(-1)!.depth;
  const low = Math.floor(of(Math.min(...envelope.lowest)) / 5) * 5;
  const high = Math.ceil(of(Math.max(...envelope.highest)) / 5) * 5;
  let bottom = 0;
  const interfaces = layers
    .map(({name, thickness}) => {
      const top = bottom;
      bottom += length.of(thickness);
      return {name, top, bottom};
    })
    .filter(l => l.top < deepest);
  const labelled = interfaces.filter(l => Math.min(l.bottom, deepest) - l.top > 0.05 * deepest); // room for a line of text
  return chart(canvas, `Lowest, mean and highest temperature of the record against depth, ${unit}`, {
    height: ENVELOPE_HEIGHT,
    margin: ENVELOPE_MARGIN,
    x: {
      domain: [low, high],
      axis: "top",
      ticks: 8,
      tickFormat: (v: number) => figures(v),
      label: `Temperature, ${unit}`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {
      domain: [deepest, 0],
      ticks: 6,
      tickFormat: (v: number) => figures(v),
      label: `Depth, ${length.unit}`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    marks: [
      Plot.gridX({...RULE, ticks: 8, strokeOpacity: 1}),
      Plot.areaX(rows, {y: "depth", x1: "low", x2: "high", fill: RANGE, fillOpacity: 0.75}),
      Plot.ruleY(
        interfaces.slice(1).map(l => l.top),
        {stroke: MUTED, strokeDasharray: "3 3"},
      ),
      Plot.lineX(rows, {y: "depth", x: "low", stroke: "#17659c", strokeWidth: 1.6}),
      Plot.lineX(rows, {y: "depth", x: "high", stroke: "#a4591b", strokeWidth: 1.6}),
      Plot.lineX(rows, {y: "depth", x: "mean", stroke: INK, strokeWidth: 2}),
      Plot.text(labelled, {
        x: high,
        y: "top",
        text: (l: {name: string}) => shorten(l.name, 28),
        textAnchor: "end",
        dx: -2,
        dy: 9,
        fill: MUTED,
        ...HALO,
      }),
      ...(["low", "mean", "high"] as const).map((key, k) =>
        Plot.text([rows.at(-1)!], {
          x: key,
          y: "depth",
          text: () => ["lowest", "mean", "highest"][k],
          dy: -8,
          dx: [-4, 0, 4][k],
          textAnchor: (["end", "middle", "start"] as const)[k],
          fill: ["#17659c", INK, "#a4591b"][k],
          fontWeight: 600,
          ...HALO,
        }),
      ),
    ],
  });
}
