/** What lives cost: life against present worth, with the designs that none beats in both joined by a line. */

import * as Plot from "@observablehq/plot";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {type Axis, type Canvas, chart, FONT_SIZE, HALO, logAxisY, RULE, textWidth, toPixel} from "./frame.ts";
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

export function frontierChart({designs, frontier, target, currency}: FrontierPicture, canvas: Canvas): Html {
  const {fromMetric} = measure("length", canvas.units);
  const lives = [target, ...designs.map(d => d.life)];
  const {domain, ticks} = lifeScaleOf(lives);
  const costs = costDomain(designs);
  const at = {x: "cost", y: "life"} as const;
  const treatments = [...new Set(designs.map(d => d.treatment))];
  const named = withRoom([...frontier, ...designs.filter(d => !frontier.includes(d))], {
    text: d => figures(fromMetric(d.thickness)),
    across: {log: false, domain: costs, range: [MARGIN.left, canvas.width - MARGIN.right]},
    up: {log: true, domain, range: [HEIGHT - MARGIN.bottom, MARGIN.top]},
  });
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
          {...at, r: 3.6, symbol, fill: colour},
        );
      }),
      Plot.text(named, {
        x: n => n.of.cost,
        y: n => n.of.life,
        text: "text",
        dx: LABEL.right,
        dy: -LABEL.up,
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

interface Labels {
  readonly text: (design: PricedDesign) => string;
  readonly across: Axis;
  readonly up: Axis;
}

/** Those whose label touches none of a label before it, in their order. */
function withRoom(designs: readonly PricedDesign[], {text, across, up}: Labels) {
  const placed: {readonly of: PricedDesign; readonly text: string; readonly x: number; readonly y: number}[] = [];
  for (const of of designs) {
    const own = {of, text: text(of), x: toPixel(across, of.cost), y: toPixel(up, of.life)};
    const touches = placed.some(
      p =>
        Math.abs(p.y - own.y) < FONT_SIZE &&
        (p.x < own.x ? own.x - p.x < textWidth(p.text) : p.x - own.x < textWidth(own.text)),
    );
    if (!touches) placed.push(own);
  }
  return placed;
}
