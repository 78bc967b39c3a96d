/** The report of a bending-fatigue programme. */

import type {FatigueProgramme, FatigueResult, MaterialFatigue} from "../engine/laboratory/index.ts";
import {comparisonChart, fatigueChart, historyChart} from "./charts/index.ts";
import {fatigueAnswer, findingTexts, lineTexts, strainText} from "./fatigue.ts";
import {FITTED, type FigureFrame, FULL, figureFrame, legend} from "./figureFrame.ts";
import {count, figures, percent} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";

export function fatigueReport(result: FatigueResult, context: ReportContext): string {
  const {programme, materials} = result;
  const frame = figureFrame(context.document);
  return page({
    name: programme.name,
    title: `${programme.name}: fatigue lines`,
    kicker: "Fatigue lines from bending tests",
    context,
    answer: fatigueAnswer(result),
    parts: [
      html`<section>${lineTable(result)}${caution()}</section>`,
      chartPart(result, frame),
      comparisonPart(result, frame),
      historyPart(result, frame),
      html`<section><h2>Specimens</h2>${materials.map(m => specimenTable(m, programme))}</section>`,
      listPart("Findings", [...context.warnings, ...findingTexts(result)]),
      methodPart(result),
      sourcesPart(context),
    ],
  });
}

/** Lines, comparison and stiffness as parts of another report. */
export function fatigueParts(result: FatigueResult, frame: FigureFrame): Html {
  return html`<section><h2>Fatigue tests</h2>${lineTable(result)}</section>${chartPart(result, frame)}${comparisonPart(result, frame)}${historyPart(result, frame)}`;
}

function caution(): Html {
  return html`<div class="caution" role="note"><p><b>Before you use these numbers.</b> A fatigue line holds at its temperature and frequency, over the strains that were tested. It ranks materials; it is not the life of a
  pavement. It supports, and never replaces, the judgement of a qualified pavement engineer and local specifications.</p></div>`;
}

function lineTable({materials, probability}: FatigueResult): Html {
  return html`
  <div class="scroll"><table>
    <caption>N = 10⁶·(ε₆/ε)<sup>k</sup>; intervals of ${percent(probability)}. Below each value from all specimens, run-outs as bounds, the one by regression over the failed ones alone (EN 12697-24).</caption>
    <thead><tr><th scope="col">Material</th><th scope="col" class="n">ε₆<br><small>µε</small></th><th scope="col" class="n">k<br><small>–</small></th><th scope="col" class="n">Scatter of lg N<br><small>–</small></th>
      <th scope="col" class="n">r<br><small>–</small></th><th scope="col" class="n">Δε₆<br><small>µε</small></th><th scope="col" class="n">Specimens</th></tr></thead>
    <tbody>${materials.map(m => {
      const {standard} = m;
      const own = lineTexts(m, probability);
      return html`
      <tr><th scope="row">${m.material}</th>
        <td class="n">${own.strain}<br><small>${own.strainInterval}<br>${strainText(standard?.strainAtMillion)}</small></td>
        <td class="n">${own.k}<br><small>${own.kInterval}<br>${standard ? figures(standard.k) : "–"}</small></td>
        <td class="n">${own.scatter}<br><small>${standard ? figures(standard.sigma, 2) : "–"}</small></td>
        <td class="n">${standard ? figures(standard.correlation) : "–"}</td><td class="n">${strainText(standard?.strainError)}</td>
        <td class="n">${own.specimens}${own.runOuts > 0 && html`<br><small>${own.runOuts} run-out${own.runOuts > 1 ? "s" : ""}</small>`}</td></tr>`;
    })}</tbody>
  </table></div>`;
}

function chartPart({materials, probability}: FatigueResult, {figure, canvas}: FigureFrame): Html {
  return html`<section><h2>Fatigue lines</h2>${figure(
    html`${legend(materials.map(m => m.material))}<div class="fit">${fatigueChart(materials, probability, canvas(FITTED))}</div>`,
    `Every specimen. Open with an arrow: run-out, its life is longer. Crossed: set aside. Dark band: where the line is (${percent(probability)}); light band: where one more specimen would be.`,
  )}</section>`;
}

function comparisonPart({materials, comparisons}: FatigueResult, {figure, canvas}: FigureFrame): Html | null {
  if (!comparisons.length) return null;
  const names = materials.map(m => m.material);
  return html`<section><h2>Materials at equal strain</h2>${figure(
    html`<div class="fit">${comparisonChart(comparisons, names, canvas(FITTED))}</div>`,
    `Life over that of ${comparisons[0].reference} at equal strain, with its interval, where both were tested. Dotted: beyond that, extrapolated; not to be relied on.`,
  )}</section>`;
}

function historyPart({programme, materials}: FatigueResult, {figure, wide, canvas}: FigureFrame): Html | null {
  const own = programme.specimens.filter(s => s.history !== null);
  if (!own.length) return null;
  const names = materials.map(m => m.material);
  return html`<section><h2>Stiffness</h2>${figure(
    wide(historyChart(own, names, canvas(FULL))),
    "Stiffness over its value at the 100th cycle. A specimen has failed at half of it.",
  )}</section>`;
}

function specimenTable(m: MaterialFatigue, {specimens}: FatigueProgramme): Html {
  const flags = (name: string): string =>
    m.findings
      .filter(f => f.specimens.includes(name))
      .map(f => f.code)
      .join(", ")
      .replaceAll("-", " ");
  return html`
  <div class="scroll"><table>
    <caption>${m.material}</caption>
    <thead><tr><th scope="col">Specimen</th><th scope="col" class="n">Strain<br><small>µε</small></th><th scope="col" class="n">Cycles</th><th scope="col" class="n">Modulus<br><small>MPa</small></th><th scope="col">Remark</th></tr></thead>
    <tbody>${m.points.map(p => {
      const specimen = specimens[p.specimen];
      const modulus = specimen.history?.initialModulus ?? specimen.initialModulus;
      return html`
      <tr><th scope="row">${p.name}</th><td class="n">${figures(p.strain * 1e6)}</td><td class="n">${p.runOut ? "> " : ""}${count(p.cycles)}</td><td class="n">${modulus === null ? "–" : figures(modulus / 1e6)}</td>
        <td>${p.setAside !== null ? `set aside: ${p.setAside}` : flags(p.name)}</td></tr>`;
    })}</tbody>
  </table></div>`;
}

function methodPart({probability}: FatigueResult): Html {
  return html`<section><h2>Method</h2><p>lg N = A₀ + A₁·lg ε. By regression over the failed specimens as EN 12697-24 has it, with ε₆, its half width Δε₆ at two standard errors, and the residual scatter; and by maximum likelihood
  over all of them, run-outs as lives that are longer than seen, which without run-outs is the same line. Intervals by Student’s t and by the likelihood ratio so scaled, ${percent(probability)}. Strain from displacement and
  shape by beam theory (annexes A and D). Nothing is left out of a line but what a person set aside.</p></section>`;
}
