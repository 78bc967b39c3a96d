/** Tip strain against the length of one crack, all other cracks absent: one panel a front. */

import * as Plot from "@observablehq/plot";
import type {TipStrainCurve} from "../../engine/life/types.ts";
import {figures} from "../format.ts";
import type {Html} from "../html.ts";
import {MUTED, SCENARIO} from "../palette.ts";
import {measure} from "../units.ts";
import {
  type Axis,
  type Canvas,
  chart,
  FONT_SIZE,
  fromPixel,
  HALO,
  logAxisY,
  logTicks,
  RULE,
  shorten,
  spread,
  textWidth,
  toPixel,
} from "./frame.ts";

const HEIGHT = 236; // [px]
const MARGIN = {top: 24, bottom: 40, left: 46}; // [px]
const STRAIN = "Tip strain, µε (log scale)";
const MOST_LABELS = 6;
const MOST_CHARACTERS = 25; // of a label beside its curve

export const FRONT_TEXT: Readonly<Record<TipStrainCurve["front"], string>> = {
  interlayer: "within the interlayer, from the joint up",
  underside: "within the overlay, from its underside up",
  surface: "from the surface down",
};

/** A common strain axis for all panels [µε]. */
export function strainDomain(curves: readonly TipStrainCurve[]): readonly [number, number] {
  const values = curves.flatMap(c => Array.from(c.strain, s => s * 1e6)).filter(v => v > 0 && Number.isFinite(v));
  if (values.length === 0) return [1, 1000];
  const high = Math.max(...values);
  const low = Math.max(Math.min(...values), high / 1e4);
  const floor = (v: number) => logTicks(v / 10, v).at(-1)!;
  const ceiling = (v: number) => logTicks(v, 10 * v)[0]!;
  return [floor(low * 0.999), Math.max(ceiling(high * 1.001), floor(low) * 10)];
}

/** Curves that get a label when there are too many: the highest and lowest of each cause at the end of the crack. */
function labelled(curves: readonly TipStrainCurve[]): TipStrainCurve[] {
  if (curves.length <= MOST_LABELS) return [...curves];
  return (["traffic", "thermal"] as const).flatMap(cause => {
    const own = curves.filter(c => c.cause === cause).toSorted((a, b) => peak(b) - peak(a));
    return own.length <= 2 ? own : [own[0]!, own[Math.floor(own.length / 2)]!, own.at(-1)!];
  });
}

function peak(curve: TipStrainCurve): number {
  return curve.strain.reduce((a, b) => Math.max(a, b), 0);
}

/** @param curves of one treatment and one front */
export function tipStrainChart(
  curves: readonly TipStrainCurve[],
  domain: readonly [number, number],
  canvas: Canvas,
): Html {
  const named = labelled(curves);
  const right = Math.min(
    0.45 * canvas.width,
    Math.max(...named.map(c => textWidth(shorten(c.label, MOST_CHARACTERS)))) + 12,
  );
  const size = measure("length", canvas.units);
  const longest = size.of(Math.max(...curves.flatMap(c => Array.from(c.length))));
  const strain: Axis = {log: true, domain, range: [HEIGHT - MARGIN.bottom, MARGIN.top]};
  const inside = (v: number) => v * 1e6 >= domain[0] * (1 - 1e-9);
  const points = (c: TipStrainCurve) =>
    Array.from(c.length, (length, i) => ({length: size.of(length), strain: c.strain[i]!})).flatMap(p =>
      inside(p.strain) ? [{length: p.length, strain: p.strain * 1e6}] : [],
    );
  const ends = named.flatMap(c => {
    const last = points(c).at(-1);
    return last ? [{...last, label: c.label, cause: c.cause}] : [];
  });
  const placed = spread(
    ends.map(e => toPixel(strain, e.strain)),
    FONT_SIZE + 3,
    MARGIN.top + 4,
    HEIGHT - MARGIN.bottom - 4,
  );
  const ticks = logTicks(...domain);
  return chart(canvas, `Tip strain against crack length, ${FRONT_TEXT[curves[0]!.front]}`, {
    height: HEIGHT,
    margin: {...MARGIN, right},
    x: {
      domain: [0, longest],
      ticks: 4,
      tickFormat: (v: number) => figures(v),
      label: `Crack length, ${size.unit}`,
      labelAnchor: "center",
      labelArrow: "none",
    },
    y: {type: "log", domain: [...domain], axis: null, label: STRAIN},
    marks: [
      Plot.ruleY(ticks, RULE),
      logAxisY(ticks, STRAIN),
      Plot.ruleX([0], {stroke: MUTED}),
      ...curves.map(c =>
        Plot.lineY(points(c), {
          x: "length",
          y: "strain",
          stroke: SCENARIO[c.cause].colour,
          strokeDasharray: c.cause === "thermal" ? SCENARIO.thermal.dash : "none",
          strokeWidth: 1.7,
          strokeOpacity: named.includes(c) ? 1 : 0.45,
        }),
      ),
      ...ends.map((e, i) =>
        Plot.text([e], {
          x: longest,
          y: fromPixel(strain, placed[i]!),
          text: e => shorten(e.label, MOST_CHARACTERS),
          textAnchor: "start",
          dx: 5,
          fill: SCENARIO[e.cause].colour,
          ...HALO,
        }),
      ),
    ],
  });
}
