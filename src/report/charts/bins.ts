/** Temperature bins of the overlay with their share of the traffic, and the passes of each load class. */

import * as Plot from "@observablehq/plot";
import type {TemperatureBin} from "../../engine/life/types.ts";
import type {LoadClass} from "../../engine/traffic/types.ts";
import {count, percent} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED, SCENARIO} from "../palette.ts";
import {measure} from "../units.ts";
import {type Canvas, chart, textWidth} from "./frame.ts";

const ROW = 22; // [px]
const MARGIN = {top: 6, bottom: 38, right: 62}; // [px]

interface Bar {
  readonly name: string;
  readonly value: number;
  readonly text: string;
}

function bars(rows: readonly Bar[], label: string, fill: string, canvas: Canvas): Html {
  const longest = Math.max(...rows.map(r => r.value));
  return chart(canvas, label, {
    height: rows.length * ROW + MARGIN.top + MARGIN.bottom,
    margin: {...MARGIN, left: Math.min(canvas.width * 0.45, Math.max(...rows.map(r => textWidth(r.name))) + 14)},
    x: {
      domain: [0, longest],
      ticks: 2,
      tickFormat: (v: number) => count(v),
      label,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {domain: rows.map((_, i) => i), tickFormat: (i: number) => rows[i]!.name, tickSize: 0, label: null},
    told: {
      y: {type: "band", domain: rows.map(r => r.name), range: [MARGIN.top, MARGIN.top + rows.length * ROW], label: ""},
    },
    marks: [
      Plot.barX(rows, {x: "value", y: (_, i: number) => i, fill, inset: 1}),
      Plot.text(rows, {x: "value", y: (_, i: number) => i, text: "text", textAnchor: "start", dx: 5, fill: INK}),
      Plot.ruleX([0], {stroke: MUTED}),
    ],
  });
}

export function binsChart(bins: readonly TemperatureBin[], canvas: Canvas): Html {
  const {text} = measure("temperature", canvas.units);
  const rows = bins.map(b => ({name: text(b.temperature), value: b.share * 100, text: percent(b.share)}));
  return bars(rows, "Share of the year’s passes, %", "#b98a62", canvas);
}

export function classesChart(classes: readonly LoadClass[], canvas: Canvas): Html {
  const rows = classes.map(c => ({name: c.name, value: c.passesPerYear, text: count(c.passesPerYear)}));
  return bars(rows, "Passes in the first year", SCENARIO.traffic.colour, canvas);
}
