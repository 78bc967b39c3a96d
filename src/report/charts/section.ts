/** The pavement cut along the direction of travel, to scale around the joint. */

import * as Plot from "@observablehq/plot";
import type {Layer, Section} from "../../engine/section/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, LAYER_FILL, LAYER_FILL_ALTERNATE, MUTED, PAPER} from "../palette.ts";
import {type Measure, measure, quantityText, type UnitSystem} from "../units.ts";
import {type Axis, type Canvas, chart, FONT_SIZE, fromPixel, shorten, spread, toPixel} from "./frame.ts";
import type {ToldScales} from "./scales.ts";

interface Band {
  readonly layer: Layer;
  readonly top: number; // [mm]
  readonly bottom: number; // as drawn [mm]
  readonly cut: boolean; // drawn shorter than it is
  readonly fill: string;
}

const HEIGHT = 232; // [px]
const MARGIN = {top: 10, bottom: 24, left: 46, right: 268}; // [px]

/** The layers that are drawn: foundation layers are cut short, the last one always when it is deep. */
function bands(section: Section): Band[] {
  const above = section.layers.filter(l => l.role !== "foundation").reduce((sum, l) => sum + l.thickness * 1e3, 0);
  const foundationShown = Math.max(0.45 * above, 150);
  const floor = above + foundationShown;
  const result: Band[] = [];
  let top = 0;
  for (const [i, layer] of section.layers.entries()) {
    if (top >= floor) break;
    const bottom = top + layer.thickness * 1e3;
    const below = section.layers.slice(i + 1).filter(l => l.role === "foundation").length;
    const room = floor - (below > 0 ? Math.min(below, 3) * foundationShown * 0.22 : 0);
    const drawn = layer.role === "foundation" ? Math.min(bottom, Math.max(room, top + foundationShown * 0.22)) : bottom;
    const previous = section.layers[i - 1];
    const alternate = previous?.role === layer.role && result.at(-1)?.fill === LAYER_FILL[layer.role];
    const fill = (alternate ? LAYER_FILL_ALTERNATE : LAYER_FILL)[layer.role];
    result.push({layer, top, bottom: drawn, cut: drawn < bottom - 1e-9, fill});
    top = drawn;
  }
  return result;
}

function modulusText(layer: Layer, units: UnitSystem): string {
  const {of, text} = measure("modulus", units);
  const values = layer.material.modulus.map(p => p.modulus);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? text(low) : `${figures(of(low))} to ${text(high)}`;
}

function baseText(section: Section, units: UnitSystem): string {
  const {of, unit} = measure("foundation stiffness", units);
  return section.base.kind === "rigid"
    ? "below: rough, rigid base"
    : `below: springs, ${figures(of(section.base.stiffness))} ${unit}`;
}

interface Drawing {
  readonly section: Section;
  readonly shown: readonly Band[];
  readonly half: number; // half the width drawn to scale [mm]
  readonly right: number; // right end of the drawing [mm]
  readonly depth: Axis; // [mm]
  readonly units: UnitSystem;
}

/** Joint faces, the cut below, the strips without bond and the line that a crack would follow. */
function jointMarks(d: Drawing): Plot.Markish[] {
  const joint = d.section.joint;
  const jointed = d.shown.filter(b => b.layer.role === "jointed");
  if (jointed.length === 0) return [];
  const top = jointed[0]!.top;
  const bottom = jointed.at(-1)!.bottom;
  const floor = d.shown.at(-1)!.bottom;
  const halfWidth = Math.max((joint.width * 1e3) / 2, d.half * 0.006); // a closed crack is drawn as a hairline
  const next = d.right - (d.right - d.half) * 0.3;
  const cutEnd = Math.min(bottom + joint.cutDepth * 1e3, floor);
  const strip = joint.unbondedStrip * 1e3;
  const marks: Plot.Markish[] = [0, next].map(x =>
    Plot.rect([0], {
      x1: x - halfWidth,
      x2: x + halfWidth,
      y1: top,
      y2: bottom,
      fill: PAPER,
      stroke: INK,
      strokeWidth: 0.8,
    }),
  );
  if (joint.cutDepth > 0 && cutEnd > bottom)
    for (const x of [0, next])
      marks.push(Plot.link([0], {x1: x, x2: x, y1: bottom, y2: cutEnd, stroke: INK, strokeDasharray: "3 2"}));
  if (top > 0)
    marks.push(
      Plot.link([0], {x1: 0, x2: 0, y1: 0, y2: top, stroke: INK, strokeWidth: 1.2, strokeDasharray: "1.5 2.5"}),
    );
  if (strip > 0)
    for (const side of [-1, 1])
      marks.push(
        Plot.link([0], {
          x1: side * halfWidth,
          x2: side * Math.min(halfWidth + strip, d.half),
          y1: top,
          y2: top,
          stroke: PAPER,
          strokeWidth: 3,
        }),
        Plot.link([0], {
          x1: side * halfWidth,
          x2: side * Math.min(halfWidth + strip, d.half),
          y1: top,
          y2: top,
          stroke: INK,
          strokeWidth: 1.2,
          strokeDasharray: "3 2",
        }),
      );
  return marks;
}

/** Interfaces whose bond is not full, dashed across the drawing, and said beside it; the friction under the slab is not among them. */
function bondMarks(d: Drawing): Plot.Markish[] {
  const sliding = d.shown.filter(b => (b.layer.bondBelow ?? Infinity) < Infinity);
  if (sliding.length === 0) return [];
  const pixel = (b: Band): number => toPixel(d.depth, b.bottom);
  const told = sliding.filter((b, k) => k === 0 || pixel(b) - pixel(sliding[k - 1]!) >= FONT_SIZE);
  const line = {x1: -d.half, x2: d.right, y1: "bottom", y2: "bottom"} as const;
  return [
    Plot.link(sliding, {...line, stroke: PAPER, strokeWidth: 3}),
    Plot.link(sliding, {...line, stroke: INK, strokeWidth: 1.2, strokeDasharray: "3 2"}),
    Plot.text(told, {
      x: -d.half,
      y: "bottom",
      text: (b: Band) => (b.layer.bondBelow === 0 ? "no bond" : "partial bond"),
      ...ON_LINE,
    }),
  ];
}

/** A grid or mesh: a dashed line at its depth, with its name. */
function reinforcementMarks({section: {reinforcement}, half, right}: Drawing): Plot.Markish[] {
  if (!reinforcement) return [];
  const z = reinforcement.depth * 1e3;
  return [
    Plot.link([0], {x1: -half, x2: right, y1: z, y2: z, stroke: INK, strokeWidth: 1.8, strokeDasharray: "8 3"}),
    Plot.text([shorten(reinforcement.name, NAME_LENGTH)], {x: half, y: z, ...ON_LINE, textAnchor: "end", dx: -6}),
  ];
}

const ON_LINE = {textAnchor: "start", dx: 4, dy: -5, fill: INK, stroke: PAPER, strokeWidth: 3} as const;

/** The white wedge across the drawing that says: not to scale from here to the neighbouring joint. */
function breakMarks(d: Drawing): Plot.Markish[] {
  const floor = d.shown.at(-1)!.bottom;
  const wave = Array.from({length: 25}, (_, k) => (k / 24) * floor);
  const swing = d.half * 0.022;
  const edge = (shift: number) => wave.map((z, k) => [d.half + shift + swing * Math.sin((k / 24) * 4 * Math.PI), z]);
  const left = edge(0);
  const right = edge(d.half * 0.05);
  return [
    Plot.areaX(
      left.map((point, k) => ({z: point[1]!, a: point[0]!, b: right[k]![0]!})),
      {
        y: "z",
        x1: "a",
        x2: "b",
        fill: PAPER,
      },
    ),
    Plot.line(left as [number, number][], {stroke: MUTED, strokeWidth: 0.8}),
    Plot.line(right as [number, number][], {stroke: MUTED, strokeWidth: 0.8}),
  ];
}

/** Names and sizes beside the layers, moved apart where layers are thin, joined to them by a fine line. */
function labelMarks(d: Drawing): Plot.Markish[] {
  const wanted = d.shown.map(b => toPixel(d.depth, (b.top + b.bottom) / 2));
  const placed = spread(wanted, 2 * FONT_SIZE + 6, MARGIN.top + 12, HEIGHT - MARGIN.bottom - 10);
  const rows = d.shown.map((band, i) => ({
    band,
    y: fromPixel(d.depth, placed[i]!),
    middle: (band.top + band.bottom) / 2,
    name: `${band.layer.name}, ${quantityText(band.layer.thickness, "length", d.units)}`,
    detail: `${band.layer.material.name}, ${modulusText(band.layer, d.units)}`,
  }));
  const common = {frameAnchor: "right", textAnchor: "start", dx: 20, y: "y"} as const;
  return [
    ...rows.map(r =>
      Plot.arrow([r], {
        x1: d.right,
        x2: d.right + 16 / toScale(d),
        y1: "middle",
        y2: "y",
        stroke: MUTED,
        strokeWidth: 0.8,
        headLength: 0,
      }),
    ),
    Plot.text(rows, {...common, text: r => shorten(r.name, NAME_LENGTH), dy: -6, fontWeight: 600}),
    Plot.text(rows, {...common, text: r => shorten(r.detail, DETAIL_LENGTH), dy: 7, fill: MUTED}),
  ];
}

const NAME_LENGTH = 38; // bold characters that fit the right margin
const DETAIL_LENGTH = 44; // plain ones

/** Pixels a millimetre. */
function toScale(d: Drawing): number {
  return Math.abs(d.depth.range[1] - d.depth.range[0]) / (d.depth.domain[1] - d.depth.domain[0]);
}

/** Up to the wedge the drawing is to scale; beyond it, towards the next joint, positions say nothing. */
function toldScales({half, right, depth}: Drawing, {unit, fromMetric}: Measure): ToldScales {
  const [zero, end] = [
    MARGIN.left,
    MARGIN.left + ((depth.range[1] - depth.range[0]) / depth.domain[1]) * (half + right),
  ];
  const ends = (a: number, b: number): [number, number] => [fromMetric(a), fromMetric(b)];
  const wedge = zero + ((end - zero) * 2 * half) / (half + right);
  return {
    x: {type: "linear", domain: ends(-half, half), range: [zero, wedge], label: `Distance from the joint, ${unit}`},
    y: {type: "linear", domain: ends(...depth.domain), range: depth.range, label: `Depth, ${unit}`},
  };
}

/** The section of one treatment, to scale in both directions around the joint. */
export function sectionChart(section: Section, canvas: Canvas): Html {
  const shown = bands(section);
  const floor = shown.at(-1)!.bottom;
  const depth: Axis = {log: false, domain: [0, floor], range: [MARGIN.top, HEIGHT - MARGIN.bottom]};
  const scale = (HEIGHT - MARGIN.top - MARGIN.bottom) / floor; // [px/mm], the same both ways
  const across = (canvas.width - MARGIN.left - MARGIN.right) / scale; // width drawn [mm]
  const half = across * 0.4;
  const right = across - half;
  const {units = "metric"} = canvas;
  const length = measure("length", units);
  const d: Drawing = {section, shown, half, right, depth, units};
  const edges = [0, ...shown.filter(b => !b.cut).map(b => b.bottom)];
  const ticks = edges.filter((e, i) => i === 0 || i === edges.length - 1 || (e - edges[i - 1]!) * scale >= FONT_SIZE);
  return chart(canvas, `Section through the joint: ${shown.map(b => b.layer.name).join(", ")}`, {
    height: HEIGHT,
    margin: MARGIN,
    x: {domain: [-half, right], axis: null},
    y: {domain: [floor, 0], label: null, ticks, tickSize: 4, tickFormat: (z: number) => figures(length.fromMetric(z))},
    told: toldScales(d, length),
    marks: [
      Plot.rect(shown, {x1: -half, x2: right, y1: "top", y2: "bottom", fill: "fill"}),
      Plot.ruleY(
        shown.slice(1).map(b => b.top),
        {stroke: PAPER, strokeWidth: 1},
      ),
      ...bondMarks(d),
      ...jointMarks(d),
      ...reinforcementMarks(d),
      ...breakMarks(d),
      ...labelMarks(d),
      Plot.text([`depth, ${length.unit}`], {
        frameAnchor: "bottom-left",
        dx: -MARGIN.left + 4,
        dy: 20,
        textAnchor: "start",
        fill: MUTED,
      }),
      Plot.text([baseText(section, units)], {
        frameAnchor: "bottom-right",
        textAnchor: "start",
        dx: 20,
        dy: 14,
        lineAnchor: "middle",
        fill: MUTED,
      }),
      Plot.text([`joint, ${length.text(section.joint.width)} wide`], {
        x: 0,
        frameAnchor: "bottom",
        dy: 14,
        lineAnchor: "middle",
      }),
      Plot.text([`next at ${quantityText(section.joint.spacing, "distance", units)}`], {
        x: right - (right - half) * 0.3,
        frameAnchor: "bottom",
        dy: 14,
        lineAnchor: "middle",
        fill: MUTED,
      }),
    ],
  });
}
