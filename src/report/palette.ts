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
