/** The report of a life computation. */

import type {LifeResult} from "../engine/life/types.ts";
import {answer} from "./answer.ts";
import {cautionBox, limitsPart} from "./cautions.ts";
import {equationsPart, referencesPart} from "./equations.ts";
import {type FigureBook, figureBook} from "./figures.ts";
import {celsius, percent, years} from "./format.ts";
import {type Html, html} from "./html.ts";
import {inputsPart} from "./inputs.ts";
import {page, type ReportContext, sourcesPart} from "./page.ts";
import {behaviourTable, milestoneTable, ordinaryTable, resultTable} from "./tables.ts";

/** The whole report as text of an HTML document. */
export function lifeReport(result: LifeResult, context: ReportContext): string {
  const {study} = result;
  const figures = figureBook(result, context.document);
  return page({
    name: study.name,
    title: `${study.name}: life of the overlay`,
    kicker: "Life of an asphalt overlay over joints and cracks",
    context,
    answer: answer(result),
    parts: [
      resultPart(result),
      figures.costs(),
      pavementPart(result, figures),
      temperaturePart(figures),
      strainPart(figures),
      figures.traffic(),
      html`<section class="inputs"><h2>Inputs</h2>${inputsPart(result)}${figures.loads()}</section>`,
      stiffnessSection(figures),
      html`<section><h2>Method</h2>${equationsPart()}</section>`,
      settingsPart(result, context),
      html`<section><h2>Limits of this result</h2>${limitsPart(result)}</section>`,
      html`<section><h2>References</h2>${referencesPart()}</section>`,
      sourcesPart(context),
    ],
  });
}

function resultPart(result: LifeResult): Html {
  return html`<section>${resultTable(result)}${cautionBox(result)}</section>`;
}

function pavementPart(result: LifeResult, figures: FigureBook): Html {
  return html`<section><h2>Lives by mechanism</h2>${figures.lives()}</section>
<section><h2>Crack growth</h2>${figures.fronts()}${milestoneTable(result)}</section>
<section><h2>Pavement and treatments</h2>${figures.sections()}${behaviourTable(result)}<br>${ordinaryTable(result)}</section>`;
}

function temperaturePart(figures: FigureBook): Html | null {
  const record = figures.temperature();
  const cycles = figures.cycles();
  return record || cycles ? html`<section><h2>Temperature</h2>${record}${cycles}</section>` : null;
}

function strainPart(figures: FigureBook): Html | null {
  const strain = figures.tipStrain();
  return strain && html`<section><h2>What strains the crack tip</h2>${strain}</section>`;
}

function stiffnessSection(figures: FigureBook): Html | null {
  const curves = figures.stiffness();
  return curves && html`<section class="inputs"><h2>Stiffness of the asphalt</h2>${curves}</section>`;
}

function settingsPart(result: LifeResult, context: ReportContext): Html {
  const {study} = result;
  const own = result.treatments.flatMap(t => t.warnings.map(w => `${t.treatment.name}: ${w}`));
  const warnings = [...new Set([...context.warnings, ...own])];
  const bins = "kind" in study.bins ? `${study.bins.count}, derived` : `${study.bins.length}, given`;
  return html`<section><h2>Numerical settings and warnings</h2>
<div class="scroll keep"><table><tbody>
<tr><th scope="row">Accuracy asked for, in tip strain</th><td>${percent(study.accuracy)}</td></tr>
<tr><th scope="row">Temperature bins</th><td>${bins}</td></tr>
<tr><th scope="row">Strain-free temperature</th><td>${study.neutralTemperature === null ? "mean of the record" : celsius(study.neutralTemperature)}</td></tr>
<tr><th scope="row">Analysis period</th><td>${years(study.analysisPeriod)}</td></tr>
<tr><th scope="row">Software</th><td>Seamwright ${context.software}</td></tr>
<tr><th scope="row">Hash of the inputs</th><td style="overflow-wrap:anywhere">${context.inputHash}</td></tr>
</tbody></table></div>
${warnings.length === 0 ? html`<p>No warnings.</p>` : html`<h3>Warnings</h3><ul>${warnings.map(w => html`<li>${w}</li>`)}</ul>`}</section>`;
}
