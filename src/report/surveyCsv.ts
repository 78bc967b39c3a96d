/** Lives at all points of a survey as comma-separated values, in the units of the study. */

import {csvText} from "./csv.ts";
import {type SurveyCase, surveyView} from "./survey.ts";

export function surveyCsv(one: SurveyCase): string {
  const heading = [
    one.x.name,
    one.y.name,
    "known_by",
    "control_years",
    "treated_years",
    "control_mechanism",
    "treated_mechanism",
    "ratio",
    "ratio_is",
    "cause",
    "effect",
    "cost_over_control",
  ];
  const rows = surveyView(one).points.map(({x, y, kind, judgement: j}) =>
    j
      ? [
          x,
          y,
          kind,
          j.control.years,
          j.treated.years,
          j.control.mechanism,
          j.treated.mechanism,
          j.ratio,
          j.kind,
          j.cause,
          j.effect,
          j.cost ?? "",
        ]
      : [x, y, kind, "", "", "", "", "", "", "", "", ""],
  );
  return csvText(heading, rows);
}
