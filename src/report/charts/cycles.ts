/** Histogram of the thermal cycles of the tip strain, and which of them do the damage. */

import * as Plot from "@observablehq/plot";
import type {TreatmentLife} from "../../engine/life/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {MUTED, SCENARIO} from "../palette.ts";
import {type Canvas, chart, RULE} from "./frame.ts";

type Cycles = NonNullable<TreatmentLife["thermalCycles"]>;

const BINS = 20;
const HEIGHT = 200; // [px]
const MARGIN = {top: 24, bottom: 40, left: 46, right: 10}; // [px]

interface Bin {
  readonly low: number; // [µε]
  readonly high: number; // [µε]
  readonly perYear: number;
  readonly damage: number; // share of Σ N·Δε^n [%]
}

/** Cycles gathered in equal classes of range; damage by the growth exponent n of the layer the tip is in. */
export function cycleBins(cycles: Cycles, exponent: number): Bin[] {
  const largest = Math.max(0, ...cycles.range) * 1e6;
  if (largest === 0) return [];
  const width = largest / BINS;
  const perYear = new Float64Array(BINS);
  const damage = new Float64Array(BINS);
  let total = 0;
  for (let i = 0; i < cycles.range.length; i++) {
    const range = cycles.range[i]! * 1e6;
    const bin = Math.min(BINS - 1, Math.floor(range / width));
    const part = cycles.perYear[i]! * (range / largest) ** exponent;
    perYear[bin]! += cycles.perYear[i]!;
    damage[bin]! += part;
    total += part;
  }
  return Array.from(perYear, (n, k) => ({
    low: k * width,
    high: (k + 1) * width,
    perYear: n,
    damage: (100 * damage[k]!) / (total || 1),
  }));
}

function histogram(bins: readonly Bin[], value: "perYear" | "damage", label: string, canvas: Canvas): Html {
  return chart(canvas, label, {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      domain: [0, bins.at(-1)?.high ?? 1],
      tickFormat: (v: number) => figures(v),
      ticks: 5,
      label: "Range of tip strain, µε",
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {ticks: 4, tickFormat: (v: number) => figures(v), label, labelArrow: "none", zero: true},
    marks: [
      Plot.gridY({...RULE, ticks: 4, strokeOpacity: 1}),
      Plot.rect(bins, {
        x1: "low",
        x2: "high",
        y1: 0,
        y2: value,
        insetLeft: 0.5,
        insetRight: 0.5,
        fill: value === "perYear" ? "#8793a0" : SCENARIO.thermal.colour,
      }),
      Plot.ruleY([0], {stroke: MUTED}),
    ],
  });
}

/** How many cycles of each size a year has. */
export function cyclesChart(bins: readonly Bin[], canvas: Canvas): Html {
  return histogram(bins, "perYear", "Cycles a year", canvas);
}

/** What share of the thermal damage each size does. */
export function cycleDamageChart(bins: readonly Bin[], canvas: Canvas): Html {
  return histogram(bins, "damage", "Share of thermal damage, %", canvas);
}
