/** The temperature record: daily range of the air and of the surface, daily mean of the jointed layer; close by, hour by hour. */

import * as Plot from "@observablehq/plot";
import type {PavementTemperatures, WeatherRecord} from "../../engine/climate/types.ts";
import {InputError} from "../../engine/errors.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED} from "../palette.ts";
import {measure} from "../units.ts";
import {type Axis, type Canvas, chart, fromPixel, RULE, spread, toPixel} from "./frame.ts";

const HOURS = 24;
const MOST_POINTS = 400; // in one curve: longer records are grouped into spans of several days
const HEIGHT = 250; // [px]
const MARGIN = {top: 24, bottom: 40, left: 44, right: 128}; // [px]
const AIR = "#2a6f9e";
const SURFACE = "#e9b384";
const SURFACE_TEXT = "#a4591b";

interface Span {
  readonly day: number; // middle, counted from the start of the record [days]
  readonly low: number; // [°C]
  readonly high: number; // [°C]
  readonly mean: number; // [°C]
}

/** Days of a record, counted from its start; fractions are hours [days]. */
export type DayWindow = readonly [start: number, end: number];

/** Lowest, highest and mean of each span of whole days; what is left at the end is its own span. */
export function dailyRange(hourly: Float64Array): Span[] {
  const days = Math.ceil(hourly.length / HOURS / MOST_POINTS);
  return spansOf(hourly, Math.max(1, days) * HOURS);
}

/** @param step hours a span */
function spansOf(hourly: Float64Array, step: number): Span[] {
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

/** A record, one treatment's temperatures under it, and the days to be seen; all of them when left out. */
export interface TemperatureView {
  readonly weather: WeatherRecord;
  readonly temperatures: PavementTemperatures;
  readonly window?: DayWindow | undefined;
}

interface Curves {
  readonly start: number; // [days]
  readonly end: number; // [days]
  readonly hourly: boolean; // each span is an hour: there is no range to be drawn
  readonly of: (hourly: Float64Array) => Span[];
}

/** Whole days as a rule; hours where the window is so short that they can be told apart. */
function curvesOf(hours: number, window: DayWindow | undefined): Curves {
  if (!window) {
    const last = dailyRange(new Float64Array(hours)).at(-1)!;
    return {start: 0, end: last.day + 0.5, hourly: false, of: dailyRange};
  }
  const first = Math.max(0, Math.floor(window[0] * HOURS));
  const past = Math.min(hours, Math.ceil(window[1] * HOURS));
  const hourly = past - first <= MOST_POINTS;
  const from = hourly ? first : Math.floor(first / HOURS) * HOURS; // whole days, as in the picture of the year
  const to = hourly ? past : Math.min(hours, Math.ceil(past / HOURS) * HOURS);
  const shifted = (span: Span): Span => ({...span, day: span.day + from / HOURS});
  return {
    start: from / HOURS,
    end: to / HOURS,
    hourly,
    of: all => {
      const part = all.subarray(from, to);
      return (hourly ? spansOf(part, 1) : dailyRange(part)).map(shifted);
    },
  };
}

/** @throws InputError "domain" when the window holds no hour of the record */
export function temperatureChart({weather, temperatures, window}: TemperatureView, canvas: Canvas): Html {
  const {of, unit} = measure("temperature", canvas.units);
  const curves = curvesOf(temperatures.surface.length, window);
  const {start, end, hourly} = curves;
  if (!(end > start)) throw new InputError("domain", "window", window, "days of the record");
  const spans = (values: Float64Array): Span[] =>
    curves.of(values).map(({day, low, high, mean}) => ({day, low: of(low), high: of(high), mean: of(mean)}));
  const surface = spans(temperatures.surface);
  const air = weather.kind === "air" ? spans(weather.temperature) : null;
  const slab = spans(temperatures.slabMean);
  const every = [...surface, ...(air ?? []), ...slab];
  const low = Math.floor(Math.min(...every.map(s => s.low)) / 5) * 5;
  const high = Math.ceil(Math.max(...every.map(s => s.high)) / 5) * 5;
  const vertical: Axis = {log: false, domain: [low, high], range: [HEIGHT - MARGIN.bottom, MARGIN.top]};
  const last = (spans: readonly Span[], value: (s: Span) => number) =>
    spans.slice(-14).reduce((sum, s) => sum + value(s), 0) / Math.min(14, spans.length);
  const range = hourly ? "" : ", daily range";
  const labels = [
    {text: `surface${range}`, y: last(surface, s => s.high), fill: SURFACE_TEXT},
    ...(air ? [{text: `air${range}`, y: last(air, s => s.low), fill: AIR}] : []),
    {text: "jointed layer, mean", y: last(slab, s => s.mean), fill: INK},
  ];
  const placed = spread(
    labels.map(l => toPixel(vertical, l.y)),
    15,
    MARGIN.top + 6,
    HEIGHT - MARGIN.bottom - 6,
  );
  const band = {x: "day", y1: "low", y2: "high"} as const;
  const line = {x: "day", y: "mean"} as const;
  const what = hourly
    ? "Temperature of air, surface and jointed layer hour by hour"
    : "Daily range of air and surface temperature and daily mean of the jointed layer";
  return chart(canvas, `${what}, ${unit}`, {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [start, end],
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
      hourly ? Plot.lineY(surface, {...line, stroke: SURFACE_TEXT}) : Plot.areaY(surface, {...band, fill: SURFACE}),
      air &&
        (hourly ? Plot.lineY(air, {...line, stroke: AIR}) : Plot.areaY(air, {...band, fill: AIR, fillOpacity: 0.55})),
      Plot.lineY(slab, {x: "day", y: "mean", stroke: INK, strokeWidth: 2}),
      Plot.ruleX([start], {stroke: MUTED}),
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
