/** What every figure shares: the document it is drawn in, its type size and how it becomes markup. */

import * as Plot from "@observablehq/plot";
import {figures} from "../format.ts";
import {type Html, html} from "../html.ts";
import {GRID, INK} from "../palette.ts";
import type {UnitSystem} from "../units.ts";
import {numberReading, scaleAttribute, type ToldScales, takenScale} from "./scales.ts";

/** As much of a DOM document as the plotting library uses: a browser's, or one made without a browser. */
export interface ChartDocument {
  createElementNS(namespace: string, name: string): unknown;
  createElement(name: string): unknown;
  createTextNode(text: string): unknown;
}

export interface Canvas {
  readonly document: ChartDocument;
  readonly width: number; // [px]; 680 fills an A4 page between its margins, 330 half of it
  readonly units?: UnitSystem | undefined; // in which numbers are shown; metric when left out
}

/** Room around what is plotted, for axes and labels [px]. */
export interface Margin {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Without `margin` the plotting library takes its own. */
export interface ChartOptions extends Omit<Plot.PlotOptions, "margin"> {
  readonly margin?: Margin;
  /** Where what is drawn along an axis is not what it shows, as where decades are drawn as their logarithms. */
  readonly told?: ToldScales;
  /** Colours that stand for values have no dark counterparts: the picture stays light in a dark page. */
  readonly alwaysLight?: boolean;
}

export const FONT_SIZE = 11; // [px]; 8 pt in print
export const FONT_FAMILY = '"Segoe UI", "Helvetica Neue", Arial, "Liberation Sans", sans-serif';

interface Drawn extends Pick<Plot.Plot, "scale"> {
  readonly outerHTML: string;
  setAttribute(name: string, value: string): void;
  querySelectorAll(selector: string): Iterable<{
    getAttribute(name: string): string | null;
    setAttribute(name: string, value: string): void;
    removeAttribute(name: string): void;
  }>;
}

/**
 * Renders marks to an <svg> element as text. `label` is read out in place of the picture. The element carries its scales as
 * `data-x` and `data-y`, to be read by `chartScales`.
 */
export function chart(canvas: Canvas, label: string, {margin, told, alwaysLight, ...options}: ChartOptions): Html {
  const svg = Plot.plot({
    className: "chart",
    style: {fontSize: `${FONT_SIZE}px`, fontFamily: FONT_FAMILY, color: INK, background: "none", overflow: "visible"},
    ...options,
    ...(margin && {
      marginTop: margin.top,
      marginBottom: margin.bottom,
      marginLeft: margin.left,
      marginRight: margin.right,
    }),
    width: canvas.width,
    ariaLabel: label.replace(/[<>"&]/g, " "), // not every document escapes attributes alike
    document: canvas.document as never,
  }) as unknown as Drawn;
  svg.setAttribute("role", "img");
  // The library labels every group "line", "dot" and so on: names of marks, which nobody wants read out.
  for (const mark of svg.querySelectorAll("[aria-label]")) {
    mark.setAttribute("data-mark", mark.getAttribute("aria-label")!);
    mark.removeAttribute("aria-label");
  }
  if (alwaysLight) svg.setAttribute("data-colours", "light");
  const faceted = svg.scale("fx") !== undefined || svg.scale("fy") !== undefined;
  for (const name of ["x", "y"] as const) {
    const scale = told?.[name] === undefined ? takenScale(svg.scale(name), options[name]?.label ?? "") : told[name];
    if (scale && !faceted) svg.setAttribute(`data-${name}`, scaleAttribute(scale));
  }
  return html.unsafe(svg.outerHTML);
}

/** Estimated width of text at the chart's type size [px]; for margins and anchors, not for typography. */
export function textWidth(text: string): number {
  return text.length * FONT_SIZE * 0.54;
}

/** Text cut to so many characters, the last of them an ellipsis. */
export function shorten(text: string, length: number): string {
  return text.length <= length ? text : `${text.slice(0, length - 1).trimEnd()}…`;
}

/** A text mark that stays readable over lines and bands. */
export const HALO = {stroke: "white", strokeWidth: 3.5, strokeLinejoin: "round"} as const;

/** A fine rule for grid lines. */
export const RULE = {stroke: GRID, strokeWidth: 1} as const;

/** A straight or logarithmic scale, known before the plot is drawn so that labels can be placed in pixels. */
export interface Axis {
  readonly log: boolean;
  readonly domain: readonly [number, number];
  readonly range: readonly [number, number]; // [px]
}

export function toPixel(axis: Axis, value: number): number {
  return readingOf(axis).toPixel(value);
}

export function fromPixel(axis: Axis, pixel: number): number {
  return readingOf(axis).toValue(pixel);
}

function readingOf({log, domain, range}: Axis) {
  return numberReading({type: log ? "log" : "linear", domain, range, label: ""});
}

/**
 * Moves labels apart: positions no closer than `gap`, inside [low, high] where there is room, order kept, as near to where they
 * were as one pass down and one pass up bring them.
 */
export function spread(positions: readonly number[], gap: number, low: number, high: number): number[] {
  const order = positions.map((_, i) => i).sort((i, j) => positions[i]! - positions[j]!);
  const placed = [...positions];
  let limit = low;
  for (const i of order) {
    placed[i] = Math.max(placed[i]!, limit);
    limit = placed[i]! + gap;
  }
  limit = high;
  for (const i of order.toReversed()) {
    placed[i] = Math.min(placed[i]!, limit);
    limit = placed[i]! - gap;
  }
  return placed;
}

/** Smallest of 1, 2, 5 times a power of ten that is not below the value. */
export function niceCeiling(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [1, 1.5, 2, 3, 4, 5, 6, 8, 10].find(s => s * power >= value * (1 - 1e-9));
  return (step ?? 10) * power;
}

const MOST_TICKS = 10; // of a logarithmic axis

/** Ticks 1, 2, 5 of each decade inside [low, high]; powers of ten only where those would be too many. */
export function logTicks(low: number, high: number): number[] {
  const steps = 3 * Math.log10(high / low) > MOST_TICKS ? [1] : [1, 2, 5];
  const ticks: number[] = [];
  for (let k = Math.floor(Math.log10(low)); k <= Math.ceil(Math.log10(high)); k++)
    for (const step of steps) {
      const tick = Number((step * 10 ** k).toPrecision(1));
      if (tick >= low * (1 - 1e-9) && tick <= high * (1 + 1e-9)) ticks.push(tick);
    }
  return ticks;
}

/** 1×10⁻⁵ where figures would be 1.00×10⁻⁵: an axis has round numbers. */
const tickText = (tick: number): string => figures(tick).replace(/^(\d)\.0+×/, "$1×");

/** A logarithmic axis with every tick labelled; the library's own leaves labels out. */
export function logAxisX(ticks: readonly number[], label: string): Plot.Markish {
  const text = ticks.map(tickText);
  return Plot.axisX(ticks, {text, label, labelAnchor: "center", labelArrow: "none"});
}

export function logAxisY(ticks: readonly number[], label: string): Plot.Markish {
  const text = ticks.map(tickText);
  return Plot.axisY(ticks, {text, label, labelAnchor: "top", labelArrow: "none"});
}

/** Both scales logarithmic, with their rules and axes below all other marks. */
export function logPlane(
  x: readonly [number, number],
  y: readonly [number, number],
  labels: {readonly x: string; readonly y: string},
) {
  const ticks = {x: logTicks(...x), y: logTicks(...y)};
  const scale = (domain: readonly [number, number], label: string) => ({
    type: "log" as const,
    domain: [...domain],
    axis: null,
    label,
  });
  return {
    x: scale(x, labels.x),
    y: scale(y, labels.y),
    marks: [
      Plot.ruleX(ticks.x, RULE),
      Plot.ruleY(ticks.y, RULE),
      logAxisX(ticks.x, labels.x),
      logAxisY(ticks.y, labels.y),
    ],
  };
}
