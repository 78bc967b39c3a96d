import {studyCosts} from "../engine/cost/index.ts";
import type {LifeResult} from "../engine/life/types.ts";
import type {GoodStudy} from "./study.ts";

/** Stands in the output itself, so that a file found later explains itself; in more words in docs/command-line.md. */
const UNITS =
  "SI: m, N, Pa, kg, s, J, W and their products; temperatures in °C, differences in K; lives and times in years; " +
  "money in the currency of the study, carbon in kg of CO2 equivalent; strains, shares and ratios as plain numbers (0.01 is 1 %). Series of temperatures have a value an hour. " +
  "null: infinite (not reached, full bond), or not computed.";

/** The result of the engine as it is, in one line; typed arrays become lists. */
export function lifeJson(result: LifeResult, {file, read}: GoodStudy, version: string): string {
  return toJson({
    software: `seamwright ${version}`,
    input: {file: read.inputs.fileName, sha256: file.hash, warnings: read.warnings},
    units: UNITS,
    ...result,
    costs: studyCosts(result),
  });
}

/** JSON with typed arrays as lists; numbers that JSON does not have become null, as everywhere in JSON. */
export function toJson(value: unknown): string {
  const plain = (_: string, v: unknown): unknown => (ArrayBuffer.isView(v) ? Array.from(v as Float64Array) : v);
  return `${JSON.stringify(value, plain)}\n`;
}
