/** Ranges over which inputs are varied. */
import {axisValues} from "../../engine/survey/index.ts";
import {findInput, type Variations, type VariedInput} from "../../schema/index.ts";

export interface SurveyAxis {
  readonly input: VariedInput;
  readonly values: readonly number[]; // in the input's unit
  readonly log: boolean; // equal ratios
}

export interface AskedRange {
  readonly name: string; // of the input: its path in the study, or a special one
  readonly from: number; // in the input's unit
  readonly to: number; // in the input's unit
  readonly count: number; // points, both ends counted
}

export type AxisOutcome =
  | {readonly kind: "axis"; readonly axis: SurveyAxis}
  | {readonly kind: "fault"; readonly problem: string; readonly need: string};

/** Points on an axis when nothing is said. */
export const USUAL_COUNT = 20;
const LEAST_COUNT = 2;
/** The study is read at every point before the first is computed: 2500 readings take ten seconds. */
const MOST_COUNT = 50;

/** From so many times the first value on, an axis goes by equal ratios. */
const LOG_FROM = 8;

export function surveyAxis(variations: Variations, {name, from, to, count}: AskedRange): AxisOutcome {
  const fault = (problem: string, need: string): AxisOutcome => ({kind: "fault", problem, need});
  if (!(from < to)) return fault(`it does not go up, from ${from} to ${to}`, "accepted: FROM below TO");
  if (!Number.isInteger(count) || count < LEAST_COUNT || count > MOST_COUNT)
    return fault(`${count} points`, `accepted: a whole number from ${LEAST_COUNT} to ${MOST_COUNT}`);
  const found = findInput(variations, name);
  if (found.kind === "none")
    return fault(found.problem, found.suggestion ?? "accepted: the path of a number of the study");
  const log = from > 0 && to / from >= LOG_FROM;
  return {kind: "axis", axis: {input: found.input, values: rounded(axisValues(from, to, {count, log})), log}};
}

const DIGITS = 12; // keeps 0.1 + 0.2 out of keys and tables

function rounded(values: readonly number[]): number[] {
  return values.map(v => Number(v.toPrecision(DIGITS)));
}
