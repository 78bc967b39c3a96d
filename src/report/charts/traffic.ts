/** Traffic by load, what it does, and what a pass of each load is worth. */

import * as Plot from "@observablehq/plot";
import type {ClassEquivalence, TrafficEquivalence} from "../../engine/life/types.ts";
import type {Html} from "../html.ts";
import {INK, MUTED, SERIES} from "../palette.ts";
import {type Measure, measure} from "../units.ts";
import {type Canvas, chart, logPlane} from "./frame.ts";

const MARGIN = {top: 20, bottom: 40, left: 56, right: 14}; // [px]
/** Share of the damage, or of the passes, so small that it would only stretch a logarithmic axis [–]. */
const SMALLEST = 1e-4;

/** Spectra and, under one name, classes that stand for themselves. */
export function loadGroups({classes}: TrafficEquivalence): string[] {
  return [...new Set(classes.map(groupOf))];
}

const groupOf = ({group, loadClass}: ClassEquivalence): string => group ?? loadClass;

interface Point {
  readonly group: number;
  readonly load: number; // [kN], or [kip]
  readonly value: number;
}

function pointsOf(traffic: TrafficEquivalence, load: Measure, value: (c: ClassEquivalence) => number): Point[] {
  const groups = loadGroups(traffic);
  return traffic.classes
    .map(c => ({group: groups.indexOf(groupOf(c)), load: load.of(c.load), value: value(c)}))
    .sort((p, q) => p.load - q.load);
}

function seriesMarks(points: readonly Point[], groups: number, joined: boolean): Plot.Markish[] {
  return Array.from({length: groups}, (_, k) => {
    const own = points.filter(p => p.group === k);
    const {colour, symbol, dash} = SERIES[k % SERIES.length];
    const place = {x: "load", y: "value"} as const;
    return [
      ...(joined ? [Plot.lineY(own, {...place, stroke: colour, strokeWidth: 1.4, strokeDasharray: dash})] : []),
      Plot.dot(own, {...place, fill: colour, symbol, r: 2.6}),
    ];
  }).flat();
}

/** Share of the passes, or of the damage, of each load. */
export function spectrumChart(traffic: TrafficEquivalence, what: "passes" | "damage", canvas: Canvas): Html {
  const load = measure("force", canvas.units);
  const passes = traffic.classes.reduce((sum, c) => sum + c.passesPerYear, 0);
  const points = pointsOf(traffic, load, c => 100 * (what === "damage" ? c.share : c.passesPerYear / passes));
  const label = what === "damage" ? "Share of the damage, %" : "Share of the passes, %";
  return chart(canvas, `${label}, by load on the axle group`, {
    height: 220,
    margin: MARGIN,
    x: {label: `Load on the group, ${load.unit}`, labelAnchor: "center", labelArrow: "none", zero: true},
    y: {label, labelArrow: "none", grid: true, zero: true},
    marks: [Plot.ruleY([0], {stroke: MUTED}), ...seriesMarks(points, loadGroups(traffic).length, true)],
  });
}

/** Factors of equivalence against load, with the fourth-power law beside them. Null when there is one load only. */
export function equivalenceChart(traffic: TrafficEquivalence, canvas: Canvas): Html | null {
  const load = measure("force", canvas.units);
  const points = pointsOf(traffic, load, c => c.factor).filter(p => p.value >= SMALLEST);
  const fourth = pointsOf(traffic, load, c => c.fourthPower).filter(p => p.value >= SMALLEST);
  if (points.length < 2) return null;
  const bounds = (values: readonly number[]): readonly [number, number] => [
    Math.min(...values) / 1.15,
    Math.max(...values) * 1.15,
  ];
  const both = [...points, ...fourth];
  const plane = logPlane(bounds(both.map(p => p.load)), bounds(both.map(p => p.value)), {
    x: `Load on the group, ${load.unit} (log scale)`,
    y: `Passes of the ${traffic.reference} (log scale)`,
  });
  const groups = loadGroups(traffic);
  return chart(canvas, "Factor of equivalence against load, with the fourth-power law, logarithmic scales", {
    height: 280,
    margin: {...MARGIN, right: 24},
    x: plane.x,
    y: plane.y,
    marks: [
      ...plane.marks,
      Plot.ruleY([1], {stroke: INK, strokeWidth: 1}),
      ...groups.map((_, k) =>
        Plot.lineY(
          fourth.filter(p => p.group === k),
          {x: "load", y: "value", stroke: MUTED, strokeWidth: 1, strokeDasharray: "2 3"},
        ),
      ),
      ...seriesMarks(points, groups.length, true),
    ],
  });
}
