/** Error in life against milliseconds, a panel a study, both axes logarithmic. */
import * as Plot from "@observablehq/plot";
import {parseHTML} from "linkedom";
import {chart, HALO, logAxisX, logAxisY, logTicks, RULE} from "../../src/report/charts/frame.ts";
import {INK, PAPER} from "../../src/report/palette.ts";
import type {Comparison} from "./compare.ts";
import {FAMILIES, PAIR} from "./families.ts";

/** Colours of Okabe & Ito, which the common kinds of colour blindness keep apart; marks differ as well. */
const STYLES = [
  {stroke: "#0072b2", symbol: "circle"},
  {stroke: "#56b4e9", symbol: "diamond"},
  {stroke: "#000000", symbol: "square"},
  {stroke: "#d55e00", symbol: "triangle"},
  {stroke: "#e69f00", symbol: "times"},
] as const;

const SIZE = {width: 860, height: 440};
const LEGEND = {right: 214, top: 14, step: 17}; // [px]

interface Dot {
  readonly study: string;
  readonly family: number;
  readonly ms: number;
  readonly error: number; // [%]
  readonly name: string;
}

/** @returns an SVG file */
export function precisionChart(comparisons: readonly Comparison[]): string {
  const dots: Dot[] = comparisons.flatMap(({study, families}) =>
    families.map(({family, name, ms, life}) => {
      return {study, family: FAMILIES.findIndex(f => f.name === family), ms, error: 100 * life, name};
    }),
  );
  const ends = (values: readonly number[]): [number, number] => [Math.min(...values) / 1.2, Math.max(...values) * 1.25];
  const [x, y] = [ends(dots.map(d => d.ms)), ends(dots.map(d => d.error))];
  const {document} = parseHTML("<html><body></body></html>");
  const label = "Error in life in per cent against milliseconds of computing, by family of discretisations";
  const legend = FAMILIES.map(({name}, k) => ({study: comparisons[0].study, name, k}));
  const svg = chart({document, width: SIZE.width}, label, {
    height: SIZE.height,
    style: {background: PAPER, fontSize: "11px"},
    marginLeft: 50,
    marginBottom: 42,
    marginTop: 30,
    fx: {domain: comparisons.map(c => c.study), label: null, padding: 0.04},
    x: {type: "log", domain: x},
    y: {type: "log", domain: y},
    symbol: {type: "identity"},
    marks: [
      Plot.ruleX(logTicks(...x), RULE),
      Plot.ruleY(logTicks(...y), RULE),
      logAxisX(logTicks(...x), "ms of one thread, waves and passes of one temperature"),
      logAxisY(logTicks(...y), "Error in life, % (root mean square)"),
      ...STYLES.flatMap(({stroke, symbol}, k) => {
        const own = dots.filter(d => d.family === k).toSorted((p, q) => p.ms - q.ms);
        return [
          Plot.line(own, {fx: "study", x: "ms", y: "error", stroke, strokeWidth: k ? 1 : 2.2}),
          Plot.dot(own, {fx: "study", x: "ms", y: "error", stroke, symbol, r: 4, strokeWidth: 1.6, fill: PAPER}),
        ];
      }),
      Plot.text(
        dots.filter(d => FAMILIES[d.family].name === PAIR),
        {
          fx: "study",
          x: "ms",
          y: "error",
          text: "name",
          textAnchor: "start",
          dx: 7,
          dy: -6,
          fontWeight: 700,
          fill: INK,
          ...HALO,
        },
      ),
      ...legend.flatMap(one => {
        const {stroke, symbol} = STYLES[one.k];
        const place = {fx: "study", frameAnchor: "top-right", dy: LEGEND.top + LEGEND.step * one.k} as const;
        return [
          Plot.dot([one], {...place, dx: -LEGEND.right, stroke, symbol, r: 4, strokeWidth: 1.6, fill: PAPER}),
          Plot.text([one], {
            ...place,
            dx: 10 - LEGEND.right,
            dy: place.dy - 6,
            text: "name",
            textAnchor: "start",
            fill: INK,
            ...HALO,
          }),
        ];
      }),
    ],
  });
  return `${String(svg).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ')}\n`;
}
