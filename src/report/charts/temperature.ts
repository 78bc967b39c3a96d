/** The temperature record through the year: daily range of the air and of the surface, daily mean of the jointed layer. */

import * as Plot from "@observablehq/plot";
import type {PavementTemperatures, WeatherRecord} from "../../engine/climate/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED} from "../palette.ts";
import {type Axis, type Canvas, chart, fromPixel, RULE, spread, toPixel} from "./frame.ts";

const HOURS = 24;
const MOST_POINTS = 400; // in one curve: longer records are grouped into spans of several days
const HEIGHT = 250; // [px]
const MARGIN = {top: 24, bottom: 40, left: 44, right: 128}; // [px]
const AIR = "#2a6f9e";
const SURFACE = "#e9b384";

interface Span {
  readonly day: number; // middle, counted from the start of the record [days]
  readonly low: number; // [°C]
  readonly high: number; // [°C]
  readonly mean: number; // [°C]
}

/** Lowest, highest and mean of each span of whole days; what is left at the end is its own span. */
export function dailyRange(hourly: Float64Array): Span[] {
  const days = Math.ceil(hourly.length / HOURS / MOST_POINTS);
  const step = Math.max(1, days) * HOURS;
  const spans: Span[] = [];
  for (let start = 0; start < hourly.length; start += step) {
    const part = hourly.subarray(start, start + step);
    let [low, high, sum] = [Infinity, -Infinity, 0];
    for (const value of part) {
      low = Math.min(low, value);
      high = Math.max(high, value);
      sum += value;
    }
    spans.push({day: (start + part.length / 2) / HOURS, low, high, mean: sum / part.length});
  }
  return spans;
}

/** @param temperatures of one treatment, from the same record */
export function temperatureChart(weather: WeatherRecord, temperatures: PavementTemperatures, canvas: Canvas): Html {
  const surface = dailyRange(temperatures.surface);
  const air = weather.kind === "air" ? dailyRange(weather.temperature) : null;
  const slab = dailyRange(temperatures.slabMean);
  const every = [...surface, ...(air ?? []), ...slab];
  const low = Math.floor(Math.min(...every.map(s => s.low)) / 5) * 5;
  const high = Math.ceil(Math.max(...every.map(s => s.high)) / 5) * 5;
  const end = surface.at(-1)!.day + 0.5;
  const vertical: Axis = {log: false, domain: [low, high], range: [HEIGHT - MARGIN.bottom, MARGIN.top]};
  const last = (spans: readonly Span[], value: (s: Span) => number) =>
    spans.slice(-14).reduce((sum, s) => sum + value(s), 0) / Math.min(14, spans.length);
  const labels = [
    {text: "surface, daily range", y: last(surface, s => s.high), fill: "#a4591b"},
    ...(air ? [{text: "air, daily range", y: last(air, s => s.low), fill: AIR}] : []),
    {text: "jointed layer, mean", y: last(slab, s => s.mean), fill: INK},
  ];
  const placed = spread(
    labels.map(l => toPixel(vertical, l.y)),
    15,
    MARGIN.top + 6,
    HEIGHT - MARGIN.bottom - 6,
  );
  const band = {x: "day", y1: "low", y2: "high"} as const;
  return chart(canvas, "Daily range of air and surface temperature and daily mean of the jointed layer, °C", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [0, end],
      tickFormat: (v: number) => figures(v),
      label: "Day of the record",
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {
      domain: [low, high],
      ticks: 6,
      tickFormat: (v: number) => figures(v),
      label: "Temperature, °C",
      labelArrow: "none",
    },
    marks: [
      Plot.gridY({...RULE, ticks: 6, strokeOpacity: 1}),
      Plot.areaY(surface, {...band, fill: SURFACE}),
      air && Plot.areaY(air, {...band, fill: AIR, fillOpacity: 0.55}),
      Plot.lineY(slab, {x: "day", y: "mean", stroke: INK, strokeWidth: 2}),
      Plot.ruleX([0], {stroke: MUTED}),
      ...labels.map((l, i) =>
        Plot.text([l], {
          x: end,
          y: fromPixel(vertical, placed[i]!),
          text: "text",
          textAnchor: "start",
          dx: 6,
          fill: l.fill,
          fontWeight: 600,
        }),
      ),
    ],
  });
}
