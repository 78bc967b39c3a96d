/** The report of a deflection bowl. */

import {
  BOWL_JUDGEMENT,
  type BowlCase,
  bowlAnswer,
  bowlWarningTexts,
  combinationRows,
  type Factor,
  layerRows,
  sensorRows,
  solutionRows,
  testText,
} from "./bowl.ts";
import {bowlChart, bowlResidualChart, surfaceModulusChart} from "./charts/index.ts";
import {FITTED, type FigureFrame, figureFrame} from "./figureFrame.ts";
import {figures, percent} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";

export function bowlReport(bowl: BowlCase, context: ReportContext): string {
  const {result} = bowl;
  const frame = figureFrame(context.document);
  return page({
    name: bowl.name,
    title: `${bowl.name}: moduli from deflections`,
    kicker: "Moduli of layers from a deflection bowl",
    context,
    answer: bowlAnswer(bowl),
    parts: [
      html`<section>${layerTable(bowl)}${caution()}</section>`,
      listPart("Before you use them", [...context.warnings, ...bowlWarningTexts(result)]),
      bowlPart(bowl, frame),
      surfacePart(bowl, frame),
      knownPart(bowl),
      html`<section><h2>Sensors</h2>${sensorTable(bowl)}</section>`,
      methodPart(bowl),
      sourcesPart(context),
    ],
  });
}

function caution(): Html {
  return html`<div class="caution" role="note"><p><b>What these moduli are worth.</b> They make elastic layers of the given thickness deflect as measured. That is not yet the stiffness of the material: an error of a thickness, a crack, water or rock below
  goes into them. ${BOWL_JUDGEMENT}</p></div>`;
}

function layerTable(bowl: BowlCase): Html {
  const rows = layerRows(bowl);
  const {test} = bowl.result;
  return html`
  <div class="scroll"><table>
    <caption>${testText(bowl)}. Intervals of ${percent(test.probability)}; “&gt;” and “&lt;”: no end within the range searched.${bowl.source !== null && html` Source: ${bowl.source}`}</caption>
    <thead><tr><th scope="col">Layer</th><th scope="col" class="n">Thickness<br><small>mm</small></th><th scope="col" class="n">ν<br><small>–</small></th>
      <th scope="col" class="n">Modulus<br><small>MPa</small></th><th scope="col" class="n">Interval<br><small>MPa</small></th><th scope="col">Remark</th></tr></thead>
    <tbody>${rows.map(
      r => html`
      <tr><th scope="row">${r.name}</th><td class="n">${r.thickness}</td><td class="n">${r.poisson}</td><td class="n">${r.modulus}</td><td class="n">${r.interval}</td><td>${r.remark}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function bowlPart({result}: BowlCase, {figure, canvas}: FigureFrame): Html {
  const {sensors} = result;
  return html`<section><h2>The bowl</h2>${figure(
    html`<div class="fit">${bowlChart(sensors, canvas(FITTED))}</div><div class="fit">${bowlResidualChart(sensors, canvas(FITTED))}</div>`,
    "Deflection measured (dots, with the standard deviation by which each is weighed) and fitted (line). Below: what is left. Within the grey band the fit is as good as the sensors.",
  )}</section>`;
}

function surfacePart({result}: BowlCase, {figure, canvas}: FigureFrame): Html {
  const {poisson} = result.test.layers[result.test.layers.length - 1];
  return html`<section><h2>Surface modulus</h2>${figure(
    html`<div class="fit">${surfaceModulusChart(result.sensors, canvas(FITTED))}</div>`,
    `Modulus of the half-space (ν = ${figures(poisson)}) with the same deflection at that distance, measured (dots) and of the fitted layers (line). The further out, the deeper it looks. It is the same everywhere on a half-space, falls outward where stiff layers lie on soft ground, and rises again outward above a stiff bottom, or on soil that is stiffer where it is stressed less.`,
  )}</section>`;
}

function knownPart(bowl: BowlCase): Html {
  const {layers, starts} = bowl.result;
  return html`<section><h2>What the bowl determines, and what not</h2>
  ${productTable(bowl)}${correlationTable(bowl)}
  <div class="scroll"><table>
    <caption>Moduli that fit within the noise, MPa: the best; the ends of the widest interval, the other moduli fitted anew; and minima of their own, from ${starts} starts.</caption>
    <thead><tr><th scope="col">Set</th>${layers.map(l => html`<th scope="col" class="n">${l.name}</th>`)}<th scope="col" class="n">off by<br><small>%</small></th></tr></thead>
    <tbody>${solutionRows(bowl.result).map(
      r =>
        html`<tr><th scope="row">${r.name}</th>${r.moduli.map(m => html`<td class="n">${m}</td>`)}<td class="n">${r.rms}</td></tr>`,
    )}</tbody>
  </table></div></section>`;
}

function productTable({result}: BowlCase): Html | null {
  if (result.unknowns.length === 0) return null;
  return html`
  <div class="scroll"><table>
    <caption>Products of moduli that the bowl determines each for itself, the best known first, with half of the ${percent(result.test.probability)} interval, by the slopes at the best fit. A modulus that stands only in the last ones is hardly known.</caption>
    <thead><tr><th scope="col">Product</th><th scope="col" class="n">known to</th></tr></thead>
    <tbody>${combinationRows(result).map(r => html`<tr><th scope="row">${productMarkup(r.factors)}</th><td class="n">${r.known}</td></tr>`)}</tbody>
  </table></div><br>`;
}

function correlationTable({result}: BowlCase): Html | null {
  const {layers, unknowns, correlation} = result;
  if (unknowns.length < 2) return null;
  const names = unknowns.map(j => layers[j].name);
  return html`
  <div class="scroll"><table>
    <caption>Correlation of the logarithms: near −1 two moduli trade against each other.</caption>
    <thead><tr><th scope="col"></th>${names.map(n => html`<th scope="col" class="n">${n}</th>`)}</tr></thead>
    <tbody>${correlation.map((row, i) => html`<tr><th scope="row">${names[i]}</th>${row.map(c => html`<td class="n">${figures(Number(c.toFixed(2)), 2)}</td>`)}</tr>`)}</tbody>
  </table></div><br>`;
}

/** asphalt · granular base^−0.36, the power raised. */
function productMarkup(factors: readonly Factor[]): Html[] {
  return factors.map(
    ({name, power}, i) => html`${i > 0 && " · "}<i>E</i> ${name}${power !== "" && html` <sup>${power}</sup>`}`,
  );
}

function sensorTable({result}: BowlCase): Html {
  return html`
  <div class="scroll"><table>
    <caption>Means of the drops, at their mean load. σ is the deviation by which a sensor is weighed: its stated accuracy, and the scatter from drop to drop.</caption>
    <thead><tr><th scope="col" class="n">Distance<br><small>mm</small></th><th scope="col" class="n">Measured<br><small>µm</small></th><th scope="col" class="n">σ<br><small>µm</small></th><th scope="col" class="n">Fitted<br><small>µm</small></th>
      <th scope="col" class="n">Difference<br><small>%</small></th><th scope="col" class="n">in σ<br><small>–</small></th><th scope="col" class="n">Surface modulus<br><small>MPa</small></th></tr></thead>
    <tbody>${sensorRows(result).map(
      r =>
        html`<tr><th scope="row" class="n">${r.offset}</th><td class="n">${r.measured}</td><td class="n">${r.deviation}</td><td class="n">${r.fitted}</td><td class="n">${r.difference}</td><td class="n">${r.scaled}</td><td class="n">${r.surfaceModulus}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function methodPart({result}: BowlCase): Html {
  return html`<section><h2>Method</h2><p>Linear elastic layers, fully bonded, under a uniform pressure on a circle; static, so the bowl of peak values is taken for one of a load at rest. Moduli by damped least squares in ln E, each residual over its σ, from ${result.starts} starts;
  ${result.evaluations} bowls computed, the integrals to ${figures(result.residual, 1)}. The interval of a modulus holds every value with which, the others fitted anew, the sum of squares stays below its minimum plus t²·s²
  (Student’s t, ${result.degrees} degrees of freedom, s the scatter that is left). Intervals know of the sensors’ errors; not of those of thicknesses, of cracks, or of layers that are not elastic.</p></section>`;
}
