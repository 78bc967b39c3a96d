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
  return temperatureColours(TEMPERATURE_STOPS, count).map((colour, k) => ({
    colour,
    symbol: TEMPERATURE_SYMBOLS[k % TEMPERATURE_SYMBOLS.length]!,
  }));
}

function temperatureColours(stops: readonly string[], count: number): string[] {
  const last = stops.length - 1;
  return Array.from({length: count}, (_, k) => {
    const place = count > 1 ? (k / (count - 1)) * last : last / 2;
    const below = Math.min(last - 1, Math.floor(place));
    return blended(stops[below]!, stops[below + 1]!, place - below);
  });
}

/** Between two colours, component by component. */
function blended(from: string, to: string, share: number): string {
  const part = (colour: string, at: number): number => Number.parseInt(colour.slice(at, at + 2), 16);
  const mixed = [1, 3, 5].map(at => Math.round(part(from, at) + share * (part(to, at) - part(from, at))));
  return `#${mixed.map(v => v.toString(16).padStart(2, "0")).join("")}`;
}

/** What a chart stands on in a dark page. */
export const DARK_PAPER = "#161c22";
const DARK_TEMPERATURE_STOPS = ["#7f9cf5", "#4fb3e6", "#5cc793", "#e0b04a", "#f2836b"] as const;
const MOST_TEMPERATURES = 12; // of one test programme that have dark counterparts

/**
 * For a dark page: each fixed colour of the charts with a counterpart of the same role. Text and lines stand out from the dark paper
 * as far as WCAG 2.2 asks, bands and grids as little as in the light. Colours of maps stand for values and have none: such
 * pictures stay light.
 */
export const darkColours: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Array.from({length: MOST_TEMPERATURES}, (_, n) => {
      const dark = temperatureColours(DARK_TEMPERATURE_STOPS, n + 1);
      return temperatureColours(TEMPERATURE_STOPS, n + 1).map((light, k) => [light, dark[k]!] as const);
    }).flat(),
  ),
  [INK]: "#e6ebf0",
  [MUTED]: "#a3afbb",
  [GRID]: "#35404b",
  [PAPER]: DARK_PAPER,
  white: DARK_PAPER, // halos of text
  [ACCENT]: "#4fb8c4",
  [LAYER_FILL.overlay]: "#46525e",
  [LAYER_FILL.interlayer]: "#1d6b70",
  [LAYER_FILL.jointed]: "#4a4434",
  [LAYER_FILL.foundation]: "#2c2b26",
  [LAYER_FILL_ALTERNATE.overlay]: "#3b4651",
  [LAYER_FILL_ALTERNATE.jointed]: "#544c38",
  [LAYER_FILL_ALTERNATE.foundation]: "#35332c",
  [SCENARIO.traffic.colour]: "#63b0ea",
  [SCENARIO.thermal.colour]: "#f08a4b",
  [SERIES[3]!.colour]: "#b79cea",
  // air and surface through the year, and surface as text
  "#2a6f9e": "#5aa9dc",
  "#e9b384": "#9c6b3f",
  "#a4591b": "#f0a46a",
  // depths, from the surface down; the first of air and the last are above
  "#d4661f": "#f08c4a",
  "#b8742f": "#dd9a58",
  "#9a7f3f": "#c4a55c",
  "#6f8a5a": "#94b37c",
  "#3f8a86": "#5db5b0",
  "#3b5590": "#7e9ce0",
  "#333a66": "#8f97d6",
  // bars: temperature bins, cycles, lives that do not govern, lives beyond what is told
  "#b98a62": "#a67a52",
  "#8793a0": "#7f8c99",
  "#7d8b99": "#93a1af",
  "#edf0f3": "#242d36",
};

/**
 * Style rules that give charts their dark colours: rules go before the attributes of a picture, so the picture itself stays as it is
 * and is exported light. Legends with their colour in a `style` are met too. Maps get light paper.
 *
 * @param selector of elements that hold charts
 */
export function darkChartCss(selector: string): string {
  const within = `:is(${selector})`;
  const picture = `${within} svg.chart:not([data-colours="light"])`;
  const rules = Object.entries(darkColours).map(([light, dark]) =>
    [
      ...["fill", "stroke", "stop-color"].map(name => `${picture} [${name}="${light}"]{${name}:${dark}}`),
      `${within} [style="color:${light}"]{color:${dark}!important}`,
    ].join("\n"),
  );
  return [
    `${picture}{color:${darkColours[INK]}!important}`, // its own style tells the ink
    `${within} svg[data-colours="light"]{background:${PAPER}!important}`,
    ...rules,
  ].join("\n");
}
