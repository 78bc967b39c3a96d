/** Life against thickness, a line for each treatment, and the target. */

import * as Plot from "@observablehq/plot";
import {figures, LIFE_CAP, years} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {type Canvas, chart, HALO, logAxisY, RULE} from "./frame.ts";
import {lifeScaleOf} from "./lifeScale.ts";

export interface SearchPicture {
  readonly dots: readonly {readonly treatment: number; readonly thickness: number; readonly life: number}[]; // [mm], [years]
  readonly target: number; // [years]
  readonly label: string; // of the thickness
  readonly life: string; // what it is: governing, or at a reliability
}

const MARGIN = {top: 22, bottom: 44, left: 58, right: 20}; // [px]

export function searchChart({dots, target, label, life}: SearchPicture, canvas: Canvas): Html {
  const lifeLabel = `${life}, years (log scale)`;
  const length = measure("length", canvas.units);
  const shown = dots.map(d => ({
    ...d,
    thickness: length.fromMetric(d.thickness),
    life: Math.min(d.life, LIFE_CAP),
  }));
  const lives = [target, ...shown.map(d => d.life)];
  const {domain, ticks} = lifeScaleOf(lives);
  const treatments = [...new Set(shown.map(d => d.treatment))];
  const lines = treatments.flatMap(t => {
    const {colour, dash, symbol} = SERIES[t % SERIES.length]!;
    const own = shown.filter(d => d.treatment === t);
    const at = {x: "thickness", y: "life"} as const;
    return [
      Plot.lineY(own, {...at, stroke: colour, strokeDasharray: dash, strokeWidth: 1.6}),
      Plot.dot(own, {...at, r: 3.4, symbol, fill: colour}),
    ];
  });
  const [thinnest, thickest] = [Math.min(...shown.map(d => d.thickness)), Math.max(...shown.map(d => d.thickness))];
  const isRight = !shown.some(d => isUnderLabel(d, {thickest, thinnest, target}));
  return chart(canvas, "Life against thickness, logarithmic scale", {
    height: 320,
    margin: MARGIN,
    x: {
      ticks: 8,
      tickFormat: (v: number) => figures(v),
      label: `${label.charAt(0).toUpperCase()}${label.slice(1)}, ${length.unit}`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {type: "log", domain, axis: null, label: lifeLabel},
    marks: [
      Plot.ruleY(ticks, RULE),
      logAxisY(ticks, lifeLabel),
      Plot.ruleY([target], {stroke: ACCENT, strokeWidth: 1.6, strokeDasharray: "6 3"}),
      ...lines,
      Plot.text([target], {
        x: isRight ? thickest : thinnest,
        y: d => d,
        text: () => `target: ${years(target)}`,
        textAnchor: isRight ? "end" : "start",
        dy: -8,
        fill: ACCENT,
        fontWeight: 700,
        ...HALO,
      }),
    ],
  });
}

/** Whether a dot lies where the target is labelled: at the right end, just above the line. */
function isUnderLabel(
  {thickness, life}: {readonly thickness: number; readonly life: number},
  {thickest, thinnest, target}: {readonly thickest: number; readonly thinnest: number; readonly target: number},
): boolean {
  return thickness > thickest - 0.25 * (thickest - thinnest) && life >= target && life < 1.3 * target;
}
