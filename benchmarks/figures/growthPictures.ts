/** Times against sizes, both logarithmic. */
import * as Plot from "@observablehq/plot";
import {MUTED} from "../../src/report/palette.ts";
import type {GrowthLine} from "../growth/line.ts";
import {PARTS} from "../growth/parts.ts";
import type {Picture} from "./group.ts";
import {COLOURS, picture} from "./pictures.ts";

interface Point {
  readonly along: string;
  readonly part: string;
  readonly size: number;
  readonly ms: number;
}

const SCALE = {type: "log", grid: true, tickFormat: (v: number) => String(v)} as const;
const LEGEND = [...PARTS, "whole wavenumbers"];

export function elementsPicture(lines: readonly GrowthLine[]): Picture {
  const own = lines.filter(({along}) => along === "elements");
  const points = pointsOf(own.filter(({part}) => part !== "flop"));
  // Multiply–adds, moved to begin where the elimination does: only their slope is to be seen.
  const flop = own.find(({part}) => part === "flop")!.points;
  const start = own.find(({part}) => part === "elimination")!.points[0].value / flop[0].value;
  const slope = flop.map(({size, value}) => ({size, ms: value * start}));
  return picture("benchmark-growth-elements.svg", "Time of the parts of one wavenumber against elements of the mesh", {
    height: 340,
    marginLeft: 50,
    marginRight: 130,
    x: {...SCALE, label: "elements of the mesh", ticks: [1000, 2000, 5000]},
    y: {...SCALE, label: "ms", ticks: [1, 2, 5, 10, 20, 50, 100]},
    color: {domain: LEGEND, range: COLOURS},
    marks: [
      Plot.line(slope, {x: "size", y: "ms", stroke: MUTED, strokeDasharray: "4 3"}),
      Plot.line(points, {x: "size", y: "ms", stroke: "part", strokeWidth: 1.6}),
      Plot.dot(points, {x: "size", y: "ms", fill: "part", r: 2.5}),
      Plot.text(endsOf(points), {x: "size", y: "ms", text: "part", fill: "part", textAnchor: "start", dx: 6}),
      Plot.text(slope.slice(-1), {
        x: "size",
        y: "ms",
        text: () => "as its multiply–adds",
        fill: MUTED,
        textAnchor: "start",
        dx: 6,
        dy: -10,
      }),
    ],
  });
}

/** One small plot a size. */
export function countsPicture(lines: readonly GrowthLine[]): Picture {
  const points = pointsOf(lines.filter(({along, part}) => along !== "elements" && part !== "flop"));
  return picture(
    "benchmark-growth-counts.svg",
    "Time of the parts against wavenumbers, wheels, crack states and layers",
    {
      height: 300,
      marginLeft: 50,
      x: {...SCALE, label: "number of them", ticks: [5, 20, 100]},
      y: {...SCALE, label: "ms", ticks: [0.1, 1, 10, 100]},
      fx: {label: null},
      color: {domain: LEGEND, range: COLOURS},
      marks: [
        Plot.frame({stroke: MUTED, strokeOpacity: 0.4}),
        Plot.line(points, {fx: "along", x: "size", y: "ms", stroke: "part", strokeWidth: 1.6}),
        Plot.dot(points, {fx: "along", x: "size", y: "ms", fill: "part", r: 2.5}),
      ],
    },
  );
}

function pointsOf(lines: readonly GrowthLine[]): Point[] {
  return lines.flatMap(({along, part, points}) => points.map(({size, value}) => ({along, part, size, ms: value})));
}

function endsOf(points: readonly Point[]): Point[] {
  return LEGEND.flatMap(part =>
    points
      .filter(p => p.part === part)
      .toSorted((p, q) => q.size - p.size)
      .slice(0, 1),
  );
}
