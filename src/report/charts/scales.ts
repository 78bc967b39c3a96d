/** Scales that a drawn chart carries with it, so that a page can turn a pointer's position into values and back. */

import type * as Plot from "@observablehq/plot";

/** An axis of numbers as it is written into a picture. `label` says what it shows and in which unit. */
export interface NumberScale {
  readonly type: "linear" | "log" | "utc"; // utc: milliseconds since 1970
  readonly domain: readonly [number, number]; // descending when the axis is reversed
  readonly range: readonly [number, number]; // across or down in the picture's own coordinates, those of its view box [px]
  readonly label: string;
}

/** An axis of rows or columns, each with its name. */
export interface BandScale {
  readonly type: "band";
  readonly domain: readonly string[];
  readonly range: readonly [number, number]; // [px]
  readonly label: string;
}

export type TakenScale = NumberScale | BandScale;

/** What a chart says of its scales in place of what was drawn; null: no numbers stand along this axis. */
export interface ToldScales {
  readonly x?: TakenScale | null;
  readonly y?: TakenScale | null;
}

export interface NumberReading extends NumberScale {
  /** The value at a position [px]; beyond the ends the axis goes on. */
  readonly toValue: (pixel: number) => number;
  readonly toPixel: (value: number) => number;
}

export interface BandReading extends BandScale {
  /** The name at a position [px]; null beside all bands. */
  readonly toValue: (pixel: number) => string | null;
  /** Middle of a band [px]; null for a name that is not among them. */
  readonly toPixel: (value: string) => number | null;
}

export type ScaleReading = NumberReading | BandReading;

export interface ChartScales {
  readonly x: ScaleReading | null;
  readonly y: ScaleReading | null;
}

/** An element as far as its attributes are read. */
export interface WithAttributes {
  getAttribute(name: string): string | null;
}

const TYPES: Readonly<Record<string, NumberScale["type"]>> = {linear: "linear", log: "log", utc: "utc", time: "utc"};
const LOG_SUFFIX = " (log scale)"; // of a label; the type says it already

/** A scale of the plotting library, which keeps no label, in our words; null for one that cannot be read back from a position. */
export function takenScale(scale: Plot.Scale | undefined, label: string): TakenScale | null {
  if (!scale?.range || !scale.domain) return null;
  const domain = [...scale.domain];
  const range = ends(scale.range as Iterable<number>);
  if (scale.type === "band" || scale.type === "point") {
    const [first, last] = ends(domain.map(d => scale.apply(d) + (scale.bandwidth ?? 0) / 2));
    const half = (Math.sign(last - first || 1) * (scale.step ?? 0)) / 2; // gaps are shared by their neighbours
    return {type: "band", domain: domain.map(String), range: [first - half, last + half], label};
  }
  const type = TYPES[scale.type ?? ""];
  return type === undefined || domain.length !== 2 ? null : {type, domain: ends(domain.map(Number)), range, label};
}

function ends(values: Iterable<number>): [number, number] {
  const all = [...values];
  return [all[0]!, all.at(-1)!];
}

/** As text of an attribute: without characters that documents escape each in their own way, quotes apart. */
export function scaleAttribute(scale: TakenScale): string {
  const {label, ...rest} = scale;
  return JSON.stringify({...rest, label: label.replace(LOG_SUFFIX, "")}).replace(
    /[<>&']/g,
    c => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

/**
 * The scales of a chart, from its markup or from its <svg> element. Null when it carries none, as a chart in facets does:
 * there a position has several meanings.
 */
export function chartScales(source: string | WithAttributes): ChartScales | null {
  const read = (name: "data-x" | "data-y"): ScaleReading | null => {
    const text = typeof source === "string" ? rootAttribute(source, name) : source.getAttribute(name);
    return text === null ? null : reading(JSON.parse(text) as TakenScale);
  };
  const [x, y] = [read("data-x"), read("data-y")];
  return x || y ? {x, y} : null;
}

function rootAttribute(markup: string, name: string): string | null {
  const root = /<svg\b(?:[^>"]|"[^"]*")*>/.exec(markup)?.[0] ?? "";
  const found = new RegExp(`\\s${name}="([^"]*)"`).exec(root)?.[1];
  return found?.replaceAll("&quot;", '"').replaceAll("&amp;", "&") ?? null;
}

function reading(scale: TakenScale): ScaleReading {
  return scale.type === "band" ? bandReading(scale) : numberReading(scale);
}

/** Along a logarithmic axis equal steps are equal ratios. */
export function numberReading(scale: NumberScale): NumberReading {
  const {
    domain: [a, b],
    range: [start, end],
  } = scale;
  const log = scale.type === "log";
  return {
    ...scale,
    toValue: pixel => {
      const share = (pixel - start) / (end - start);
      return log ? a * (b / a) ** share : a + share * (b - a);
    },
    toPixel: value => {
      const share = log ? Math.log(value / a) / Math.log(b / a) : (value - a) / (b - a);
      return start + share * (end - start);
    },
  };
}

function bandReading(scale: BandScale): BandReading {
  const {
    domain,
    range: [start, end],
  } = scale;
  const step = (end - start) / domain.length;
  return {
    ...scale,
    toValue: pixel => domain[Math.floor((pixel - start) / step)] ?? null,
    toPixel: value => {
      const at = domain.indexOf(value);
      return at < 0 ? null : start + (at + 0.5) * step;
    },
  };
}
