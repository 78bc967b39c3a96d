/** Master curves: modulus against reduced frequency, Black and Cole-Cole diagram, shift, relaxation. */

import * as Plot from "@observablehq/plot";
import {relaxationBeyondTests} from "../../engine/section/index.ts";
import {
  type ComplexModulusPoint,
  complexModulus,
  type MasterCurve,
  modulusNorm,
  type PronySeries,
  phaseAngle,
  reducedFrequency,
  relaxationModulusAt,
  shiftFactor,
} from "../../engine/viscoelastic/index.ts";
import {figures, powerTick} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED, temperatureMarks} from "../palette.ts";
import {type Measure, measure} from "../units.ts";
import {type Canvas, chart, HALO, RULE} from "./frame.ts";
import type {TakenScale} from "./scales.ts";

/** What the charts of one curve need. */
export interface CurveView {
  readonly curve: MasterCurve;
  readonly points: readonly ComplexModulusPoint[]; // that it was fitted to; none: it was not
  readonly prony: PronySeries;
}

const MARGIN = {top: 20, bottom: 42, left: 56, right: 20}; // [px]
const HEIGHT = 220; // [px] of half a page's width
const STEPS = 160; // of a curve
const MOST_TICKS = 9; // of an axis in decades
/** Where a curve without tests is drawn: a slow load in summer to a fast one in frost. */
const USUAL = {temperatures: [-20, 50], frequencies: [0.01, 100]} as const; // [°C], [Hz]

/** lg of the reduced frequencies that are drawn, and those within the tests. */
function span({curve}: CurveView): {drawn: [number, number]; measured: [number, number] | null} {
  const [slow, fast] = USUAL.frequencies;
  const [cold, warm] = USUAL.temperatures;
  const usual = [reducedFrequency(curve, warm, slow), reducedFrequency(curve, cold, fast)].map(Math.log10);
  if (curve.measured === null) return {drawn: [Math.floor(usual[0]), Math.ceil(usual[1])], measured: null};
  const [low, high] = curve.measured.reducedFrequency.map(Math.log10);
  return {
    drawn: [Math.floor(Math.min(usual[0], low)), Math.ceil(Math.max(usual[1], high))],
    measured: [low, high],
  };
}

interface CurvePoint {
  readonly lg: number; // of the reduced frequency
  readonly modulus: number; // as shown, and so below
  readonly phase: number; // [°]
  readonly storage: number;
  readonly loss: number;
  readonly measured: boolean;
}

/** The curve at its reference temperature, evenly over lg of the reduced frequency. */
function followed(view: CurveView, {of}: Measure): CurvePoint[] {
  const {curve} = view;
  const {drawn, measured} = span(view);
  const [low, high] = drawn;
  const even = Array.from({length: STEPS + 1}, (_, k) => low + ((high - low) * k) / STEPS);
  return [...even, ...(measured ?? [])]
    .sort((a, b) => a - b)
    .map(lg => {
      const at = [curve, curve.referenceTemperature, 10 ** lg] as const;
      const {storage, loss} = complexModulus(...at);
      return {
        lg,
        modulus: of(modulusNorm(...at)),
        phase: (phaseAngle(...at) * 180) / Math.PI,
        storage: of(storage),
        loss: of(loss),
        measured: measured !== null && lg >= measured[0] && lg <= measured[1],
      };
    });
}

interface Reading {
  readonly series: number; // of its temperature, ascending
  readonly lg: number; // of the reduced frequency
  readonly modulus: number; // as shown, and so below
  readonly phase: number | null; // [°]
  readonly storage: number; // NaN without phase
  readonly loss: number;
}

/** Temperatures of the tests, ascending [°C]. */
export function testTemperatures(points: readonly ComplexModulusPoint[]): number[] {
  return [...new Set(points.map(p => p.temperature))].sort((a, b) => a - b);
}

function readings({curve, points}: CurveView, {of}: Measure): Reading[] {
  const temperatures = testTemperatures(points);
  return points.map(({temperature, frequency, modulus, phase}) => ({
    series: temperatures.indexOf(temperature),
    lg: Math.log10(reducedFrequency(curve, temperature, frequency)),
    modulus: of(modulus),
    phase: phase === null ? null : (phase * 180) / Math.PI,
    storage: of(modulus) * Math.cos(phase ?? Number.NaN),
    loss: of(modulus) * Math.sin(phase ?? Number.NaN),
  }));
}

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

/** Whole decades within a range of lg, few enough to be labelled. */
function decades([low, high]: readonly [number, number]): number[] {
  const step = Math.max(1, Math.ceil((high - low) / MOST_TICKS));
  const first = Math.ceil(low / step) * step;
  return Array.from({length: Math.floor((high - first) / step + 1e-9) + 1}, (_, k) => first + k * step);
}

/** An axis along lg of a quantity, labelled with the quantity itself. */
function lgAxisX(ticks: readonly number[], label: string): Plot.Markish {
  return Plot.axisX([...ticks], {text: ticks.map(powerTick), label, labelAnchor: "center", labelArrow: "none"});
}

/** Such an axis as it is to be read: of the quantity, logarithmic. */
function toldDecades([low, high]: readonly [number, number], label: string, {width}: Canvas): TakenScale {
  return {type: "log", domain: [10 ** low, 10 ** high], range: [MARGIN.left, width - MARGIN.right], label};
}

const modulusTicks = ([low, high]: readonly [number, number]): number[] => {
  const steps = Math.log10(high / low) > 3 ? [1] : [1, 2, 5];
  const ticks: number[] = [];
  for (let k = Math.floor(Math.log10(low)); k <= Math.ceil(Math.log10(high)); k++)
    for (const s of steps) ticks.push(Number((s * 10 ** k).toPrecision(1)));
  return ticks.filter(t => t >= low * 0.999 && t <= high * 1.001);
};

/** Logarithmic axis of moduli with its rules. */
function modulusAxis(values: readonly number[], label: string) {
  const [low, high] = [Math.min(...values) / 1.25, Math.max(...values) * 1.25];
  const ticks = modulusTicks([low, high]);
  return {
    y: {type: "log" as const, domain: [low, high], axis: null, label},
    marks: [
      Plot.ruleY(ticks, RULE),
      Plot.axisY(ticks, {text: ticks.map(t => figures(t)), label, labelAnchor: "top", labelArrow: "none"}),
    ],
  };
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
    told: {x: toldDecades(drawn, frequency, canvas)},
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
  const points = followed(view, modulus);
  const all = readings(view, modulus).filter(p => p.phase !== null);
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
  const [cold, warm] = [
    Math.min(USUAL.temperatures[0], ...temperatures),
    Math.max(USUAL.temperatures[1], ...temperatures),
  ];
  const line = Array.from({length: 71}, (_, k) => {
    const temperature = cold + ((warm - cold) * k) / 70;
    const tested = temperatures.length === 0 || (temperature >= temperatures[0] && temperature <= temperatures.at(-1)!);
    return {temperature: shown.of(temperature), lg: shiftFactor(curve, temperature), tested};
  });
  const within = line.filter(p => p.tested);
  const stroke = {x: "temperature", y: "lg", stroke: INK};
  return chart(canvas, "Decimal logarithm of the shift factor against temperature", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [cold, warm].map(shown.of),
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

const RELAXATION_TIMES = [-2, 8] as const; // lg s

/** E(t) at one temperature, with the times at which it is taken. */
export function relaxationChart(
  {curve, prony}: CurveView,
  temperature: number,
  marked: readonly MarkedTime[],
  canvas: Canvas,
): Html {
  const [first, last] = RELAXATION_TIMES;
  const shown = measure("modulus", canvas.units);
  const loading = `Loading time at ${measure("temperature", canvas.units).text(temperature)}, s`;
  const line = Array.from({length: STEPS + 1}, (_, k) => {
    const lg = first + ((last - first) * k) / STEPS;
    const time = 10 ** lg;
    const modulus = relaxationModulusAt(curve, prony, {time, temperature});
    const tested = relaxationBeyondTests(curve, {time, temperature, modulus})?.decades === 0;
    return {lg, modulus: shown.of(modulus), tested};
  });
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
    told: {x: toldDecades(RELAXATION_TIMES, loading, canvas)},
    marks: [
      Plot.ruleX(ticks, RULE),
      ...axis.marks,
      lgAxisX(ticks, `${loading} (log scale)`),
      Plot.line(line, {...stroke, ...(curve.measured ? {strokeWidth: 1, strokeDasharray: "4 3"} : {strokeWidth: 1.6})}),
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
