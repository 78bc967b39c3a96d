/** Wheel-tracked beams: crack fronts against passes as read, fitted and predicted; what the fit is worth. */

import * as Plot from "@observablehq/plot";
import {
  type BeamPrediction,
  type BeamTest,
  type FittedFronts,
  isThrough,
  type ReducedBeam,
} from "../../engine/laboratory/index.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {FRONT, INK, LAYER_FILL, MUTED, PAPER} from "../palette.ts";
import {type Measure, measure} from "../units.ts";
import {
  type Axis,
  type Canvas,
  chart,
  FONT_SIZE,
  fromPixel,
  HALO,
  logPlane,
  spread,
  textWidth,
  toPixel,
} from "./frame.ts";

/** One beam with all that is drawn of it. */
export interface BeamPicture {
  readonly test: BeamTest;
  readonly reduced: ReducedBeam;
  readonly fitted: FittedFronts | null; // null: set aside
  readonly prediction: BeamPrediction | null; // by laws fitted without this beam
}

const HEIGHT = 210; // [px]
const MARGIN = {top: 18, bottom: 38, left: 40, right: 12}; // [px]

/** Both fronts in the beam as it stands: height above the base, so that the fronts are seen to meet. */
export function beamChart({test, reduced, fitted, prediction}: BeamPicture, canvas: Canvas): Html {
  const size = measure("length", canvas.units);
  const {of} = size;
  const t = of(test.interlayer?.thickness ?? 0);
  const whole = t + of(test.overlay.thickness);
  const end = Math.max(
    ...test.readings.map(r => r.passes),
    reduced.meeting?.passes ?? 0,
    Math.min(fitted?.life ?? 0, 1.05 * test.readings[test.readings.length - 1].passes),
  );
  const band = prediction
    ? [...prediction.passes.keys()].map(k => ({
        passes: prediction.passes[k],
        lower: [of(prediction.lower.low[k]), of(prediction.lower.high[k])],
        upper: [whole - of(prediction.upper.high[k]), whole - of(prediction.upper.low[k])],
      }))
    : [];
  const line = fitted
    ? [...fitted.passes.keys()].map(k => ({
        passes: fitted.passes[k],
        lower: of(fitted.lower[k]),
        upper: whole - of(fitted.upper[k]),
      }))
    : [];
  const points = [
    ...read({front: reduced.lower, which: "lower", height: l => l}, size),
    ...read({front: reduced.upper, which: "upper", height: l => whole - l}, size),
  ];
  const smooth = (["lower", "upper"] as const).map(which => {
    const {passes, smooth: lengths} = reduced[which];
    return [...passes.keys()].map(k => ({
      passes: passes[k],
      height: which === "lower" ? of(lengths[k]) : whole - of(lengths[k]),
    }));
  });
  const {meeting} = reduced;
  const met = meeting && meeting.passes <= end ? [meeting] : [];
  const broken = test.readings.find(isThrough);
  return chart(canvas, `Crack fronts of beam ${test.name} against passes`, {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [0, end * 1.02],
      ticks: 4,
      tickFormat: (v: number) => figures(v / 1e3),
      label: "Passes, thousands",
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {
      domain: [0, whole],
      ticks: 5,
      label: `Height above the base, ${size.unit}`,
      labelAnchor: "top",
      labelArrow: "none",
    },
    marks: [
      Plot.rectY([0], {x1: 0, x2: end * 1.02, y1: t, y2: whole, fill: LAYER_FILL.overlay, fillOpacity: 0.32}),
      t > 0
        ? Plot.rectY([0], {x1: 0, x2: end * 1.02, y1: 0, y2: t, fill: LAYER_FILL.interlayer, fillOpacity: 0.22})
        : null,
      ...(["lower", "upper"] as const).flatMap(which => [
        Plot.areaY(band, {
          x: "passes",
          y1: d => d[which][0],
          y2: d => d[which][1],
          fill: FRONT[which].colour,
          fillOpacity: 0.16,
        }),
        Plot.lineY(line, {
          x: "passes",
          y: which,
          stroke: FRONT[which].colour,
          strokeWidth: 1.8,
          strokeDasharray: FRONT[which].dash,
        }),
      ]),
      ...smooth.map(front => Plot.lineY(front, {x: "passes", y: "height", stroke: MUTED, strokeWidth: 0.8})),
      Plot.ruleY(met, {y: whole / 2, x1: "low", x2: d => Math.min(d.high, end * 1.02), stroke: MUTED}),
      Plot.dot(met, {x: "passes", y: whole / 2, symbol: "times", r: 3.5, stroke: INK}),
      Plot.ruleX(points, {x: "passes", y1: "low", y2: "high", stroke: INK, strokeWidth: 0.8}),
      Plot.dot(points, {
        x: "passes",
        y: "height",
        r: 2.4,
        fill: d => (d.front === "lower" ? FRONT.lower.colour : PAPER),
        stroke: d => FRONT[d.front as "lower" | "upper"].colour,
      }),
      broken &&
        Plot.text([broken], {x: "passes", y: whole / 2, text: ["through"], rotate: -90, dx: -6, fill: INK, ...HALO}),
      broken && Plot.ruleX([broken.passes], {stroke: INK, strokeDasharray: "1 3"}),
      Plot.ruleY([0, whole], {stroke: MUTED}),
    ],
  });
}

/** Readings with the two faces as the ends of a bar. */
function read(
  {
    front,
    which,
    height,
  }: {
    readonly front: ReducedBeam["lower"];
    readonly which: "lower" | "upper";
    readonly height: (length: number) => number;
  },
  {of}: Measure,
) {
  return [...front.passes.keys()].map(k => {
    const half = of(Number.isNaN(front.difference[k]) ? 0 : front.difference[k] / 2);
    const middle = height(of(front.length[k]));
    return {passes: front.passes[k], height: middle, low: middle - half, high: middle + half, front: which};
  });
}

const SQUARE = 360; // [px]
const SQUARE_MARGIN = {top: 20, bottom: 42, left: 62, right: 20} as const;
const NAME = 9.5; // type size of beams' names [px]

/** Heights of names above their bars, so that those of neighbours do not lie over one another [px]. */
function nameHeights(names: readonly {readonly x: number; readonly y: number; readonly text: string}[]): number[] {
  const heights = names.map(n => n.y - 8);
  const half = (k: number): number => (textWidth(names[k]!.text) * NAME) / FONT_SIZE / 2;
  const byPlace = [...names.keys()].sort((i, j) => names[i]!.x - names[j]!.x);
  let group: number[] = [];
  const settle = (): void => {
    const apart = spread(
      group.map(k => heights[k]!),
      NAME + 2,
      NAME,
      SQUARE,
    );
    group.forEach((k, i) => {
      heights[k] = apart[i]!;
    });
  };
  for (const k of byPlace) {
    const last = group.at(-1);
    if (last !== undefined && names[k]!.x - names[last]!.x > half(k) + half(last)) {
      settle();
      group = [];
    }
    group.push(k);
  }
  settle();
  return heights;
}

/** Each life predicted by laws fitted without that beam, against the one observed; on the diagonal they agree. */
export function predictionChart(predictions: readonly BeamPrediction[], canvas: Canvas): Html {
  const finite = predictions.flatMap(p => [
    p.life.low,
    p.life.middle,
    p.life.high,
    p.observed.after,
    p.observed.before ?? 0,
  ]);
  const values = finite.filter(v => v > 0 && Number.isFinite(v));
  const low = Math.min(...values) / 1.6;
  const high = Math.max(...values) * 1.6;
  const domain = [low, high] as const;
  const plane = logPlane(domain, domain, {x: "Observed passes until broken", y: "Predicted without this beam"});
  const inside = (v: number): number => Math.min(Math.max(v, low), high);
  const rows = predictions.map(p => ({
    name: p.name,
    // Broken between two readings: drawn at their middle on the scale; not broken: an arrow from the last one on.
    observed:
      p.observed.before === null ? p.observed.after : Math.sqrt(Math.max(p.observed.after, low) * p.observed.before),
    open: p.observed.before === null,
    from: inside(p.observed.after),
    to: inside(p.observed.before ?? p.observed.after * 1.35),
    low: inside(p.life.low),
    middle: inside(p.life.middle),
    high: inside(p.life.high),
  }));
  const across: Axis = {log: true, domain, range: [SQUARE_MARGIN.left, canvas.width - SQUARE_MARGIN.right]};
  const up: Axis = {log: true, domain, range: [SQUARE - SQUARE_MARGIN.bottom, SQUARE_MARGIN.top]};
  const heights = nameHeights(rows.map(r => ({x: toPixel(across, r.observed), y: toPixel(up, r.high), text: r.name})));
  const names = rows.map((r, k) => ({...r, y: fromPixel(up, heights[k]!)}));
  const diagonal = (factor: number) => [
    {x: Math.max(low, low / factor), y: Math.max(low, low / factor) * factor},
    {x: Math.min(high, high / factor), y: Math.min(high, high / factor) * factor},
  ];
  return chart(canvas, "Predicted against observed passes to breaking, logarithmic scales", {
    height: SQUARE,
    margin: SQUARE_MARGIN,
    x: plane.x,
    y: plane.y,
    marks: [
      ...plane.marks,
      Plot.line(diagonal(1), {x: "x", y: "y", stroke: INK, strokeWidth: 1.2}),
      ...[0.5, 2].map(f => Plot.line(diagonal(f), {x: "x", y: "y", stroke: MUTED, strokeDasharray: "4 3"})),
      Plot.ruleX(rows, {x: "observed", y1: "low", y2: "high", stroke: FRONT.lower.colour, strokeWidth: 1.6}),
      Plot.ruleY(rows, {y: "middle", x1: "from", x2: "to", stroke: FRONT.lower.colour, strokeWidth: 1}),
      Plot.dot(rows, {
        x: "observed",
        y: "middle",
        r: 4,
        fill: d => (d.open ? PAPER : FRONT.lower.colour),
        stroke: FRONT.lower.colour,
        strokeWidth: 1.6,
      }),
      Plot.text(
        rows.filter(r => r.open),
        {x: "to", y: "middle", text: () => "→", dx: 1, fill: FRONT.lower.colour},
      ),
      Plot.text(names, {x: "observed", y: "y", text: "name", fontSize: NAME, fill: INK, ...HALO}),
    ],
  });
}

/** Residuals over their standard deviation, in the order of passes: no pattern should show. */
export function residualChart(fronts: readonly FittedFronts[], canvas: Canvas): Html {
  const size = measure("length", canvas.units);
  const points = fronts.flatMap(f =>
    f.residuals.map(r => ({x: size.of(r.fitted), y: r.standard, front: r.front, passes: r.passes})),
  );
  const most = Math.max(3, ...points.map(p => Math.abs(p.y)));
  return chart(canvas, "Residuals of crack lengths over their standard deviation against the fitted length", {
    height: 200,
    margin: {top: 20, bottom: 38, left: 40, right: 20},
    x: {label: `Fitted length of the front, ${size.unit}`, labelAnchor: "center", labelArrow: "none"},
    y: {domain: [-most, most], label: "Residual over its standard deviation", labelAnchor: "top", labelArrow: "none"},
    marks: [
      Plot.ruleY([-2, 2], {stroke: MUTED, strokeDasharray: "4 3"}),
      Plot.ruleY([0], {stroke: INK}),
      Plot.dot(points, {
        x: "x",
        y: "y",
        r: 2.3,
        fill: d => (d.front === "lower" ? FRONT.lower.colour : PAPER),
        stroke: d => FRONT[d.front as "lower" | "upper"].colour,
      }),
    ],
  });
}
