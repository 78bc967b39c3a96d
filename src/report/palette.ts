/**
 * Colours of the report. Chosen to differ in lightness as well as in hue, so that they survive greyscale print and the
 * common kinds of colour blindness; scenarios differ in dash as well.
 */

import type {Scenario} from "../engine/life/types.ts";
import type {LayerRole} from "../engine/section/types.ts";

export const INK = "#1c2530";
export const MUTED = "#56616d";
export const GRID = "#d3d9df";
export const PAPER = "#ffffff";
export const ACCENT = "#0e5a63";

export const LAYER_FILL: Readonly<Record<LayerRole, string>> = {
  overlay: "#c3cad1",
  interlayer: "#2f9aa0",
  jointed: "#ece2cb",
  foundation: "#f6f2e8",
};

/** Second tone, so that neighbouring layers of one role stay apart. */
export const LAYER_FILL_ALTERNATE: Readonly<Record<LayerRole, string>> = {
  overlay: "#d4dae0",
  interlayer: "#2f9aa0",
  jointed: "#e2d5b8",
  foundation: "#eee8d9",
};

export interface Stroke {
  readonly colour: string;
  readonly dash: string; // SVG stroke-dasharray; "none" is solid
  readonly width: number; // [px]
  readonly name: string;
}

export const SCENARIO: Readonly<Record<Scenario, Stroke>> = {
  together: {colour: INK, dash: "none", width: 2.4, name: "together"},
  traffic: {colour: "#17659c", dash: "7 3", width: 1.6, name: "traffic alone"},
  thermal: {colour: "#c8591b", dash: "2 2.5", width: 1.8, name: "temperature alone"},
};

/** Cracks in a laboratory beam. */
export const FRONT: Readonly<Record<"lower" | "upper", Stroke>> = {
  lower: {colour: "#17659c", dash: "none", width: 1.8, name: "from below"},
  upper: {colour: "#c8591b", dash: "5 2.5", width: 1.8, name: "from above"},
};

/** Materials beside each other, by lightness as well as hue; each has its mark too. */
export const SERIES: readonly {
  readonly colour: string;
  readonly dash: string;
  readonly symbol: "circle" | "square" | "triangle" | "diamond2";
}[] = [
  {colour: "#1c2530", dash: "none", symbol: "circle"},
  {colour: "#17659c", dash: "7 3", symbol: "square"},
  {colour: "#c8591b", dash: "2 2.5", symbol: "triangle"},
  {colour: "#6b4f9e", dash: "9 3 2 3", symbol: "diamond2"},
];

/** Cold to hot. */
const TEMPERATURE_STOPS = ["#1d2f6f", "#1f78a8", "#3d9a6b", "#c98a1b", "#a8321e"] as const;
const TEMPERATURE_SYMBOLS = ["circle", "square", "triangle", "diamond", "star", "wye"] as const;

export interface TemperatureMark {
  readonly colour: string;
  readonly symbol: (typeof TEMPERATURE_SYMBOLS)[number];
}

/** A colour and a mark for each of so many temperatures, from cold to hot; marks come round again. */
export function temperatureMarks(count: number): TemperatureMark[] {
  const last = TEMPERATURE_STOPS.length - 1;
  return Array.from({length: count}, (_, k) => {
    const place = count > 1 ? (k / (count - 1)) * last : last / 2;
    const below = Math.min(last - 1, Math.floor(place));
    const colour = blended(TEMPERATURE_STOPS[below]!, TEMPERATURE_STOPS[below + 1]!, place - below);
    return {colour, symbol: TEMPERATURE_SYMBOLS[k % TEMPERATURE_SYMBOLS.length]!};
  });
}

/** Between two colours, component by component. */
function blended(from: string, to: string, share: number): string {
  const part = (colour: string, at: number): number => Number.parseInt(colour.slice(at, at + 2), 16);
  const mixed = [1, 3, 5].map(at => Math.round(part(from, at) + share * (part(to, at) - part(from, at))));
  return `#${mixed.map(v => v.toString(16).padStart(2, "0")).join("")}`;
}
