/** How sure lives are: survival against years, the fan of crack depths, and what one input at a time moves. */

import * as Plot from "@observablehq/plot";
import type {Swing, TreatmentRisk} from "../../engine/uncertainty/index.ts";
import {figures, LIFE_CAP, yearsNumber} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED, SERIES} from "../palette.ts";
import {type Canvas, chart, HALO, logAxisX, logTicks, RULE, shorten} from "./frame.ts";

const YEARS = "Years (log scale)";
const MARGIN = {top: 20, bottom: 40, left: 50, right: 16}; // [px]

/** Lives of the samples of a treatment [years]; Infinity where they outlast the horizon. */
export interface LivesOf {
  readonly name: string;
  readonly years: readonly number[];
}

/** Part of the samples that live longer, against years. */
export function survivalChart(treatments: readonly LivesOf[], period: number, canvas: Canvas): Html {
  const all = treatments.flatMap(t => t.years.filter(y => y <= LIFE_CAP));
  const low = 10 ** Math.floor(Math.log10(Math.max(0.1, Math.min(period, ...all))));
  const ticks = logTicks(low, LIFE_CAP);
  const lines = treatments.map(({years}, k) => {
    const sorted = years.toSorted((a, b) => a - b);
    const points = sorted.map((y, i) => ({years: Math.max(y, low), share: 100 * (1 - (i + 1) / sorted.length)}));
    const shown = points.filter(p => p.years <= LIFE_CAP);
    const last = shown.at(-1)?.share ?? 100;
    return {k, points: [{years: low, share: 100}, ...shown, {years: LIFE_CAP, share: last}]};
  });
  return chart(canvas, "Part of the samples that live longer, against years on a logarithmic scale", {
    height: 260,
    margin: MARGIN,
    x: {type: "log", domain: [low, LIFE_CAP], axis: null, label: YEARS},
    y: {
      domain: [0, 100],
      label: "Samples that live longer, %",
      labelArrow: "none",
      grid: true,
      ticks: [0, 5, 15, 50, 85, 95, 100],
    },
    marks: [
      Plot.ruleX(ticks, RULE),
      logAxisX(ticks, YEARS),
      Plot.ruleX([period], {stroke: MUTED, strokeDasharray: "4 3"}),
      Plot.text([{x: period}], {
        x: "x",
        y: 100,
        text: () => "analysis period",
        textAnchor: "start",
        dx: 4,
        dy: 8,
        fill: MUTED,
        ...HALO,
      }),
      ...lines.map(({k, points}) => {
        const {colour, dash} = SERIES[k % SERIES.length];
        return Plot.line(points, {
          x: "years",
          y: "share",
          stroke: colour,
          strokeWidth: 2,
          strokeDasharray: dash,
          curve: "step-after",
        });
      }),
    ],
  });
}

/** Cracked depth of one treatment: median, and between the 10 and the 90 % quantile. */
export function fanChart({fan}: TreatmentRisk, canvas: Canvas): Html {
  const [low, middle, high] = fan.depths;
  const rows = fan.years.map((years, i) => ({years, low: 100 * low[i], middle: 100 * middle[i], high: 100 * high[i]}));
  return chart(canvas, "Cracked depth against years: median and the middle 80 % of the samples", {
    height: 220,
    margin: MARGIN,
    x: {label: "Years", labelAnchor: "center", labelArrow: "none"},
    y: {domain: [0, 100], label: "Cracked depth, % of the overlay", labelArrow: "none", grid: true},
    marks: [
      Plot.areaY(rows, {x: "years", y1: "low", y2: "high", fill: ACCENT, fillOpacity: 0.2}),
      Plot.lineY(rows, {x: "years", y: "middle", stroke: ACCENT, strokeWidth: 2}),
      Plot.ruleY([0], {stroke: MUTED}),
    ],
  });
}

const BAR = 20; // [px]
const MOST_BARS = 12;
/** Inputs that move less of it are not drawn [–]. */
const SMALLEST_SHARE = 1e-3;

/** What a quantity becomes with one input at its 10 and at its 90 % quantile; the largest swing on top. */
export function swingChart(
  swings: readonly Swing[],
  {base, label, write}: {readonly base: number; readonly label: string; readonly write: (value: number) => string},
  canvas: Canvas,
): Html {
  const shown = swings.filter(s => s.share > SMALLEST_SHARE).slice(0, MOST_BARS);
  const values = [base, ...shown.flatMap(s => [s.low, s.high])];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = (most / least) ** 0.3 * 1.05; // for the labels at the ends
  const domain = [least / room, most * room] as const;
  const round = logTicks(...domain);
  const ticks = round.length > 1 ? round : [base]; // a narrow range holds no round numbers
  const rows = shown.map((s, row) => ({row, ...s, from: Math.min(s.low, s.high), to: Math.max(s.low, s.high)}));
  const end = (side: "from" | "to") =>
    Plot.text(rows, {
      x: side,
      y: r => r.row + 0.5,
      text: r => `${r[side] === r.low ? "low" : "high"}: ${write(r[side])}`,
      textAnchor: side === "from" ? "end" : "start",
      dx: side === "from" ? -4 : 4,
      fill: MUTED,
      fontSize: 10,
      ...HALO, // the line of the study passes behind
    });
  return chart(canvas, `${label} with one input at its low and high quantile`, {
    height: shown.length * BAR + 50,
    margin: {top: 8, bottom: 42, left: Math.min(190, canvas.width * 0.42), right: 24},
    x: {type: "log", domain: [...domain], axis: null, label},
    y: {domain: [shown.length, 0], axis: null},
    told: {y: {type: "band", domain: shown.map(s => s.name), range: [8, 8 + shown.length * BAR], label: ""}},
    marks: [
      Plot.ruleX(ticks, RULE),
      logAxisX(ticks, `${label} (log scale)`),
      Plot.rect(rows, {
        x1: "from",
        x2: "to",
        y1: r => r.row + 0.2,
        y2: r => r.row + 0.8,
        fill: ACCENT,
        fillOpacity: 0.55,
      }),
      Plot.ruleX([base], {stroke: INK, strokeWidth: 1.2}),
      end("from"),
      end("to"),
      Plot.text(rows, {
        x: domain[0],
        y: r => r.row + 0.5,
        text: r => shorten(r.name, Math.floor(Math.min(190, canvas.width * 0.42) / 6)),
        textAnchor: "end",
        dx: -6,
        fill: INK,
      }),
    ],
  });
}

export const yearsText = (years: number): string => (years > LIFE_CAP ? `> ${LIFE_CAP}` : yearsNumber(years));
export const ratioNumber = (value: number): string => `×${figures(value, 3)}`;
