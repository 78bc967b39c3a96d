/** What figures of a report have around them: number, caption, panels side by side. */

import type {Canvas, ChartDocument} from "./charts/index.ts";
import {celsius} from "./format.ts";
import {type Html, html} from "./html.ts";
import {SERIES, temperatureMarks} from "./palette.ts";
import type {UnitSystem} from "./units.ts";

export const FULL = 680; // [px]
export const FITTED = 560; // [px]; scaled to the column, so still readable on a telephone
export const HALF = 330; // [px]

/** Names of series with their marks, above a chart. */
export function legend(names: readonly string[]): Html {
  return html`<p class="legend">${names.map((name, k) => {
    const {colour, symbol} = SERIES[k % SERIES.length];
    return html`<span><b style="color:${colour}">${MARKS[symbol]}</b> ${name}</span> `;
  })}</p>`;
}

/** Temperatures of tests with their marks, above a chart. */
export function temperatureLegend(temperatures: readonly number[]): Html {
  const marks = temperatureMarks(temperatures.length);
  return html`<p class="legend">${temperatures.map((t, k) => {
    const {colour, symbol} = marks[k]!;
    return html`<span><b style="color:${colour}">${MARKS[symbol]}</b> ${celsius(t)}</span> `;
  })}</p>`;
}

const MARKS = {
  circle: "●",
  square: "■",
  triangle: "▲",
  diamond: "◆",
  diamond2: "◆",
  star: "★",
  wye: "Y",
} as const;

export interface FigureFrame {
  readonly units: UnitSystem; // of its canvases, and of tables beside them
  readonly canvas: (width: number) => Canvas;
  readonly figure: (body: Html, caption: string) => Html;
  readonly wide: (body: Html) => Html;
  readonly panel: (title: string, body: Html) => Html;
  readonly panels: (bodies: readonly Html[]) => Html;
}

/** Numbers figures in the order in which they are asked for. */
export function figureFrame(document: ChartDocument, units: UnitSystem = "metric"): FigureFrame {
  let number = 0;
  return {
    units,
    canvas: width => ({document, width, units}),
    figure: (body, caption) =>
      html`<figure>${body}<figcaption><b>Figure ${++number}.</b> ${caption}</figcaption></figure>`,
    wide: body => html`<div class="scroll wide">${body}</div>`,
    panel: (title, body) => html`<div class="panel"><h4>${title}</h4>${body}</div>`,
    panels: bodies => html`<div class="panels">${bodies}</div>`,
  };
}
