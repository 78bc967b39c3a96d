/** Ranges of inputs as they are asked for: PATH=FROM:TO[:COUNT]. */
import {axisValues} from "../engine/survey/index.ts";
import {findInput, type Variations, type VariedInput} from "../schema/index.ts";

export interface AskedAxis {
  readonly input: VariedInput;
  readonly values: readonly number[]; // in the input's unit
  readonly log: boolean; // equal ratios
}

export type AxisOutcome =
  | {readonly kind: "axis"; readonly axis: AskedAxis}
  | {readonly kind: "fault"; readonly fault: string};

/** Points on an axis when nothing is said. */
export const USUAL_COUNT = 20;
const LEAST_COUNT = 2;
/** The study is read at every point before the first is computed: 2500 readings take ten seconds. */
const MOST_COUNT = 50;

/** From so many times the first value on, an axis goes by equal ratios. */
const LOG_FROM = 8;

/** @param flag as the user knows it: --x */
export function readAxis(flag: string, text: string, variations: Variations): AxisOutcome {
  const fault = (problem: string, need: string): AxisOutcome => ({
    kind: "fault",
    fault: `${flag} ${text}: ${problem}\n  ${need}`,
  });
  const form = "accepted: PATH=FROM:TO or PATH=FROM:TO:COUNT, such as section.joint.spacing_m=3:6";
  const split = text.lastIndexOf("="); // names may hold one
  if (split < 0) return fault("there is no =", form);
  const name = text.slice(0, split).trim();
  const parts = text.slice(split + 1).split(":");
  if (parts.length < 2 || parts.length > 3) return fault(`${parts.length} numbers after the =`, form);
  const [from, to] = parts.map(toNumber);
  const wrong = parts.find(part => Number.isNaN(toNumber(part)));
  if (wrong !== undefined) return fault(`${JSON.stringify(wrong.trim())} is not a number`, form);
  if (!(from < to)) return fault(`it does not go up, from ${from} to ${to}`, "accepted: FROM below TO");
  const count = parts.length === 3 ? toNumber(parts[2]) : USUAL_COUNT;
  if (!Number.isInteger(count) || count < LEAST_COUNT || count > MOST_COUNT)
    return fault(`${count} points`, `accepted: a whole number from ${LEAST_COUNT} to ${MOST_COUNT}`);
  const found = findInput(variations, name);
  if (found.kind === "none")
    return fault(found.problem, found.suggestion ?? "accepted: the path of a number of the study");
  const log = from > 0 && to / from >= LOG_FROM;
  return {kind: "axis", axis: {input: found.input, values: rounded(axisValues(from, to, {count, log})), log}};
}

function toNumber(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text);
}

const DIGITS = 12; // keeps 0.1 + 0.2 out of keys and tables

function rounded(values: readonly number[]): number[] {
  return values.map(v => Number(v.toPrecision(DIGITS)));
}
