/** What lives cost: life against present worth, with the designs that none beats in both joined by a line. */

import * as Plot from "@observablehq/plot";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {type Canvas, chart, HALO, logAxisY, RULE} from "./frame.ts";
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
const MARGIN = {top: 22, bottom: 44, left: 58, right: 30}; // [px]

export function frontierChart({designs, frontier, target, currency}: FrontierPicture, canvas: Canvas): Html {
  const {fromMetric} = measure("length", canvas.units);
  const lives = [target, ...designs.map(d => d.life)];
  const {domain, ticks} = lifeScaleOf(lives);
  const at = {x: "cost", y: "life"} as const;
  const treatments = [...new Set(designs.map(d => d.treatment))];
  return chart(canvas, "Life against present worth, life on a logarithmic scale", {
    height: 320,
    margin: MARGIN,
    x: {
      ticks: 8,
      nice: true,
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
      Plot.text(designs, {
        ...at,
        text: d => figures(fromMetric(d.thickness)),
        dx: 6,
        dy: -7,
        textAnchor: "start",
        fill: INK,
        ...HALO,
      }),
    ],
  });
}
