/** Pictures as files of their own: drawn as those of the report, on white. */
import {parseHTML} from "linkedom";
import {type ChartDocument, type ChartOptions, chart, FONT_FAMILY, FONT_SIZE} from "../../src/report/charts/frame.ts";
import {INK, PAPER} from "../../src/report/palette.ts";
import type {Picture} from "./group.ts";

const WIDTH = 680; // [px]

export function picture(name: string, label: string, options: ChartOptions): Picture {
  const document = parseHTML("<html></html>").document as unknown as ChartDocument;
  const style = {fontSize: `${FONT_SIZE}px`, fontFamily: FONT_FAMILY, color: INK, background: PAPER};
  const svg = String(chart({document, width: WIDTH}, label, {...options, style}));
  // As a file of its own it must say what language it is in.
  return {name, label, svg: `${svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ')}\n`};
}

/** Differ in lightness as well as in hue. */
export const COLOURS = ["#0e5a63", "#c8591b", "#17659c", "#b98a62", INK];
