/** The report of a survey: where a treatment pays, over two inputs. */

import type {Region} from "../engine/survey/index.ts";
import {mapKey, surveyChart} from "./charts/index.ts";
import {FITTED, type FigureFrame, figureFrame, HALF} from "./figureFrame.ts";
import {LIFE_CAP, percent, ratio, years, yearsNumber} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";
import {type SurveyCase, type SurveyView, surveyView} from "./survey.ts";
import {costMap, lifeMaps, ratioMap} from "./surveyMaps.ts";
import {interpolationSentence, lifeCell, ratioWords, regionReason, surveyAnswer, valueText} from "./surveyWords.ts";

export function surveyReport(one: SurveyCase, context: ReportContext): string {
  const view = surveyView(one);
  const frame = figureFrame(context.document);
  return page({
    name: one.study,
    title: `${one.study}: where it pays`,
    kicker: `Where “${one.treatments[1]}” pays`,
    context,
    answer: surveyAnswer(one, view),
    parts: [
      html`<section>${ratioFigure(one, view, frame)}${regionList(one, view)}</section>`,
      html`<section><h2>Lives</h2>${lifeFigure(one, view, frame)}</section>`,
      ...costPart(one, view, frame),
      html`<section><h2>Numbers</h2>${numberTable(one, view)}</section>`,
      methodPart(one),
      listPart("Warnings", [...context.warnings, ...view.failures.map(f => `Some points could not be computed. ${f}`)]),
      sourcesPart(context),
    ],
  });
}

const MAP_HEIGHT = 420; // [px]

function ratioFigure(one: SurveyCase, view: SurveyView, {figure, canvas}: FigureFrame): Html {
  const map = ratioMap(one, view, {height: MAP_HEIGHT});
  const bound = map.nodes.some(n => n.kind === "bound");
  const caption =
    `Life with “${one.treatments[1]}” over life with “${one.treatments[0]}”, whatever mechanism governs. Dots: computed points. ${
      view.harm > 0 && view.harm < 1 ? "Thick line: ×1; on its orange side the treatment does harm. " : ""
    }${view.regions.length > 1 ? "Dashed lines part the numbered regions told below. " : ""}${
      bound
        ? `Triangles: a life of more than ${years(LIFE_CAP)}, which is no prediction; of one of the two the ratio is a bound, of both (grey) there is none. `
        : ""
    }`.trim();
  return figure(html`${mapKey(map.scale)}<div class="fit">${surveyChart(map, canvas(FITTED))}</div>`, caption);
}

function regionList(one: SurveyCase, {regions}: SurveyView): Html {
  return html`
  <div class="scroll"><table>
    <caption>Why: regions of the map, the largest first.</caption>
    <thead><tr><th scope="col" class="n">Region</th><th scope="col">What rules there</th><th scope="col" class="n">Ratio</th><th scope="col" class="n">Treated life<br><small>years</small></th><th scope="col" class="n">Of the map</th></tr></thead>
    <tbody>${regions.map((r, k) => html`<tr><th scope="row" class="n">${k + 1}</th><td>${regionReason(r, one)}</td><td class="n">${ratioRange(r)}</td><td class="n">${lifeRange(r)}</td><td class="n">${percent(Math.max(0.01, Math.round(r.share * 100) / 100))}</td></tr>`)}</tbody>
  </table></div>`;
}

export function ratioRange({effect, cause, ratio: [low, high]}: Region): string {
  if (effect === "waste") return "–";
  return `${cause === "nothing" ? "> " : ""}${ratio(low)} – ${ratio(high)}`;
}

export function lifeRange({life: [low, high]}: Region): string {
  if (low > LIFE_CAP) return `> ${LIFE_CAP}`;
  return `${yearsNumber(low)} – ${lifeCell(high)}`;
}

const PANEL_HEIGHT = 300; // [px]

function lifeFigure(one: SurveyCase, view: SurveyView, {figure, panel, panels, canvas}: FigureFrame): Html {
  const {maps, open} = lifeMaps(one, view, {height: PANEL_HEIGHT});
  return figure(
    html`${mapKey(maps[0].scale)}${panels(maps.map((map, k) => panel(one.treatments[k]!, surveyChart(map, canvas(HALF)))))}`,
    `Governing life in years, on one scale.${open ? ` Grey: more than ${years(LIFE_CAP)}, or not computed.` : ""}`,
  );
}

/** Where the treatment is the cheaper one. */
function costPart(one: SurveyCase, view: SurveyView, {figure, canvas}: FigureFrame): Html[] {
  const map = costMap(one, view, {height: MAP_HEIGHT});
  if (map === null || view.cheaper === null) return []; // both are null without prices
  const drawn = html`${mapKey(map.scale)}<div class="fit">${surveyChart(map, canvas(FITTED))}</div>`;
  return [
    html`<section><h2>Costs</h2>${figure(drawn, `Present worth of all costs with “${one.treatments[1]}” over that with “${one.treatments[0]}”, at the study’s prices, renewed at the end of each life. ${view.cheaper > 0 && view.cheaper < 1 ? "Thick line: ×1; on its blue side the treatment is the cheaper one. " : ""}Interpolated by its logarithm.`)}</section>`,
  ];
}

const MOST_ROWS = 6; // of the table, and columns

/** So many of a list, evenly, with both ends. */
export function thinned(count: number): number[] {
  const steps = Math.min(count, MOST_ROWS) - 1;
  return [...new Set(Array.from({length: steps + 1}, (_, k) => Math.round((k * (count - 1)) / Math.max(1, steps))))];
}

function numberTable({x, y, survey, treatments}: SurveyCase, {points}: SurveyView): Html {
  const columns = thinned(survey.x.values.length);
  const rows = thinned(survey.y.values.length).toReversed();
  const cell = (i: number, j: number): Html => {
    const {judgement, kind} = points[j * survey.x.values.length + i]!;
    if (!judgement) return html`<td class="n">not computed</td>`;
    const {control, treated} = judgement;
    return html`<td class="n">${kind === "interpolated" ? html`<i>${ratioWords(judgement)}</i>` : ratioWords(judgement)}<br><small>${lifeCell(control.years)} → ${lifeCell(treated.years)}</small></td>`;
  };
  return html`
  <div class="scroll"><table>
    <caption>Ratio, and below it the lives in years with “${treatments[0]}” → “${treatments[1]}”. In italics: interpolated. Down: ${y.label}; across: ${x.label}.</caption>
    <thead><tr><th scope="col"></th>${columns.map(i => html`<th scope="col" class="n">${valueText(x, survey.x.values[i]!)}</th>`)}</tr></thead>
    <tbody>${rows.map(j => html`<tr><th scope="row">${valueText(y, survey.y.values[j]!)}</th>${columns.map(i => cell(i, j))}</tr>`)}</tbody>
  </table></div>`;
}

function methodPart(one: SurveyCase): Html {
  return html`<section><h2>Method</h2><p>${interpolationSentence(one)} Everything else of the study stays as it is, whatever the two inputs are: a thinner overlay is not laid more often, a worse foundation has the same traffic.
  The study’s materials, laws and loads make all lives together too long or too short; the ratio moves less. A cause rules where its own life is less than half of the other’s; a region whose ratios all lie between 0.9 and 1.1 is told as no difference.</p></section>`;
}
