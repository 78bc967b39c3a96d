/** Ranges of inputs as they are asked for: PATH=FROM:TO[:COUNT]. */
import {type SurveyAxis, surveyAxis, USUAL_COUNT} from "../compute/index.ts";
import type {Variations} from "../schema/index.ts";

export type AskedAxis =
  | {readonly kind: "axis"; readonly axis: SurveyAxis}
  | {readonly kind: "fault"; readonly fault: string};

/** @param flag as the user knows it: --x */
export function readAxis(flag: string, text: string, variations: Variations): AskedAxis {
  const fault = (problem: string, need: string): AskedAxis => ({
    kind: "fault",
    fault: `${flag} ${text}: ${problem}\n  ${need}`,
  });
  const form = "accepted: PATH=FROM:TO or PATH=FROM:TO:COUNT, such as section.joint.spacing_m=3:6";
  const split = text.lastIndexOf("="); // names may hold one
  if (split < 0) return fault("there is no =", form);
  const name = text.slice(0, split).trim();
  const parts = text.slice(split + 1).split(":");
  if (parts.length < 2 || parts.length > 3) return fault(`${parts.length} numbers after the =`, form);
  const wrong = parts.find(part => Number.isNaN(toNumber(part)));
  if (wrong !== undefined) return fault(`${JSON.stringify(wrong.trim())} is not a number`, form);
  const [from, to, count = USUAL_COUNT] = parts.map(toNumber);
  const outcome = surveyAxis(variations, {name, from, to, count});
  return outcome.kind === "axis" ? outcome : fault(outcome.problem, outcome.need);
}

function toNumber(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text);
}
