/** A deflection bowl, its residuals and its surface modulus. */

import * as Plot from "@observablehq/plot";
import type {Sensor} from "../../engine/backanalysis/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED} from "../palette.ts";
import {type Canvas, chart, logAxisY, logTicks, RULE} from "./frame.ts";

const MARGIN = {top: 22, bottom: 42, left: 58, right: 20}; // [px]
const OFFSET = {label: "Distance from the plate’s centre, mm", labelAnchor: "center", labelArrow: "none"} as const;
const format = (v: number): string => figures(v);

interface Point {
  readonly offset: number; // [mm]
  readonly measured: number; // [µm]
  readonly fitted: number; // [µm]
  readonly deviation: number; // [µm]
}

function pointsOf(sensors: readonly Sensor[]): Point[] {
  return sensors.map(s => ({
    offset: s.offset * 1e3,
    measured: s.measured * 1e6,
    fitted: s.fitted * 1e6,
    deviation: s.deviation * 1e6,
  }));
}

/** Smooth through the sensors where there are enough of them. */
function fittedLine(points: readonly Point[], y: (p: Point) => number) {
  return Plot.lineY(points, {x: "offset", y, stroke: ACCENT, strokeWidth: 2, curve: "monotone-x"});
}

const widest = (points: readonly Point[]): number => Math.max(...points.map(p => p.offset), 1);

/** Deflections downward: dots with their deviation measured, the line fitted. */
export function bowlChart(sensors: readonly Sensor[], canvas: Canvas): Html {
  const points = pointsOf(sensors);
  const deepest = Math.max(...points.map(p => Math.max(p.measured + p.deviation, p.fitted)));
  return chart(canvas, "Deflection against distance from the plate, measured and fitted", {
    height: 300,
    margin: MARGIN,
    x: {domain: [0, widest(points)], ticks: 7, tickFormat: format, ...OFFSET},
    y: {
      domain: [deepest * 1.03, 0],
      ticks: 6,
      tickFormat: format,
      label: "Deflection, µm",
      labelAnchor: "top",
      labelArrow: "none",
    },
    marks: [
      Plot.gridY({...RULE, ticks: 6, strokeOpacity: 1}),
      Plot.ruleY([0], {stroke: MUTED}),
      fittedLine(points, p => p.fitted),
      Plot.ruleX(points, {
        x: "offset",
        y1: (p: Point) => p.measured - p.deviation,
        y2: (p: Point) => p.measured + p.deviation,
        stroke: INK,
      }),
      Plot.dot(points, {x: "offset", y: "measured", r: 3.4, fill: INK}),
    ],
  });
}

/** Fitted less measured in per cent, with the deviation of each sensor as a band. */
export function bowlResidualChart(sensors: readonly Sensor[], canvas: Canvas): Html {
  const points = pointsOf(sensors).map(p => ({
    offset: p.offset,
    difference: (p.fitted / p.measured - 1) * 100,
    deviation: (p.deviation / p.measured) * 100,
  }));
  const size = 1.15 * Math.max(...points.map(p => Math.max(Math.abs(p.difference), p.deviation)));
  return chart(canvas, "Fitted less measured deflection, per cent", {
    height: 150,
    margin: {...MARGIN, bottom: 40},
    x: {domain: [0, Math.max(...points.map(p => p.offset), 1)], ticks: 7, tickFormat: format, ...OFFSET},
    y: {
      domain: [-size, size],
      ticks: 4,
      tickFormat: format,
      label: "Fitted less measured, %",
      labelAnchor: "top",
      labelArrow: "none",
    },
    marks: [
      Plot.areaY(points, {
        x: "offset",
        y1: p => -p.deviation,
        y2: "deviation",
        fill: MUTED,
        fillOpacity: 0.14,
      }),
      Plot.ruleY([0], {stroke: MUTED}),
      Plot.ruleX(points, {x: "offset", y1: 0, y2: "difference", stroke: INK, strokeWidth: 1.4}),
      Plot.dot(points, {x: "offset", y: "difference", r: 3.2, fill: INK}),
    ],
  });
}

/** Surface modulus outward: what falls shows stiff layers on soft ground, what rises again a stiff bottom or stress. */
export function surfaceModulusChart(sensors: readonly Sensor[], canvas: Canvas): Html {
  const points = sensors.map(s => ({
    offset: s.offset * 1e3,
    own: s.surfaceModulus / 1e6,
    fitted: s.fittedSurfaceModulus / 1e6,
    share: s.deviation / s.measured,
  }));
  const all = points.flatMap(p => [p.own * (1 + p.share), p.own * (1 - p.share), p.fitted]);
  const domain: [number, number] = [Math.min(...all) / 1.15, Math.max(...all) * 1.15];
  const ticks = logTicks(...domain);
  return chart(canvas, "Surface modulus against distance from the plate, measured and fitted, logarithmic scale", {
    height: 250,
    margin: MARGIN,
    x: {domain: [0, Math.max(...points.map(p => p.offset), 1)], ticks: 7, tickFormat: format, ...OFFSET},
    y: {type: "log", domain, axis: null},
    marks: [
      Plot.ruleY(ticks, RULE),
      logAxisY(ticks, "Surface modulus, MPa (log scale)"),
      Plot.lineY(points, {x: "offset", y: "fitted", stroke: ACCENT, strokeWidth: 2, curve: "monotone-x"}),
      Plot.ruleX(points, {
        x: "offset",
        y1: p => p.own * (1 - p.share),
        y2: p => p.own * (1 + p.share),
        stroke: INK,
      }),
      Plot.dot(points, {x: "offset", y: "own", r: 3.4, fill: INK}),
    ],
  });
}
