/** A deflection bowl, its residuals and its surface modulus. */

import * as Plot from "@observablehq/plot";
import type {Sensor} from "../../engine/backanalysis/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED} from "../palette.ts";
import {measure, type UnitSystem} from "../units.ts";
import {type Canvas, chart, logAxisY, logTicks, RULE} from "./frame.ts";

const MARGIN = {top: 22, bottom: 42, left: 58, right: 20}; // [px]
const offsetAxis = ({units}: Canvas) =>
  ({
    label: `Distance from the plate’s centre, ${measure("length", units).unit}`,
    labelAnchor: "center",
    labelArrow: "none",
  }) as const;
const format = (v: number): string => figures(v);

interface Point {
  readonly offset: number; // as shown: [mm]
  readonly measured: number; // as shown, and so below: [µm]
  readonly fitted: number;
  readonly deviation: number;
}

function pointsOf(sensors: readonly Sensor[], units: UnitSystem | undefined): Point[] {
  const [offset, deflection] = [measure("length", units), measure("deflection", units)];
  return sensors.map(s => ({
    offset: offset.of(s.offset),
    measured: deflection.of(s.measured),
    fitted: deflection.of(s.fitted),
    deviation: deflection.of(s.deviation),
  }));
}

/** Smooth through the sensors where there are enough of them. */
function fittedLine(points: readonly Point[], y: (p: Point) => number) {
  return Plot.lineY(points, {x: "offset", y, stroke: ACCENT, strokeWidth: 2, curve: "monotone-x"});
}

const widest = (points: readonly Point[]): number => Math.max(...points.map(p => p.offset), 1);

/** Deflections downward: dots with their deviation measured, the line fitted. */
export function bowlChart(sensors: readonly Sensor[], canvas: Canvas): Html {
  const points = pointsOf(sensors, canvas.units);
  const deepest = Math.max(...points.map(p => Math.max(p.measured + p.deviation, p.fitted)));
  return chart(canvas, "Deflection against distance from the plate, measured and fitted", {
    height: 300,
    margin: MARGIN,
    x: {domain: [0, widest(points)], ticks: 7, tickFormat: format, ...offsetAxis(canvas)},
    y: {
      domain: [deepest * 1.03, 0],
      ticks: 6,
      tickFormat: format,
      label: `Deflection, ${measure("deflection", canvas.units).unit}`,
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
  const points = pointsOf(sensors, canvas.units).map(p => ({
    offset: p.offset,
    difference: (p.fitted / p.measured - 1) * 100,
    deviation: (p.deviation / p.measured) * 100,
  }));
  const size = 1.15 * Math.max(...points.map(p => Math.max(Math.abs(p.difference), p.deviation)));
  return chart(canvas, "Fitted less measured deflection, per cent", {
    height: 150,
    margin: {...MARGIN, bottom: 40},
    x: {domain: [0, Math.max(...points.map(p => p.offset), 1)], ticks: 7, tickFormat: format, ...offsetAxis(canvas)},
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
  const [offset, modulus] = [measure("length", canvas.units), measure("modulus", canvas.units)];
  const label = `Surface modulus, ${modulus.unit} (log scale)`;
  const points = sensors.map(s => ({
    offset: offset.of(s.offset),
    own: modulus.of(s.surfaceModulus),
    fitted: modulus.of(s.fittedSurfaceModulus),
    share: s.deviation / s.measured,
  }));
  const all = points.flatMap(p => [p.own * (1 + p.share), p.own * (1 - p.share), p.fitted]);
  const domain: [number, number] = [Math.min(...all) / 1.15, Math.max(...all) * 1.15];
  const ticks = logTicks(...domain);
  return chart(canvas, "Surface modulus against distance from the plate, measured and fitted, logarithmic scale", {
    height: 250,
    margin: MARGIN,
    x: {domain: [0, Math.max(...points.map(p => p.offset), 1)], ticks: 7, tickFormat: format, ...offsetAxis(canvas)},
    y: {type: "log", domain, axis: null, label},
    marks: [
      Plot.ruleY(ticks, RULE),
      logAxisY(ticks, label),
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
