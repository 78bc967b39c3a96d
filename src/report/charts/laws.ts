/** Growth laws and their likelihood. */

import * as Plot from "@observablehq/plot";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {ACCENT, INK, MUTED, SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {type Canvas, chart, logPlane} from "./frame.ts";

/** A law as rates over strains, with its band; where strains were met in the beams and where not. */
export interface LawCurve {
  readonly strain: Float64Array; // [–]
  readonly rate: Float64Array; // [m/cycle]
  readonly low: Float64Array; // [m/cycle]
  readonly high: Float64Array; // [m/cycle]
  readonly met: readonly [number, number]; // strains of the beams [–]
}

/** Whether cracks in the beams went through a strain; their own ends count, whatever the last bits. */
export function isMet({met}: Pick<LawCurve, "met">, strain: number): boolean {
  return strain >= met[0] * 0.999 && strain <= met[1] * 1.001;
}

export function lawChart(laws: readonly LawCurve[], canvas: Canvas): Html {
  const growth = measure("growth", canvas.units);
  const points = laws.flatMap((law, k) =>
    [...law.strain.keys()].map(i => ({
      law: k,
      strain: law.strain[i] * 1e6,
      rate: growth.of(law.rate[i]),
      low: growth.of(law.low[i]),
      high: growth.of(law.high[i]),
      met: isMet(law, law.strain[i]),
    })),
  );
  const strains = [Math.min(...points.map(p => p.strain)), Math.max(...points.map(p => p.strain))] as const;
  const rates = [Math.min(...points.map(p => p.low)), Math.max(...points.map(p => p.high))] as const;
  const plane = logPlane(strains, rates, {
    x: "Tip strain, µε (log scale)",
    y: `Growth, ${growth.unit}/cycle (log scale)`,
  });
  return chart(canvas, "Crack growth per cycle against tip strain, logarithmic scales", {
    height: 300,
    margin: {top: 20, bottom: 42, left: 62, right: 20},
    x: plane.x,
    y: plane.y,
    marks: [
      ...plane.marks,
      ...laws.flatMap((_, k) => {
        const own = points.filter(p => p.law === k);
        const {colour, dash} = SERIES[k % SERIES.length];
        return [
          Plot.areaY(
            own.filter(p => p.met),
            {x: "strain", y1: "low", y2: "high", fill: colour, fillOpacity: 0.16},
          ),
          Plot.lineY(own, {x: "strain", y: "rate", stroke: colour, strokeOpacity: 0.4, strokeWidth: 1}),
          Plot.lineY(
            own.filter(p => p.met),
            {x: "strain", y: "rate", stroke: colour, strokeWidth: 2, strokeDasharray: dash},
          ),
        ];
      }),
    ],
  });
}

/** Likelihood against one parameter; where the curve is under the cut a value is not in the interval. */
export interface ProfileCurve {
  readonly label: string; // of the axis
  readonly values: Float64Array;
  readonly fall: Float64Array; // of ln likelihood, ≤ 0
  readonly cut: number;
  readonly estimate: number;
}

export function profileChart({label, values, fall, cut, estimate}: ProfileCurve, canvas: Canvas): Html {
  const points = [...values.keys()].map(k => ({value: values[k], fall: fall[k]}));
  return chart(canvas, `Profile of the likelihood: ${label}`, {
    height: 150,
    margin: {top: 16, bottom: 38, left: 38, right: 20},
    x: {label, labelAnchor: "center", labelArrow: "none", ticks: 5, tickFormat: (v: number) => figures(v)},
    y: {
      domain: [Math.min(1.5 * cut, ...fall), 0.2],
      ticks: 3,
      label: "ln likelihood",
      labelAnchor: "top",
      labelArrow: "none",
    },
    marks: [
      Plot.ruleY([cut], {stroke: MUTED, strokeDasharray: "4 3"}),
      Plot.ruleX([estimate], {stroke: INK, strokeDasharray: "1 3"}),
      Plot.lineY(points, {x: "value", y: "fall", curve: "catmull-rom", stroke: ACCENT, strokeWidth: 1.8}),
      Plot.dot(points, {x: "value", y: "fall", r: 2, fill: ACCENT}),
    ],
  });
}
