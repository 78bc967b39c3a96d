/** Master curves with figures and tables, of the materials of a life and of a file of tests alike. */

import type {LifeResult} from "../engine/life/types.ts";
import {
  type BeyondTests,
  beyondTests,
  curveSummary,
  type Layer,
  modulusAt,
  relaxationBeyondTests,
  type StiffnessSource,
} from "../engine/section/index.ts";
import {
  blackChart,
  coleColeChart,
  type MarkedTime,
  masterCurveChart,
  relaxationChart,
  shiftChart,
  testTemperatures,
} from "./charts/index.ts";
import {type FigureFrame, FULL, HALF, temperatureLegend} from "./figureFrame.ts";
import {celsius, degrees, figures, hertz, hours, kilometresPerHour, megapascals, millimetres} from "./format.ts";
import {type Html, html} from "./html.ts";
import {curveRows, originText, residualTexts} from "./stiffnessWords.ts";

/** Temperatures at which moduli are told [°C]. */
export const TOLD_TEMPERATURES = [-10, 0, 10, 20, 30, 40] as const;

/** A curve with what it came from; as in a material, and as read from a file of tests. */
export type ShownCurve = Pick<StiffnessSource, "origin" | "file" | "curve" | "fit" | "points" | "prony">;

interface CurveUse {
  readonly layer: Layer;
  readonly source: StiffnessSource;
}

/** Every master curve in use; null when there is none. */
export function stiffnessPart(result: LifeResult, frame: FigureFrame): Html | null {
  const layers = result.treatments.flatMap(t => t.treatment.section.layers);
  const uses = layers.flatMap((layer): CurveUse[] => {
    const source = layer.material.masterCurve;
    return source ? [{layer, source}] : [];
  });
  if (uses.length === 0) return null;
  const groups = Map.groupBy(uses, ({source}) => JSON.stringify([source.origin, source.file, source.curve]));
  return html`${[...groups.values()].map(own => materialPart(own, frame))}`;
}

function materialPart(uses: readonly CurveUse[], frame: FigureFrame): Html {
  const [{layer, source}] = uses as [CurveUse, ...CurveUse[]];
  const name = layer.material.name.replace(/ × [\d.]+$/, ""); // without the factor of a treated layer
  const {relaxation} = source;
  const times = relaxation
    ? [
        {label: "day", ...relaxation.daily, modulus: relaxation.daily.modulus / source.factor},
        {label: "season", ...relaxation.seasonal, modulus: relaxation.seasonal.modulus / source.factor},
      ]
    : [];
  const temperature = relaxation?.daily.temperature ?? source.curve.referenceTemperature;
  return html`<h3>${name}</h3><p class="lead">${originText(source)}</p>${curveFigures(source, {name, times, temperature}, frame)}
    ${parameterTable(source, name)}<br>${layerTable(uses, name)}<br>${relaxation ? relaxationTable(uses, name) : html`<p class="notes">The relaxation modulus of ${name} was given as a number, ${megapascals(layer.material.relaxationModulus)}, and not taken from the curve.</p>`}`;
}

/** What a set of figures says beside the curve itself. */
export interface FigureWords {
  readonly name: string; // of the material
  readonly times: readonly MarkedTime[]; // marked on the relaxation curve
  readonly temperature: number; // of the relaxation curve [°C]
}

/** Master curve; Black and Cole-Cole diagram; shift and relaxation. */
export function curveFigures(shown: ShownCurve, words: FigureWords, frame: FigureFrame): Html {
  const {canvas, figure, wide, panel, panels} = frame;
  const {points, curve} = shown;
  const {name, times, temperature} = words;
  const phases = points.some(p => p.phase !== null);
  const legend = points.length > 0 ? temperatureLegend(testTemperatures(points)) : null;
  const tested = points.length > 0;
  const approximate =
    curve.model.kind === "sigmoid" ? " The sigmoid tells no phase; that of its slope is drawn, an approximation." : "";
  return html`${figure(
    html`${legend}${wide(masterCurveChart(shown, canvas(FULL)))}`,
    tested
      ? `${name}: readings shifted along the frequency to ${celsius(curve.referenceTemperature)}. Full: within the tests; dashed: the model beyond them.`
      : `${name}: the curve at ${celsius(curve.referenceTemperature)}. No reading stands behind it.`,
  )}${figure(
    panels([
      panel("Black diagram", blackChart(shown, canvas(HALF))),
      panel("Cole-Cole diagram", coleColeChart(shown, canvas(HALF))),
    ]),
    phases
      ? `${name}: without any shift. Readings of all temperatures on one line mean that time and temperature stand for each other; readings off it point at a test that went wrong.${approximate}`
      : `${name}: as the model has it; no phase was measured.${approximate}`,
  )}${figure(
    panels([
      panel("Shift with temperature", shiftChart(shown, canvas(HALF))),
      panel("Relaxation", relaxationChart(shown, temperature, times, canvas(HALF))),
    ]),
    `${name}: left, how far the curve moves along lg frequency with temperature; right, the modulus that is left after a load has lasted, from the Prony series${times.length > 0 ? ", with the times at which days and seasons are taken to load" : ""}.`,
  )}`;
}

/** Parameters of model and shift, how well they fit and where the tests were. */
export function parameterTable(shown: ShownCurve, name: string): Html {
  return html`
  <div class="scroll keep"><table>
    <caption>${name}: ${shown.fit ? "parameters as fitted, and how well they fit" : "parameters"}.</caption>
    <tbody>${curveRows(shown).map(([what, value]) => html`<tr><th scope="row">${what}</th><td>${value}</td></tr>`)}</tbody>
  </table></div>`;
}

/** Marks a number that rests on no test. */
function mark(beyond: BeyondTests | null): Html | null {
  return beyond && (beyond.temperature !== 0 || beyond.decades !== 0) ? html`<sup>e</sup>` : null;
}

const EXTRAPOLATED = html`<p class="notes"><sup>e</sup> Extrapolated: beyond the temperatures or the reduced frequencies of the tests.</p>`;

function layerTable(uses: readonly CurveUse[], name: string): Html {
  const rows = [
    ...new Map(uses.map(u => [`${u.layer.name} ${u.source.loadingFrequency} ${u.source.factor}`, u])).values(),
  ];
  const {speed, curve} = rows[0]!.source;
  return html`
  <div class="scroll keep"><table>
    <caption>${name}: |E*| under wheels, MPa, at the loading frequency of each layer${speed === null ? ", which was given" : `, from a speed of ${kilometresPerHour(speed)} and its mid-depth`}.</caption>
    <thead><tr><th scope="col">Layer</th><th scope="col" class="n">Frequency</th>${TOLD_TEMPERATURES.map(t => html`<th scope="col" class="n">${celsius(t)}</th>`)}</tr></thead>
    <tbody>${rows.map(({layer, source}) => {
      const factor = source.factor === 1 ? "" : `, × ${figures(source.factor)}`;
      return html`
      <tr><th scope="row">${layer.name}${factor}${speed !== null && html` <small>${millimetres(layer.thickness)}</small>`}</th><td class="n">${hertz(source.loadingFrequency)}</td>${TOLD_TEMPERATURES.map(
        t =>
          html`<td class="n">${figures(modulusAt(layer.material, t) / 1e6)}${mark(beyondTests(curve, t, source.loadingFrequency))}</td>`,
      )}</tr>`;
    })}</tbody>
  </table></div>${curve.measured && EXTRAPOLATED}`;
}

function relaxationTable(uses: readonly CurveUse[], name: string): Html {
  const rows = [...new Map(uses.map(u => [u.source.factor, u.source])).values()];
  const points = rows.flatMap(source => {
    const {daily, seasonal} = source.relaxation!;
    return [
      {what: "a day", point: daily, source},
      {what: "a season", point: seasonal, source},
    ];
  });
  return html`
  <div class="scroll keep"><table>
    <caption>${name}: relaxation moduli by which temperature strains the crack tip.</caption>
    <thead><tr><th scope="col">Cycle of</th><th scope="col" class="n">Loading time</th><th scope="col" class="n">Temperature</th><th scope="col" class="n">Modulus</th><th scope="col">Tests</th></tr></thead>
    <tbody>${points.map(({what, point, source}) => {
      const factor = source.factor === 1 ? "" : `, × ${figures(source.factor)}`;
      return html`
      <tr><th scope="row">${what}${factor}</th><td class="n">${hours(point.time)}</td><td class="n">${celsius(point.temperature)}</td>
        <td class="n">${megapascals(point.modulus)}</td><td>${beyondWords(relaxationBeyondTests(source.curve, point))}</td></tr>`;
    })}</tbody>
  </table></div>`;
}

function beyondWords(beyond: BeyondTests | null): string {
  if (!beyond) return "none";
  const {temperature, decades} = beyond;
  const parts = [
    temperature !== 0 &&
      `${figures(Math.abs(temperature), 2)} K ${temperature < 0 ? "below" : "above"} their temperatures`,
    decades !== 0 &&
      `${figures(Math.abs(decades), 2)} decades of reduced frequency ${decades < 0 ? "below" : "above"} them`,
  ].filter(text => text !== false);
  return parts.length > 0 ? `extrapolated, ${parts.join(" and ")}` : "within them";
}

/** Modulus at one frequency and relaxation moduli by temperature, of a curve that is in no pavement. */
export function summaryTable(
  shown: ShownCurve,
  asked: {readonly frequency: number; readonly times: readonly number[]},
): Html {
  const rows = curveSummary(shown, {temperatures: TOLD_TEMPERATURES, ...asked});
  return html`
  <div class="scroll keep"><table>
    <caption>Moduli by temperature, MPa.</caption>
    <thead><tr><th scope="col">Temperature</th><th scope="col" class="n">|E*|<br><small>${hertz(asked.frequency)}</small></th><th scope="col" class="n">Phase<br><small>${hertz(asked.frequency)}</small></th>
      ${asked.times.map(t => html`<th scope="col" class="n">Relaxed<br><small>${hours(t)}</small></th>`)}</tr></thead>
    <tbody>${rows.map(
      r => html`
      <tr><th scope="row">${celsius(r.temperature)}</th><td class="n">${figures(r.modulus / 1e6)}${mark(r.beyond)}</td><td class="n">${degrees(r.phase)}${mark(r.beyond)}</td>
        ${r.relaxation.map(p => html`<td class="n">${figures(p.modulus / 1e6)}${mark(p.beyond)}</td>`)}</tr>`,
    )}</tbody>
  </table></div>${shown.curve.measured && EXTRAPOLATED}`;
}

/** Readings with what the curve misses them by. */
export function residualTable({points, fit}: ShownCurve): Html | null {
  if (!fit) return null;
  return html`
  <div class="scroll"><table>
    <caption>Readings, and curve less reading.</caption>
    <thead><tr><th scope="col" class="n">Temperature</th><th scope="col" class="n">Frequency</th><th scope="col" class="n">|E*|<br><small>MPa</small></th><th scope="col" class="n">Curve less it</th>
      <th scope="col" class="n">Phase</th><th scope="col" class="n">Curve less it</th></tr></thead>
    <tbody>${points.map((p, k) => {
      const missed = residualTexts(fit, k);
      return html`
      <tr><td class="n">${celsius(p.temperature)}</td><td class="n">${hertz(p.frequency)}</td><td class="n">${figures(p.modulus / 1e6)}</td><td class="n">${missed.modulus}</td>
        <td class="n">${p.phase === null ? "–" : degrees(p.phase)}</td><td class="n">${missed.phase}</td></tr>`;
    })}</tbody>
  </table></div>`;
}
