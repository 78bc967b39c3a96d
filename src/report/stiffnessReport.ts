/** The report of a table of complex modulus tests. */

import {modulusNorm, relaxationModulusAt} from "../engine/viscoelastic/index.ts";
import {figureFrame} from "./figureFrame.ts";
import {celsius, degrees, hertz, hours, megapascals, percent} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";
import {curveFigures, parameterTable, residualTable, type ShownCurve, summaryTable} from "./stiffness.ts";
import {originText} from "./stiffnessWords.ts";

/** A curve of one material, as read from a table. */
export interface StiffnessReading {
  readonly name: string;
  readonly shown: ShownCurve;
}

/** Frequency at which moduli are told [Hz]: about that of a truck in the upper courses. */
export const USUAL_FREQUENCY = 10;
/** Loading times of a day and of a season [s]; those of a study when it says nothing else. */
export const LOADING_TIMES = [6 * 3600, 2000 * 3600] as const;

export function stiffnessReport(reading: StiffnessReading, context: ReportContext): string {
  const {name, shown} = reading;
  const frame = figureFrame(context.document);
  const temperature = shown.curve.referenceTemperature;
  const times = LOADING_TIMES.map((time, k) => ({
    label: k === 0 ? "day" : "season",
    time,
    modulus: relaxationModulusAt(shown.curve, shown.prony, {time, temperature}),
  }));
  return page({
    name,
    title: `${name}: master curve`,
    kicker: "Stiffness of asphalt from tests of the complex modulus",
    context,
    answer: stiffnessAnswer(reading),
    parts: [
      html`<section>${summaryTable(shown, {frequency: USUAL_FREQUENCY, times: LOADING_TIMES})}${caution()}</section>`,
      html`<section><h2>Master curve</h2>${curveFigures(shown, {name, times, temperature}, frame)}</section>`,
      html`<section><h2>Fit</h2>${parameterTable(shown, name)}<br>${residualTable(shown)}</section>`,
      listPart("Findings", context.warnings),
      methodPart(),
      sourcesPart(context),
    ],
  });
}

/** The result in a sentence, and what qualifies it. */
export function stiffnessAnswer({name, shown}: StiffnessReading): {headline: string; details: string[]} {
  const {curve, prony, fit} = shown;
  const temperature = curve.referenceTemperature;
  const modulus = modulusNorm(curve, temperature, USUAL_FREQUENCY);
  const [day, season] = LOADING_TIMES.map(time =>
    megapascals(relaxationModulusAt(curve, prony, {time, temperature})),
  ) as [string, string];
  const [dayLong, seasonLong] = LOADING_TIMES.map(hours) as [string, string];
  const phase = fit?.rmsPhase == null ? "" : ` and the phase to ${degrees(fit.rmsPhase)}`;
  return {
    headline: `${name}: |E*| of ${megapascals(modulus)} at ${celsius(temperature)} and ${hertz(USUAL_FREQUENCY)}.`,
    details: [
      originText(shown),
      ...(fit ? [`The curve tells |E*| to ${percent(fit.rmsModulus)}${phase}, root mean square.`] : []),
      `At ${celsius(temperature)} it relaxes to ${day} in ${dayLong} and to ${season} in ${seasonLong}.`,
    ],
  };
}

function caution(): Html {
  return html`<div class="caution" role="note"><p><b>Before you use these numbers.</b> The tests hold for small strains, for the specimens as they were made, and between their lowest and highest reduced frequency.
  Relaxation moduli after hours and months lie far beyond usual tests: there the model speaks, and two models that fit the tests alike may differ several times over. They support, and never replace, the judgement of a qualified pavement engineer.</p></div>`;
}

function methodPart(): Html {
  return html`<section><h2>Method</h2><p>Readings at a temperature T and a frequency f are taken to one curve at the reduced frequency f·a<sub>T</sub>(T). Parameters of the curve and of the shift are fitted together, by least squares of lg |E*|
  and of the phase where there is one. 2S2P1D is E* = E₀₀ + (E₀ − E₀₀)/(1 + δ(iωτ)<sup>−k</sup> + (iωτ)<sup>−h</sup> + (iωβτ)<sup>−1</sup>) (Olard and Di Benedetto 2003), without its last term the model of Huet and Sayegh; the sigmoid
  is one of lg |E*| over lg f. Relaxation moduli come from a Prony series that follows the curve over 21 decades of frequency.</p></section>`;
}
