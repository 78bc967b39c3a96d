/** What strains one crack tip while an axle rolls over: bending opens it, shear slides its faces, against where the axle is. */
import * as Plot from "@observablehq/plot";
import type {FieldTip} from "../../engine/life/index.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {SERIES} from "../palette.ts";
import {measure} from "../units.ts";
import {type Canvas, chart, RULE} from "./frame.ts";

const HEIGHT = 190; // [px]
const MARGIN = {top: 22, bottom: 38, left: 52, right: 76}; // [px]

export interface TipAlong {
  readonly positions: Float64Array; // of the axle [m]
  readonly tip: FieldTip;
}

export function tipAlongChart({positions, tip}: TipAlong, canvas: Canvas): Html {
  const place = measure("distance", canvas.units);
  const series = [
    {name: "opening", values: tip.opening, style: SERIES[1]!},
    {name: "shear", values: tip.shear, style: SERIES[2]!},
    {name: "together", values: tip.strain, style: SERIES[0]!},
  ];
  const rows = series.map(({name, values, style}) => ({
    name,
    style,
    points: Array.from(positions, (x, k) => ({x: place.of(x), y: values[k]! * 1e6})),
  }));
  return chart(canvas, "Strain of the crack tip against the position of the axle", {
    height: HEIGHT,
    margin: MARGIN,
    x: {
      label: `Axle from the joint, ${place.unit}`,
      labelAnchor: "center",
      labelArrow: "none",
      tickFormat: v => figures(v),
    },
    y: {
      label: "Tip strain, µε",
      labelAnchor: "top",
      labelArrow: "none",
      ticks: 5,
      tickFormat: v => figures(v),
      nice: true,
    },
    marks: [
      Plot.ruleY([0], RULE),
      Plot.ruleX([0], {...RULE, strokeDasharray: "3 3"}),
      ...rows.map(({points, style}) =>
        Plot.lineY(points, {x: "x", y: "y", stroke: style.colour, strokeDasharray: style.dash, strokeWidth: 1.8}),
      ),
      ...rows.map(({name, style}, k) =>
        Plot.text([name], {
          frameAnchor: "top-right",
          text: d => d,
          textAnchor: "start",
          dx: 8,
          dy: 6 + 15 * k,
          fill: style.colour,
          fontWeight: 600,
        }),
      ),
    ],
  });
}

/** The same as numbers. */
export function tipAlongRows({positions, tip}: TipAlong): (readonly number[])[] {
  return Array.from(positions, (x, k) => [x, tip.opening[k]! * 1e6, tip.shear[k]! * 1e6, tip.strain[k]! * 1e6]);
}
