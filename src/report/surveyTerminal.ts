/** A survey for a terminal: the answer, a coarse table of the map, why. */

import {bulleted, paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import {type SurveyCase, surveyView} from "./survey.ts";
import {thinned} from "./surveyReport.ts";
import {interpolationSentence, lifeCell, ratioWords, regionReason, surveyAnswer, valueText} from "./surveyWords.ts";
import type {TerminalOptions} from "./terminalText.ts";

export function surveyTable(one: SurveyCase, show: "ratio" | "life", options: TerminalOptions): string {
  const {width, bold, dim} = paints(options);
  const view = surveyView(one);
  const {x, y, survey, treatments} = one;
  const columns = thinned(survey.x.values.length);
  const rows = thinned(survey.y.values.length)
    .toReversed()
    .map(j => [
      valueText(y, survey.y.values[j]!),
      ...columns.map(i => {
        const {judgement} = view.points[j * survey.x.values.length + i]!;
        if (!judgement) return "?";
        return show === "ratio" ? ratioWords(judgement) : lifeCell(judgement.treated.years);
      }),
    ]);
  const {headline, details} = surveyAnswer(one, view);
  const shown =
    show === "ratio"
      ? `Life with “${treatments[1]}” over life with “${treatments[0]}”`
      : `Life with “${treatments[1]}”, years`;
  return text([
    ...wrapped([one.study], width).map(bold),
    ...wrapped([headline, ...details], width),
    "",
    ...wrapped([`${shown}. Down: ${y.label}; across: ${x.label}`], width),
    ...table(["", ...columns.map(i => valueText(x, survey.x.values[i]!))], rows, {width, dim}),
    ...bulleted(
      view.regions.map(r => regionReason(r, one)),
      width,
    ),
    "",
    ...wrapped([interpolationSentence(one)], width),
  ]);
}
