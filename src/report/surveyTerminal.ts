/** A survey for a terminal: the answer, a coarse table of the map, why. */

import type {Judgement} from "../engine/survey/index.ts";
import {ratio} from "./format.ts";
import {bulleted, paints, table, text, wrapped} from "./laboratoryTerminal.ts";
import {type SurveyCase, surveyView} from "./survey.ts";
import {thinned} from "./surveyReport.ts";
import {interpolationSentence, lifeCell, ratioWords, regionReason, surveyAnswer, valueText} from "./surveyWords.ts";
import type {TerminalOptions} from "./terminalText.ts";

export type ShownValue = "ratio" | "life" | "cost";

const valueWords: Record<ShownValue, (judgement: Judgement) => string> = {
  ratio: ratioWords,
  life: ({treated}) => lifeCell(treated.years),
  cost: ({cost}) => (cost === null ? "–" : ratio(cost)),
};

export function surveyTable(one: SurveyCase, show: ShownValue, options: TerminalOptions): string {
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
        return valueWords[show](judgement);
      }),
    ]);
  const {headline, details} = surveyAnswer(one, view);
  const shown = {
    ratio: `Life with “${treatments[1]}” over life with “${treatments[0]}”`,
    life: `Life with “${treatments[1]}”, years`,
    cost: `Present worth with “${treatments[1]}” over that with “${treatments[0]}”`,
  }[show];
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
