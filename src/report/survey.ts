/** A survey of two inputs read for people: what is shown where, in numbers and words. Shared by report, terminal and files. */

import {
  evenly,
  type FieldPair,
  fieldOf,
  type Judgement,
  judgedAt,
  type MissByAxis,
  type Panorama,
  panorama,
  type Region,
  regionsOf,
  type Survey,
  variationAlong,
} from "../engine/survey/index.ts";
import {LIFE_CAP} from "./format.ts";
import {pointWarnings} from "./pointWarnings.ts";
import type {UnitSystem} from "./units.ts";

/** An input along an axis, as it is told. */
export interface SurveyInput {
  readonly name: string; // path in the study
  readonly words: string; // for a sentence
  readonly label: string; // for an axis, with the unit
  readonly unit: string; // of its values; "–" for none
  readonly present: number; // in the study as it is
}

export interface SurveyCase {
  readonly study: string; // name
  readonly x: SurveyInput;
  readonly y: SurveyInput;
  readonly treatments: readonly [control: string, treated: string];
  readonly interlayer: boolean; // the treatment has one
  readonly accuracy: number; // [–]
  readonly survey: Survey;
  readonly missed: MissByAxis | null; // by interpolation, at the last nodes
  readonly computed: number; // points
  readonly finished: boolean;
  readonly units?: UnitSystem | undefined; // of words; default: metric
}

/** Columns and rows of the maps: a cell is about four pixels. */
const FINE = 141;

/** A place told as a number of the table. */
export interface SurveyPoint {
  readonly x: number;
  readonly y: number;
  readonly kind: "computed" | "interpolated" | "failed";
  readonly judgement: Judgement | null; // null: could not be computed
}

export interface SurveyView {
  readonly fields: FieldPair;
  readonly fine: Panorama;
  readonly regions: readonly Region[]; // of the fine panorama, largest first; tiny ones left out
  readonly points: readonly SurveyPoint[]; // of the whole grid, row by row
  readonly present: Judgement | null; // null: outside
  readonly best: SurveyPoint | null; // of those with a ratio or its bound
  readonly worst: SurveyPoint | null;
  readonly harm: number; // share of the area where the ratio is below 1 [–]
  readonly cheaper: number | null; // share of the area where the present worth is below the control's [–]; null: no prices
  readonly alongX: number | null; // by how much the ratio varies at most [–]
  readonly alongY: number | null;
  readonly failures: readonly string[];
}

/** Smaller parts are not told: their shape is not known [–]. */
const LEAST_SHARE = 0.004;

export function surveyView({survey, x, y}: SurveyCase): SurveyView {
  const fields = {control: fieldOf(survey, 0), treated: fieldOf(survey, 1)};
  const fine = panorama(fields, {x: evenly(survey.x, FINE), y: evenly(survey.y, FINE), longest: LIFE_CAP});
  const points = pointsOf(survey, fields);
  const told = points.filter(p => p.judgement !== null && p.judgement.kind !== "none");
  const byRatio = told.toSorted((a, b) => a.judgement!.ratio - b.judgement!.ratio);
  const cells = fine.cells.flat();
  return {
    fields,
    fine,
    regions: regionsOf(fine).filter(r => r.share >= LEAST_SHARE),
    points,
    present: judgedAt(survey, fields, {x: x.present, y: y.present, longest: LIFE_CAP}),
    best: byRatio.at(-1) ?? null,
    worst: byRatio[0] ?? null,
    harm: cells.filter(c => c && c.ratio < 1).length / cells.length,
    cheaper: cheaperShare(cells),
    alongX: variationAlong(fine, "x"),
    alongY: variationAlong(fine, "y"),
    failures: failuresOf(survey),
  };
}

function cheaperShare(cells: readonly (Judgement | null)[]): number | null {
  const priced = cells.filter(c => c?.cost != null);
  return priced.length === 0 ? null : priced.filter(c => c!.cost! < 1).length / priced.length;
}

function pointsOf(survey: Survey, fields: FieldPair): SurveyPoint[] {
  const whole = panorama(fields, {x: survey.x.values, y: survey.y.values, longest: LIFE_CAP});
  return whole.cells.flatMap((row, j) =>
    row.map((judgement, i): SurveyPoint => {
      const outcome = survey.outcome(i, j);
      const kind = outcome === undefined ? "interpolated" : "failed" in outcome ? "failed" : "computed";
      return {x: survey.x.values[i]!, y: survey.y.values[j]!, kind, judgement};
    }),
  );
}

/** What the computed points told, each once. */
export function surveyWarnings({survey: {level, outcome}}: SurveyCase): string[] {
  return pointWarnings(level.y.flatMap(j => level.x.flatMap(i => outcome(i, j) ?? [])));
}

function failuresOf({level, outcome}: Survey): string[] {
  const all = level.y.flatMap(j =>
    level.x.flatMap(i => {
      const point = outcome(i, j);
      return point && "failed" in point ? [point.failed] : [];
    }),
  );
  return [...new Set(all)];
}
