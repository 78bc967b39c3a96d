/** The figures of the report in their order, numbered, each with a caption that says what to see. */

import type {PavementTemperatures} from "../engine/climate/types.ts";
import type {LifeResult, TipStrainCurve, TreatmentLife} from "../engine/life/types.ts";
import type {Layer} from "../engine/section/types.ts";
import {
  binsChart,
  type Canvas,
  type ChartDocument,
  classesChart,
  cycleBins,
  cycleDamageChart,
  cyclesChart,
  envelopeChart,
  extremeWeeks,
  FRONT_TEXT,
  frontsChart,
  livesChart,
  sectionChart,
  strainDomain,
  temperatureChart,
  timeAxis,
  tipStrainChart,
  weekChart,
} from "./charts/index.ts";
import {costsPart} from "./costs.ts";
import {FITTED, FULL, figureFrame, HALF} from "./figureFrame.ts";
import {celsius, figures, LIFE_CAP, millimetres} from "./format.ts";
import {type Html, html} from "./html.ts";
import {frontExponent, reflection} from "./lives.ts";
import {stiffnessPart} from "./stiffness.ts";
import {trafficPart} from "./traffic.ts";

export interface FigureBook {
  sections(): Html;
  fronts(): Html;
  lives(): Html;
  costs(): Html | null;
  temperature(): Html | null;
  cycles(): Html | null;
  tipStrain(): Html | null;
  traffic(): Html | null;
  loads(): Html;
  stiffness(): Html | null;
}

/** More load classes are told as spectra. */
const MOST_BARS = 12;

/** Numbers figures in the order in which they are asked for. */
export function figureBook(result: LifeResult, document: ChartDocument): FigureBook {
  const frame = figureFrame(document);
  const {canvas, figure, wide, panel, panels} = frame;
  const {treatments, study} = result;

  return {
    stiffness: () => stiffnessPart(result, frame),
    sections: () =>
      html`${treatments.map(t =>
        figure(
          html`<h4>${t.treatment.name}</h4>${wide(sectionChart(t.treatment.section, canvas(FULL)))}`,
          sectionCaption(t),
        ),
      )}`,
    fronts() {
      const axis = timeAxis(treatments, study.analysisPeriod);
      const bodies = treatments.map(t =>
        t.histories.length === 0
          ? panel(t.treatment.name, html`<p>No crack growth was computed.</p>`)
          : panel(t.treatment.name, frontsChart(t, axis, canvas(HALF))),
      );
      return figure(panels(bodies), frontsCaption(treatments));
    },
    lives: () => figure(html`<div class="fit">${livesChart(result, canvas(FITTED))}</div>`, livesCaption(treatments)),
    costs: () => costsPart(result, frame),
    temperature() {
      const temperatures = treatments[0]!.temperatures;
      if (!study.weather || !temperatures || temperatures.surface.length === 0) return null;
      const caption = temperatureCaption(temperatures.surface, temperatures.slabMean);
      const {layers} = treatments[0]!.treatment.section;
      const {warm, cold} = extremeWeeks(temperatures.surface);
      const week = (day: number) => wide(weekChart(temperatures.atDepth, {layers, day}, canvas(FULL)));
      return html`${figure(
        wide(temperatureChart({weather: study.weather, temperatures}, canvas(FULL))),
        `${caption} Source: ${study.weather.label}.`,
      )}${figure(html`${week(warm)}${week(cold)}`, WEEKS_CAPTION)}${figure(
        html`<div class="fit">${envelopeChart(temperatures, layers, canvas(FITTED))}</div>`,
        envelopeCaption(temperatures, layers),
      )}`;
    },
    cycles() {
      const rows = treatments.flatMap(t => {
        const bins = t.thermalCycles ? cycleBins(t.thermalCycles, frontExponent(t)) : [];
        return bins.length === 0 ? [] : [{t, bins}];
      });
      if (rows.length === 0) return null;
      return html`${rows.map(({t, bins}) => {
        const both = [
          panel("Cycles", cyclesChart(bins, canvas(HALF))),
          panel("Damage", cycleDamageChart(bins, canvas(HALF))),
        ];
        return figure(html`<h4>${t.treatment.name}</h4>${panels(both)}`, cyclesCaption(t, bins));
      })}`;
    },
    tipStrain() {
      const curves = treatments.flatMap(t => t.tipStrain);
      if (curves.length === 0) return null;
      const domain = strainDomain(curves);
      const bodies = treatments.filter(t => t.tipStrain.length > 0).map(t => tipStrainPanels(t, domain, canvas(HALF)));
      return html`${bodies.map(({t, body}) => figure(body, tipStrainCaption(t)))}`;
    },
    traffic: () => trafficPart(result, frame),
    loads() {
      const few = study.traffic.classes.length <= MOST_BARS;
      const bins = panel("Temperature of the overlay", binsChart(treatments[0]!.bins, canvas(HALF)));
      const classes = few ? panel("Load classes", classesChart(study.traffic.classes, canvas(HALF))) : null;
      return figure(
        panels(classes ? [bins, classes] : [bins]),
        `At which overlay temperature the traffic passes${few ? ", and how much of it there is of each class" : ""}.`,
      );
    },
  };
}

function tipStrainPanels(
  t: TreatmentLife,
  domain: readonly [number, number],
  canvas: Canvas,
): {t: TreatmentLife; body: Html} {
  const fronts = (["interlayer", "underside", "surface"] as const)
    .map(front => ({front, curves: t.tipStrain.filter(c => c.front === front)}))
    .filter(f => f.curves.length > 0);
  const body = html`<h4>${t.treatment.name}</h4><div class="panels">${fronts.map(
    f => html`<div class="panel"><h4>${FRONT_TEXT[f.front]}</h4>${tipStrainChart(f.curves, domain, canvas)}</div>`,
  )}</div>`;
  return {t, body};
}

function sectionCaption(t: TreatmentLife): string {
  const interlayer = t.treatment.section.layers.find(l => l.role === "interlayer");
  const what = t.treatment.description || "The section as given.";
  const seen = interlayer
    ? ` The interlayer (${millimetres(interlayer.thickness)}, dark band) lies between the joint and the overlay.`
    : " Nothing lies between the joint and the overlay.";
  return `${what.replace(/\.?$/, ".")}${seen} To scale around the joint; dotted: path of the crack; dashed: cut on into the foundation, and strips without bond.`;
}

function frontsCaption(treatments: readonly TreatmentLife[]): string {
  const above = treatments.filter(t => reflection(t)?.worstFront === "upper").length;
  const way =
    above === 0
      ? "The crack grows mainly from the joint upwards"
      : above === treatments.length
        ? "The crack grows mainly from the surface downwards"
        : "Where the crack grows from differs between the treatments";
  return `${way}; the pavement has failed where the fronts from below and from above meet (dot). Shaded: cracked depth. Dashed and dotted: each cause on its own.`;
}

function livesCaption(treatments: readonly TreatmentLife[]): string {
  const open = treatments.some(t =>
    [...t.histories, ...t.ordinary].some(h => h.life.years > LIFE_CAP || h.life.censored),
  );
  const hollow = open
    ? ` Hollow bars, open to the right, are lives longer than shown; the axis ends at ${LIFE_CAP} years.`
    : "";
  const ended = treatments.some(t => t.governing.life.years <= LIFE_CAP && !t.governing.life.censored);
  const first = ended
    ? "The shortest bar of each treatment governs (dark)."
    : "No mechanism ends the life of any treatment.";
  return `${first}${hollow} On this scale equal steps are equal ratios.`;
}

function temperatureCaption(surface: Float64Array, slab: Float64Array): string {
  const [low, high] = range(surface);
  const [slabLow, slabHigh] = range(slab);
  return `The surface runs from ${celsius(low)} to ${celsius(high)}, the jointed layer’s mean only from ${celsius(slabLow)} to ${celsius(slabHigh)}: daily swings reach it damped, the seasons whole.`;
}

const WEEKS_CAPTION =
  "The weeks with the warmest and the coldest surface, hour by hour. The deeper, the smaller the daily swing and the later it comes.";

function envelopeCaption({envelope, atDepth}: PavementTemperatures, layers: readonly Layer[]): string {
  const last = envelope.depth.length - 1;
  const swing = (i: number) => figures(envelope.highest[i] - envelope.lowest[i], 2);
  const overlay = atDepth.findLast(d => d.place === "bottom" && layers[d.layer].role === "overlay");
  const [low, high] = range(overlay?.temperature ?? new Float64Array());
  const between = overlay ? ` At the overlay’s underside it runs from ${celsius(low)} to ${celsius(high)}.` : "";
  return `Lowest, mean and highest temperature of the record by depth: a span of ${swing(0)} K at the surface, ${swing(last)} K at ${millimetres(envelope.depth[last])}.${between} Dashed: interfaces of the layers.`;
}

function range(values: Float64Array): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const v of values) {
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  return [low, high];
}

function cyclesCaption(t: TreatmentLife, bins: ReturnType<typeof cycleBins>): string {
  const half = bins.at(-1)!.high / 2;
  const large = bins.filter(b => b.low >= half * (1 - 1e-9));
  const share = (key: "perYear" | "damage") =>
    (100 * large.reduce((sum, b) => sum + b[key], 0)) / bins.reduce((sum, b) => sum + b[key], 0);
  return `Cycles of the tip strain with no crack yet, by rainflow. In “${t.treatment.name}” the ${figures(share("perYear"), 2)} % of cycles above half the largest range do ${figures(share("damage"), 2)} % of the thermal damage.`;
}

function tipStrainCaption(t: TreatmentLife): string {
  const largest = (front: TipStrainCurve["front"]) =>
    Math.max(
      0,
      ...t.tipStrain.filter(c => c.front === front && c.cause === "traffic").map(c => (c.strain[0] ?? 0) * 1e6),
    );
  const [inner, under] = [largest("interlayer"), largest("underside")];
  const seen =
    inner > 0 && under > 0
      ? `At the start traffic strains the tip by up to ${figures(inner, 2)} µε in the interlayer, but by ${figures(under, 2)} µε at the overlay’s underside above it.`
      : `At the start traffic strains the overlay’s underside by up to ${figures(under, 2)} µε.`;
  return `${t.treatment.name}: tip strain against crack length, no other crack present, worst lateral offset. ${seen} Solid: traffic; dotted: temperature.`;
}
