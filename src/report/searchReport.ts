/** A search for the least thickness: report, terminal table and CSV. */

import {frontierChart, searchChart} from "./charts/index.ts";
import {FITTED, type FigureFrame, figureFrame, legend} from "./figureFrame.ts";
import {type Html, html} from "./html.ts";
import {paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";
import {
  costsCaption,
  lifeWords,
  livesCaption,
  pricedDesigns,
  type SearchCase,
  safetySentence,
  searchAnswer,
  searchDots,
  searchMethod,
  searchRows,
  targetText,
} from "./searched.ts";
import type {TerminalOptions} from "./terminalText.ts";

export function searchReport(one: SearchCase, context: ReportContext): string {
  const frame = figureFrame(context.document);
  const {figure, canvas} = frame;
  const picture = {dots: searchDots(one), target: one.target, label: one.layer, life: lifeWords(one)};
  const chart = searchChart(picture, canvas(FITTED));
  return page({
    name: one.study,
    title: `${one.study}: least thickness`,
    kicker: `Least thickness for ${targetText(one)}`,
    context,
    answer: searchAnswer(one),
    parts: [
      html`<section>${rowTable(one)}${figure(
        html`${legend(one.treatments.map(t => t.name))}<div class="fit">${chart}</div>`,
        livesCaption(one),
      )}</section>`,
      ...frontierPart(one, frame),
      methodPart(one),
      listPart("Warnings", context.warnings),
      sourcesPart(context),
    ],
  });
}

function rowTable(one: SearchCase): Html {
  return html`
  <div class="scroll"><table>
    <caption>Least ${one.layer} for ${targetText(one)}, with what lies within it. Where none reaches the target the life is the longest.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">Least</th><th scope="col" class="n">Life<br><small>years</small></th><th scope="col" class="n">One step less<br><small>years</small></th><th scope="col">Remarks</th></tr></thead>
    <tbody>${searchRows(one).map(r => html`<tr><th scope="row">${r.name}</th><td class="n">${r.least}</td><td class="n">${r.life}</td><td class="n">${r.below}</td><td>${r.remark}</td></tr>`)}</tbody>
  </table></div>`;
}

/** What a longer life costs; nothing without prices. */
function frontierPart(one: SearchCase, {figure, canvas}: FigureFrame): Html[] {
  const priced = pricedDesigns(one);
  if (one.prices === null || priced.designs.length === 0) return [];
  const chart = frontierChart({...priced, target: one.target, currency: one.prices.currency}, canvas(FITTED));
  return [
    html`<section><h2>What a longer life costs</h2>${figure(
      html`${legend(one.treatments.map(t => t.name))}<div class="fit">${chart}</div>`,
      costsCaption(one, priced.dearer),
    )}</section>`,
  ];
}

function methodPart(one: SearchCase): Html {
  return html`<section><h2>Method</h2><p>${searchMethod(one)} ${safetySentence(one)}</p></section>`;
}

export function searchTable(one: SearchCase, options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const {headline, details} = searchAnswer(one);
  const rows = searchRows(one);
  return text([
    ...wrapped([one.study], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...table(
      ["Treatment", "least", "years", "one step less"],
      rows.map(r => [r.name, r.least, r.life, r.below]),
      {width, dim},
    ),
    "",
    ...wrapped(
      rows.map(r => `${r.name}: ${r.remark}`),
      width,
    ),
    ...wrapped([safetySentence(one)], width),
  ]);
}
