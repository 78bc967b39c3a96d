/** Lives by mechanism as bars on a logarithmic axis, grouped by treatment. */

import * as Plot from "@observablehq/plot";
import type {LifeResult} from "../../engine/life/types.ts";
import {beyondCap, LIFE_CAP, lifeText} from "../format.ts";
import type {Html} from "../html.ts";
import {control, mechanismRows, rowName} from "../lives.ts";
import {ACCENT, INK, MUTED, PAPER} from "../palette.ts";
import {type Canvas, chart, HALO, logAxisX, logTicks, RULE} from "./frame.ts";

const ROW = 21; // height of a bar with its gap [px]
const MARGIN = {top: 8, bottom: 42, left: 190, right: 20}; // [px]

const LIFE = "Life, years (log scale)";

interface Bar {
  readonly row: number; // from the top, in bars
  readonly name: string;
  readonly end: number; // [years]
  readonly open: boolean; // the life is longer than the bar
  readonly governs: boolean;
  readonly text: string;
}

interface Group {
  readonly row: number;
  readonly name: string;
}

function layout(result: LifeResult): {bars: Bar[]; groups: Group[]; rows: number} {
  const bars: Bar[] = [];
  const groups: Group[] = [];
  let row = 0;
  for (const t of result.treatments) {
    groups.push({row, name: t.treatment.name});
    row++;
    for (const r of mechanismRows(t, control(result))) {
      const text = lifeText(r.life);
      const open = beyondCap(r.life) || r.life.censored;
      bars.push({
        row,
        name: rowName(r),
        end: Math.min(r.life.years, LIFE_CAP),
        open,
        governs: r.governs,
        text: `${text.long}${r.governs ? "  ◂ governs" : ""}`,
      });
      row++;
    }
    row += 0.4;
  }
  return {bars, groups, rows: row};
}

/** Bars end at the cap of 100 years: those beyond are drawn hollow and say so. */
export function livesChart(result: LifeResult, canvas: Canvas): Html {
  const {bars, groups, rows} = layout(result);
  const shortest = Math.min(LIFE_CAP / 10, ...bars.map(b => b.end));
  const low = 10 ** Math.floor(Math.log10(Math.max(shortest, 1e-3) / 1.5));
  const high = LIFE_CAP;
  const ticks = logTicks(low, high);
  const inside = (b: Bar) => Math.log(b.end / low) / Math.log(high / low) > 0.55;
  const label = (bar: Bar) => ({
    x: bar.end,
    y: bar.row + 0.5,
    text: [bar.text],
    textAnchor: inside(bar) ? ("end" as const) : ("start" as const),
    dx: inside(bar) ? -8 : 6,
    fill: inside(bar) && !bar.open ? PAPER : INK,
    fontWeight: bar.governs ? 700 : 400,
    ...(inside(bar) ? {} : HALO),
  });
  return chart(canvas, "Life by mechanism in years, on a logarithmic scale", {
    height: Math.round(rows * ROW) + MARGIN.top + MARGIN.bottom,
    margin: MARGIN,
    x: {type: "log", domain: [low, high], axis: null, label: LIFE},
    y: {domain: [rows, 0], axis: null},
    told: {y: null},
    marks: [
      Plot.ruleX(ticks, RULE),
      logAxisX(ticks, LIFE),
      Plot.rect(bars, {
        x1: low,
        x2: "end",
        y1: b => b.row + 0.12,
        y2: b => b.row + 0.88,
        fill: b => (b.open ? "#edf0f3" : b.governs ? ACCENT : "#7d8b99"),
        stroke: b => (b.governs ? ACCENT : "#7d8b99"),
        strokeWidth: 1.2,
      }),
      Plot.rect(
        bars.filter(b => b.open),
        {x1: b => b.end / 1.02, x2: b => b.end * 1.01, y1: b => b.row + 0.05, y2: b => b.row + 0.95, fill: PAPER},
      ),
      ...bars.map(b => Plot.text([b], label(b) as never)),
      Plot.text(bars, {
        x: low,
        y: b => b.row + 0.5,
        text: "name",
        textAnchor: "end",
        textOverflow: "ellipsis",
        lineWidth: 17,
        dx: -8,
        fill: INK,
      }),
      Plot.text(groups, {
        x: low,
        y: g => g.row + 0.55,
        text: "name",
        textAnchor: "start",
        dx: -MARGIN.left + 6,
        fontWeight: 700,
      }),
      Plot.ruleX([low], {stroke: MUTED}),
    ],
  });
}
