/** A search for the least thickness: report, terminal table and CSV. */

import {searchChart} from "./charts/index.ts";
import {csvText} from "./csv.ts";
import {FITTED, figureFrame, legend} from "./figureFrame.ts";
import {LIFE_CAP, percent, years} from "./format.ts";
import {type Html, html} from "./html.ts";
import {paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";
import {type SearchCase, searchAnswer, searchDots, searchRows} from "./searched.ts";
import type {TerminalOptions} from "./terminalText.ts";

export function searchReport(one: SearchCase, context: ReportContext): string {
  const {figure, canvas} = figureFrame(context.document);
  const chart = searchChart({dots: searchDots(one), target: one.target, label: one.layer}, canvas(FITTED));
  return page({
    name: one.study,
    title: `${one.study}: least thickness`,
    kicker: `Least thickness for ${years(one.target)}`,
    context,
    answer: searchAnswer(one),
    parts: [
      html`<section>${rowTable(one)}${figure(
        html`${legend(one.treatments.map(t => t.name))}<div class="fit">${chart}</div>`,
        `Governing life against thickness at the thicknesses that were computed. Dashed: the target. Lives of more than ${years(LIFE_CAP)} are drawn there.`,
      )}</section>`,
      methodPart(one),
      listPart("Warnings", context.warnings),
      sourcesPart(context),
    ],
  });
}

function rowTable(one: SearchCase): Html {
  return html`
  <div class="scroll"><table>
    <caption>Least ${one.layer} for ${years(one.target)}, with what lies within it. Where none reaches the target the life is the longest.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">Least</th><th scope="col" class="n">Life<br><small>years</small></th><th scope="col" class="n">One step less<br><small>years</small></th><th scope="col">Remarks</th></tr></thead>
    <tbody>${searchRows(one).map(r => html`<tr><th scope="row">${r.name}</th><td class="n">${r.least}</td><td class="n">${r.life}</td><td class="n">${r.below}</td><td>${r.remark}</td></tr>`)}</tbody>
  </table></div>`;
}

const METHOD =
  "A few thicknesses over the whole range are computed, then the first gap in which the target is passed is halved down to neighbouring steps: the one below misses the target. One more step above is computed. A peak between two thicknesses that both miss stays unseen";

function methodPart({accuracy}: SearchCase): Html {
  return html`<section><h2>Method</h2><p>${METHOD}. Accuracy ${percent(accuracy)} in tip strain. The life is the single best estimate: there is no safety in it.</p></section>`;
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
  ]);
}

export function searchCsv(one: SearchCase): string {
  return csvText(
    ["treatment", "thickness_mm", "years", "mechanism"],
    searchDots(one).map(d => [one.treatments[d.treatment]!.name, d.thickness, d.life, d.mechanism]),
  );
}
