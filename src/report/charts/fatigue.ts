/** Fatigue lines, lives compared, stiffness histories. */

import * as Plot from "@observablehq/plot";
import type {LifeComparison, MaterialFatigue, Specimen} from "../../engine/laboratory/index.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {INK, MUTED, PAPER, SERIES} from "../palette.ts";
import {type Canvas, chart, HALO, logAxisX, logPlane, logTicks, RULE} from "./frame.ts";

const MARGIN = {top: 20, bottom: 42, left: 62, right: 24}; // [px]

/** All materials in one plane of strain and life: points, lines, and the two bands of each. */
export function fatigueChart(materials: readonly MaterialFatigue[], probability: number, canvas: Canvas): Html {
  const points = materials.flatMap((m, k) =>
    m.points.map(p => ({...p, strain: p.strain * 1e6, series: k, aside: p.setAside !== null})),
  );
  const bands = materials.flatMap((m, k) => {
    const band = m.bands.find(b => b.probability === probability);
    if (!band) return [];
    return [...band.strains.keys()].map(i => ({
      series: k,
      strain: band.strains[i] * 1e6,
      cycles: band.cycles[i],
      low: band.confidenceLow[i],
      high: band.confidenceHigh[i],
      predictedLow: band.predictionLow[i],
      predictedHigh: band.predictionHigh[i],
    }));
  });
  const strains = [...points, ...bands].map(p => p.strain);
  const lives = [...points.map(p => p.cycles), ...bands.flatMap(b => [b.predictedLow, b.predictedHigh])];
  const x: [number, number] = [Math.min(...strains) / 1.12, Math.max(...strains) * 1.12];
  const y: [number, number] = [Math.min(...lives) / 1.3, Math.max(...lives) * 1.3];
  const plane = logPlane(x, y, {x: "Strain amplitude, µε (log scale)", y: "Cycles to failure (log scale)"});
  return chart(canvas, "Cycles to failure against strain amplitude, logarithmic scales", {
    height: 400,
    margin: MARGIN,
    x: plane.x,
    y: plane.y,
    marks: [
      ...plane.marks,
      y[0] < 1e6 && y[1] > 1e6 ? Plot.ruleY([1e6], {stroke: MUTED, strokeDasharray: "1 3"}) : null,
      ...materials.flatMap((_, k) => {
        const own = bands.filter(b => b.series === k);
        const {colour, dash} = SERIES[k % SERIES.length];
        return [
          Plot.areaY(own, {x: "strain", y1: "predictedLow", y2: "predictedHigh", fill: colour, fillOpacity: 0.08}),
          Plot.areaY(own, {x: "strain", y1: "low", y2: "high", fill: colour, fillOpacity: 0.2}),
          Plot.lineY(own, {x: "strain", y: "cycles", stroke: colour, strokeWidth: 1.8, strokeDasharray: dash}),
        ];
      }),
      ...materials.flatMap((_, k) => {
        const {colour, symbol} = SERIES[k % SERIES.length];
        const own = points.filter(p => p.series === k);
        return [
          Plot.dot(own, {
            x: "strain",
            y: "cycles",
            symbol,
            r: 3.4,
            fill: p => (p.runOut || p.aside ? PAPER : colour),
            stroke: colour,
            strokeOpacity: p => (p.aside ? 0.45 : 1),
          }),
          Plot.text(
            own.filter(p => p.runOut),
            {x: "strain", y: "cycles", text: () => "↑", dy: -10, fill: colour},
          ),
          Plot.text(
            own.filter(p => p.aside),
            {x: "strain", y: "cycles", text: () => "×", fill: colour},
          ),
        ];
      }),
    ],
  });
}

/** Ratio of lives against strain with its interval: full where both were tested, thin where not. */
export function comparisonChart(
  comparisons: readonly LifeComparison[],
  names: readonly string[],
  canvas: Canvas,
): Html {
  const rows = comparisons.map(c => ({
    series: names.indexOf(c.material),
    name: c.material,
    points: [...c.strains.keys()].map(i => ({
      strain: c.strains[i] * 1e6,
      ratio: c.ratio[i],
      low: c.low[i],
      high: c.high[i],
      inside: !c.extrapolated[i],
    })),
  }));
  const all = rows.flatMap(r => r.points);
  const x: [number, number] = [Math.min(...all.map(p => p.strain)), Math.max(...all.map(p => p.strain))];
  const y: [number, number] = [
    Math.min(0.5, ...all.map(p => p.ratio)) / 1.5,
    Math.max(2, ...all.map(p => p.ratio)) * 1.5,
  ];
  const clip = (v: number): number => Math.min(Math.max(v, y[0]), y[1]);
  const label = `Life over that of ${comparisons[0].reference}`;
  const plane = logPlane(x, y, {x: "Strain amplitude, µε (log scale)", y: label});
  return chart(canvas, `${label} at equal strain, logarithmic scales`, {
    height: 270,
    margin: {...MARGIN, right: 110},
    x: plane.x,
    y: plane.y,
    marks: [
      ...plane.marks,
      Plot.ruleY([1], {stroke: INK}),
      ...rows.flatMap(({series, points, name}) => {
        const {colour, dash} = SERIES[series % SERIES.length];
        const inside = points.filter(p => p.inside);
        const end = points[points.length - 1];
        return [
          Plot.areaY(inside, {
            x: "strain",
            y1: p => clip(p.low),
            y2: p => clip(p.high),
            fill: colour,
            fillOpacity: 0.16,
          }),
          Plot.lineY(points, {
            x: "strain",
            y: p => clip(p.ratio),
            stroke: colour,
            strokeWidth: 1,
            strokeDasharray: "1 4",
          }),
          Plot.lineY(inside, {x: "strain", y: "ratio", stroke: colour, strokeWidth: 2, strokeDasharray: dash}),
          Plot.text([end], {
            x: "strain",
            y: p => clip(p.ratio),
            text: () => name,
            textAnchor: "start",
            dx: 6,
            fill: colour,
            ...HALO,
          }),
        ];
      }),
    ],
  });
}

/** Stiffness over its initial value against cycles, for the specimens with a history. */
export function historyChart(specimens: readonly Specimen[], materials: readonly string[], canvas: Canvas): Html {
  const lines = specimens.flatMap(s => {
    const history = s.history;
    if (!history) return [];
    return [
      {
        series: Math.max(0, materials.indexOf(s.material)),
        points: [...history.cycles.keys()].map(i => ({
          cycles: history.cycles[i],
          ratio: history.modulus[i] / history.initialModulus,
        })),
      },
    ];
  });
  const cycles = lines.flatMap(l => l.points.map(p => p.cycles)).filter(c => c > 0);
  const x: [number, number] = [Math.max(1, Math.min(...cycles)), Math.max(...cycles)];
  const ticks = logTicks(...x);
  return chart(canvas, "Stiffness over its value at the 100th cycle against cycles", {
    height: 220,
    margin: {...MARGIN, left: 44},
    x: {type: "log", domain: x, axis: null, label: "Cycles (log scale)"},
    y: {
      domain: [0, Math.max(1.2, ...lines.flatMap(l => l.points.map(p => p.ratio)))],
      label: "Stiffness over its initial value",
      labelAnchor: "top",
      labelArrow: "none",
      ticks: 5,
      tickFormat: (v: number) => figures(v),
    },
    marks: [
      Plot.ruleX(ticks, RULE),
      logAxisX(ticks, "Cycles (log scale)"),
      Plot.ruleY([0.5], {stroke: INK, strokeDasharray: "4 3"}),
      Plot.ruleY([0]),
      ...lines.map(({series, points}) =>
        Plot.lineY(points, {
          x: "cycles",
          y: "ratio",
          stroke: SERIES[series % SERIES.length].colour,
          strokeWidth: 0.9,
          strokeOpacity: 0.7,
        }),
      ),
    ],
  });
}
