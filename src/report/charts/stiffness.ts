/** Master curves: modulus against reduced frequency, Black and Cole-Cole diagram, shift, relaxation. */

import * as Plot from "@observablehq/plot";
import {shiftFactor} from "../../engine/viscoelastic/index.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED, temperatureMarks} from "../palette.ts";
import {measure} from "../units.ts";
import {
  type CurvePoint,
  type CurveView,
  followed,
  RELAXATION_TIMES,
  type Reading,
  readings,
  relaxed,
  shifts,
  span,
  testTemperatures,
} from "./curvePoints.ts";
import {type Canvas, chart, HALO, RULE} from "./frame.ts";
import {decades, lgAxisX, modulusAxis, toldDecades} from "./lgAxes.ts";

const MARGIN = {top: 20, bottom: 42, left: 56, right: 20}; // [px]
const HEIGHT = 220; // [px] of half a page's width

/** Readings of each temperature with its colour and mark. */
function dots(all: readonly Reading[], view: CurveView, x: keyof Reading, y: keyof Reading): Plot.Markish[] {
  return temperatureMarks(testTemperatures(view.points).length).map(({colour, symbol}, series) =>
    Plot.dot(
      all.filter(p => p.series === series),
      {x, y, symbol, r: 3.2, fill: colour, stroke: colour, strokeWidth: 0.5},
    ),
  );
}

/** The curve: full where it was measured, dashed beyond. */
function lines(points: readonly CurvePoint[], x: keyof CurvePoint, y: keyof CurvePoint): Plot.Markish[] {
  const stroke = {x, y, stroke: INK, strokeWidth: 1.6};
  const given = points.every(p => !p.measured);
  return given
    ? [Plot.line(points, stroke)]
    : [
        Plot.line(points, {...stroke, strokeWidth: 1, strokeDasharray: "4 3"}),
        Plot.line(
          points.filter(p => p.measured),
          stroke,
        ),
      ];
}

/** |E*| against reduced frequency, readings shifted to the reference temperature. */
export function masterCurveChart(view: CurveView, canvas: Canvas): Html {
  const modulus = measure("modulus", canvas.units);
  const points = followed(view, modulus);
  const all = readings(view, modulus);
  const reference = measure("temperature", canvas.units).text(view.curve.referenceTemperature);
  const frequency = `Reduced frequency at ${reference}, Hz`;
  const {drawn} = span(view);
  const ticks = decades(drawn);
  const axis = modulusAxis(
    [...points, ...all].map(p => p.modulus),
    `|E*|, ${modulus.unit} (log scale)`,
  );
  return chart(canvas, "Norm of the complex modulus against reduced frequency, logarithmic scales", {
    height: 280,
    margin: MARGIN,
    x: {domain: drawn, axis: null},
    y: axis.y,
    told: {x: toldDecades(drawn, frequency, [MARGIN.left, canvas.width - MARGIN.right])},
    marks: [
      Plot.ruleX(ticks, RULE),
      ...axis.marks,
      lgAxisX(ticks, `${frequency} (log scale)`),
      ...lines(points, "lg", "modulus"),
      ...dots(all, view, "lg", "modulus"),
    ],
  });
}

/** |E*| against phase: a curve without any frequency, so readings of all temperatures must lie on one line. */
export function blackChart(view: CurveView, canvas: Canvas): Html {
  const modulus = measure("modulus", canvas.units);
  const points = followed(view, modulus);
  const all = readings(view, modulus).filter(p => p.phase !== null);
  const axis = modulusAxis(
    [...points, ...all].map(p => p.modulus),
    `|E*|, ${modulus.unit} (log scale)`,
  );
  const widest = Math.max(...points.map(p => p.phase), ...all.map(p => p.phase!));
  return chart(canvas, "Black diagram: norm of the complex modulus against phase angle", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [0, Math.min(90, Math.ceil((widest + 2) / 10) * 10)],
      ticks: 6,
      label: "Phase angle, degrees",
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: axis.y,
    marks: [
      Plot.gridX({...RULE, ticks: 6, strokeOpacity: 1}),
      ...axis.marks,
      ...lines(points, "phase", "modulus"),
      ...dots(all, view, "phase", "modulus"),
    ],
  });
}

/** E'' against E'. */
export function coleColeChart(view: CurveView, canvas: Canvas): Html {
  const modulus = measure("large modulus", canvas.units);
  const inMPa = measure("modulus");
  const large = <P extends CurvePoint | Reading>(p: P): P => ({
    ...p,
    storage: modulus.fromMetric(p.storage / 1e3),
    loss: modulus.fromMetric(p.loss / 1e3),
  });
  const points = followed(view, inMPa).map(large);
  const all = readings(view, inMPa)
    .filter(p => p.phase !== null)
    .map(large);
  const every = [...points, ...all];
  const axis = (label: string) => ({
    label,
    labelArrow: "none" as const,
    ticks: 5,
    tickFormat: (v: number) => figures(v),
  });
  return chart(canvas, "Cole-Cole diagram: loss modulus against storage modulus", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      ...axis(`Storage modulus E′, ${modulus.unit}`),
      labelAnchor: "center",
      domain: [0, 1.04 * Math.max(...every.map(p => p.storage))],
    },
    y: {
      ...axis(`Loss modulus E″, ${modulus.unit}`),
      labelAnchor: "top",
      domain: [0, 1.1 * Math.max(...every.map(p => p.loss))],
    },
    marks: [
      Plot.gridX({...RULE, ticks: 5, strokeOpacity: 1}),
      Plot.gridY({...RULE, ticks: 5, strokeOpacity: 1}),
      ...lines(points, "storage", "loss"),
      ...dots(all, view, "storage", "loss"),
    ],
  });
}

/** lg a_T against temperature, with the temperatures of the tests. */
export function shiftChart(view: CurveView, canvas: Canvas): Html {
  const {curve, points} = view;
  const shown = measure("temperature", canvas.units);
  const temperatures = testTemperatures(points);
  const line = shifts(view).map(p => ({...p, temperature: shown.of(p.temperature)}));
  const within = line.filter(p => p.tested);
  const stroke = {x: "temperature", y: "lg", stroke: INK};
  return chart(canvas, "Decimal logarithm of the shift factor against temperature", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [line[0].temperature, line.at(-1)!.temperature],
      ticks: 7,
      label: `Temperature, ${shown.unit}`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {ticks: 6, label: "lg a_T", labelAnchor: "top", labelArrow: "none", tickFormat: (v: number) => figures(v)},
    marks: [
      Plot.gridX({...RULE, ticks: 7, strokeOpacity: 1}),
      Plot.gridY({...RULE, ticks: 6, strokeOpacity: 1}),
      Plot.ruleY([0], {stroke: MUTED}),
      Plot.line(line, {...stroke, strokeWidth: 1, strokeDasharray: "4 3"}),
      Plot.line(within, {...stroke, strokeWidth: 1.6}),
      ...temperatureMarks(temperatures.length).map(({colour, symbol}, k) =>
        Plot.dot([{temperature: shown.of(temperatures[k]!), lg: shiftFactor(curve, temperatures[k]!)}], {
          x: "temperature",
          y: "lg",
          symbol,
          r: 3.6,
          fill: colour,
          stroke: colour,
        }),
      ),
    ],
  });
}

/** A loading time to be marked on the relaxation curve. */
export interface MarkedTime {
  readonly label: string;
  readonly time: number; // [s]
  readonly modulus: number; // of the curve [Pa]
}

/** E(t) at one temperature, with the times at which it is taken. */
export function relaxationChart(
  view: CurveView,
  temperature: number,
  marked: readonly MarkedTime[],
  canvas: Canvas,
): Html {
  const shown = measure("modulus", canvas.units);
  const loading = `Loading time at ${measure("temperature", canvas.units).text(temperature)}, s`;
  const line = relaxed(view, temperature).map(p => ({...p, modulus: shown.of(p.modulus)}));
  const untested = line.every(p => !p.tested);
  const stroke = {x: "lg", y: "modulus", stroke: INK};
  const own = marked.map(m => ({...m, lg: Math.log10(m.time), shown: shown.of(m.modulus)}));
  const ticks = decades([...RELAXATION_TIMES]);
  const axis = modulusAxis([...line.map(p => p.modulus), ...own.map(m => m.shown)], `E(t), ${shown.unit} (log scale)`);
  return chart(canvas, "Relaxation modulus against loading time, logarithmic scales", {
    height: HEIGHT,
    margin: MARGIN,
    x: {domain: [...RELAXATION_TIMES], axis: null},
    y: axis.y,
    told: {x: toldDecades(RELAXATION_TIMES, loading, [MARGIN.left, canvas.width - MARGIN.right])},
    marks: [
      Plot.ruleX(ticks, RULE),
      ...axis.marks,
      lgAxisX(ticks, `${loading} (log scale)`),
      Plot.line(line, {
        ...stroke,
        ...(view.curve.measured ? {strokeWidth: 1, strokeDasharray: "4 3"} : {strokeWidth: 1.6}),
      }),
      untested
        ? null
        : Plot.line(
            line.filter(p => p.tested),
            {...stroke, strokeWidth: 1.6},
          ),
      Plot.dot(own, {x: "lg", y: "shown", r: 4, fill: ACCENT}),
      Plot.text(own, {x: "lg", y: "shown", text: "label", dy: -12, fill: ACCENT, fontWeight: 600, ...HALO}),
    ],
  });
}
