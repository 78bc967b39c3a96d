/** What lives cost: life against present worth, with the designs that none beats in both joined by a line. */

import * as Plot from "@observablehq/plot";
import {figures, thicknessFigures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {
  type Axis,
  type Canvas,
  chart,
  FONT_SIZE,
  fromPixel,
  HALO,
  logAxisY,
  RULE,
  textWidth,
  toPixel,
} from "./frame.ts";
import {lifeScaleOf} from "./lifeScale.ts";

interface PricedDesign {
  readonly treatment: number; // index
  readonly thickness: number; // [mm]
  readonly life: number; // [years], as drawn
  readonly cost: number; // [cur/m²]
}

export interface FrontierPicture {
  readonly designs: readonly PricedDesign[];
  readonly frontier: readonly PricedDesign[]; // of them, by cost
  readonly target: number; // [years]
  readonly currency: string;
}

const LIFE = "Life, years (log scale)";
const HEIGHT = 320; // [px]
const MARGIN = {top: 22, bottom: 44, left: 58, right: 30}; // [px]
const ROOM = 0.04; // at either end of the costs [–]
const LABEL = {right: 6, up: 7}; // from the dot [px]
const DOT = 4; // radius, with a little air [px]

export function frontierChart({designs, frontier, target, currency}: FrontierPicture, canvas: Canvas): Html {
  const {fromMetric} = measure("length", canvas.units);
  const lives = [target, ...designs.map(d => d.life)];
  const {domain, ticks} = lifeScaleOf(lives);
  const costs = costDomain(designs);
  const at = {x: "cost", y: "life"} as const;
  const treatments = [...new Set(designs.map(d => d.treatment))];
  const across: Axis = {log: false, domain: costs, range: [MARGIN.left, canvas.width - MARGIN.right]};
  const up: Axis = {log: true, domain, range: [HEIGHT - MARGIN.bottom, MARGIN.top]};
  const text = (d: PricedDesign): string => thicknessFigures(fromMetric(d.thickness));
  const labels = withRoom([...frontier, ...designs.filter(d => !frontier.includes(d))], {text, across, up});
  return chart(canvas, "Life against present worth, life on a logarithmic scale", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: costs,
      ticks: 8,
      tickFormat: (v: number) => figures(v),
      label: `Present worth, ${currency}/m²`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {type: "log", domain, axis: null, label: LIFE},
    marks: [
      Plot.ruleY(ticks, RULE),
      logAxisY(ticks, LIFE),
      Plot.ruleY([target], {stroke: ACCENT, strokeWidth: 1.6, strokeDasharray: "6 3"}),
      Plot.lineY(frontier, {...at, stroke: INK, strokeWidth: 1.2, curve: "step-after"}),
      ...treatments.map(t => {
        const {colour, symbol} = SERIES[t % SERIES.length]!;
        return Plot.dot(
          designs.filter(d => d.treatment === t),
          {...at, r: DOT - 0.4, symbol, fill: colour},
        );
      }),
      Plot.text(labels, {
        x: l => fromPixel(across, l.x),
        y: l => fromPixel(up, l.y),
        text: "text",
        textAnchor: "start",
        fill: INK,
        ...HALO,
      }),
    ],
  });
}

function costDomain(designs: readonly PricedDesign[]): [number, number] {
  const costs = designs.map(d => d.cost);
  const [low, high] = [Math.min(...costs), Math.max(...costs)];
  const room = ROOM * (high - low) || 0.1 * Math.abs(high) || 1;
  return [low - room, high + room];
}

interface Place {
  readonly x: number; // left end [px]
  readonly y: number; // middle [px]
}

interface Label extends Place {
  readonly text: string;
}

interface Drawn {
  readonly text: (design: PricedDesign) => string;
  readonly across: Axis;
  readonly up: Axis;
}

/** Labels beside the dots of designs, above or below, where they cover no dot and no label of a design before. */
function withRoom(designs: readonly PricedDesign[], {text, across, up}: Drawn): Label[] {
  const dots = designs.map(d => ({x: toPixel(across, d.cost), y: toPixel(up, d.life)}));
  const placed: Label[] = [];
  designs.forEach((design, k) => {
    const {x, y} = dots[k]!;
    const places = [-1, 1].map(side => ({text: text(design), x: x + LABEL.right, y: y + side * LABEL.up}));
    const free = places.find(
      own => !dots.some((dot, j) => j !== k && covers(own, dot)) && !placed.some(other => meet(own, other)),
    );
    if (free) placed.push(free);
  });
  return placed;
}

const covers = ({text, x, y}: Label, dot: Place): boolean =>
  dot.x > x - DOT && dot.x < x + textWidth(text) + DOT && Math.abs(dot.y - y) < FONT_SIZE / 2 + DOT;

const meet = (a: Label, b: Label): boolean =>
  Math.abs(a.y - b.y) < FONT_SIZE && a.x < b.x + textWidth(b.text) && b.x < a.x + textWidth(a.text);
