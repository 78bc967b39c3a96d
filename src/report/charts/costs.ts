/** Present cost added up over the years, a stepped line for each treatment. */

import * as Plot from "@observablehq/plot";
import {type CashFlow, type CostResult, discountFactor} from "../../engine/cost/index.ts";
import {figures, money} from "../format.ts";
import type {Html} from "../html.ts";
import {MUTED, SERIES} from "../palette.ts";
import {type Canvas, chart, HALO, RULE, spread, toPixel} from "./frame.ts";

const HEIGHT = 280; // [px]
const MARGIN = {top: 24, bottom: 40, left: 52, right: 62}; // [px]
const LABEL_GAP = 14; // between labels at the end [px]

interface Step {
  readonly years: number;
  readonly sum: number; // present worth of all payments up to then [cur/m²]
  readonly kind: CashFlow["kind"];
}

/** Payments added up at their present worth. */
export function cumulated(flows: readonly CashFlow[], rate: number): Step[] {
  let sum = 0;
  return flows.map(({years, amount, kind}) => {
    sum += amount * discountFactor(rate, years);
    return {years, sum, kind};
  });
}

export function costsChart({costs, treatments}: CostResult, canvas: Canvas): Html {
  const {period, discountRate, currency} = costs;
  const lines = treatments.map(({flows}, k) => {
    const steps = cumulated(flows, discountRate);
    const series = SERIES[k % SERIES.length];
    return {steps, series, end: steps.at(-1)?.sum ?? 0};
  });
  const highest = 1.06 * Math.max(...lines.flatMap(({steps}) => steps.map(s => s.sum)));
  const axis = {log: false, domain: [0, highest], range: [HEIGHT - MARGIN.bottom, MARGIN.top]} as const;
  const heights = spread(
    lines.map(({end}) => toPixel(axis, end)),
    LABEL_GAP,
    MARGIN.top,
    HEIGHT - MARGIN.bottom,
  );
  const drawn = lines.map((line, k) => ({...line, height: heights[k]})).filter(({steps}) => steps.length > 0);
  return chart(canvas, "Present cost added up over the years, by treatment", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [0, period],
      label: "Years after the first construction",
      labelAnchor: "center",
      labelArrow: "none",
      tickFormat: (v: number) => figures(v),
    },
    y: {domain: [0, highest], label: `${currency}/m², at today’s worth`, labelArrow: "none", ticks: 5},
    marks: [
      Plot.gridY({...RULE, ticks: 5, strokeOpacity: 1}),
      Plot.ruleY([0], {stroke: MUTED}),
      Plot.ruleX([period], {stroke: MUTED, strokeDasharray: "2 3"}),
      ...drawn.flatMap(({steps, series: {colour, dash, symbol}, end, height}) => [
        Plot.line(stairs(steps, period), {
          x: "years",
          y: "sum",
          stroke: colour,
          strokeWidth: 1.8,
          strokeDasharray: dash,
        }),
        Plot.dot(
          steps.filter(s => s.kind !== "residual"),
          {x: "years", y: "sum", fill: colour, symbol, r: 3},
        ),
        Plot.text([end], {
          x: period,
          y: end,
          text: (v: number) => money(v),
          textAnchor: "start",
          dx: 6,
          dy: height - toPixel(axis, end),
          fill: colour,
          fontWeight: 600,
          ...HALO,
        }),
      ]),
    ],
  });
}

/** Level between payments, upright at each; up to the end of the period. */
function stairs(steps: readonly Step[], period: number): {years: number; sum: number}[] {
  const points: {years: number; sum: number}[] = [];
  let level = 0;
  for (const {years, sum} of steps) {
    points.push({years, sum: level}, {years, sum});
    level = sum;
  }
  return [...points, {years: period, sum: level}];
}
