import {createHash} from "node:crypto";
import path from "node:path";
import {curveSummary} from "../engine/section/index.ts";
import {type OutputFile, readText, softwareVersion} from "../node/index.ts";
import type {StiffnessReading} from "../report/index.ts";
import {formatFaults, readStiffness, type StiffnessOutcome} from "../schema/index.ts";
import {toJson} from "./json.ts";
import {deliver, requireOutputs} from "./outputs.ts";
import {reportContext} from "./reportContext.ts";
import type {StiffnessFlags} from "./stiffness.ts";
import {BadInput, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

/** The file that was read, and what was to be said of it. */
interface Input {
  readonly file: string;
  readonly text: string;
  readonly sha256: string;
  readonly warnings: StiffnessOutcome["warnings"];
}

export async function runStiffness(given: string, flags: StiffnessFlags, terminal: Terminal): Promise<void> {
  requireOutputs(flags.report, undefined);
  const text = readText(given);
  const file = path.basename(given);
  const {name = path.basename(file, path.extname(file)), model, shift, referenceC} = flags;
  const outcome = readStiffness(text, file, {model, shift, reference_temperature_C: referenceC});
  if (outcome.kind === "faults") throw new BadInput(faultsText(outcome, given));
  const {warnings} = outcome;
  if (warnings.length > 0) terminal.say(`${warningText(warnings)}\n`);
  const input: Input = {file, text, sha256: createHash("sha256").update(text).digest("hex"), warnings};
  const reading: StiffnessReading = {name, shown: outcome.read};
  const report = await import("../report/index.ts");
  const answer = flags.json ? stiffnessJson(reading, input, report) : report.stiffnessTable(reading, terminal);
  deliver(await reportFile(reading, input, flags, report), answer, terminal);
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  reading: StiffnessReading,
  {file, text, sha256, warnings}: Input,
  flags: StiffnessFlags,
  {stiffnessReport}: Report,
): Promise<OutputFile[]> {
  if (flags.report === undefined) return [];
  const context = await reportContext({
    inputHash: sha256,
    sources: {[file]: text},
    warnings: warnings.map(w => `${w.problem}; found ${w.found}, accepted ${w.accepted}`),
  });
  return [{path: flags.report, text: stiffnessReport(reading, context)}];
}

function stiffnessJson({name, shown}: StiffnessReading, {file, sha256, warnings}: Input, report: Report): string {
  const {USUAL_FREQUENCY: frequency, LOADING_TIMES: times, TOLD_TEMPERATURES: temperatures} = report;
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {file, sha256, warnings},
    units:
      "SI: Pa, Hz, s, J/mol; temperatures in °C, differences in K; angles in radians; lg is to base 10. beta null: infinite, no dashpot.",
    name,
    ...shown,
    summary: curveSummary(shown, {temperatures, frequency, times}),
  });
}

function faultsText({faults, warnings}: StiffnessOutcome & {readonly kind: "faults"}, file: string): string {
  return [formatFaults(faults, {fileName: file}), warningText(warnings)]
    .filter(text => text !== "")
    .join("\n")
    .trimEnd();
}
