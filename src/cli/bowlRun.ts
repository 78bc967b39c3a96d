import path from "node:path";
import {backAnalyse} from "../engine/backanalysis/index.ts";
import {inputHash, type OutputFile, readText, softwareVersion} from "../node/index.ts";
import type {BowlCase} from "../report/index.ts";
import {type BowlOutcome, readBowl} from "../schema/deflections/index.ts";
import {formatFaults} from "../schema/index.ts";
import type {BowlFlags} from "./bowl.ts";
import {toJson} from "./json.ts";
import {deliver, requireOutputs} from "./outputs.ts";
import {reportContext} from "./reportContext.ts";
import {BadInput, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runBowl(file: string, flags: BowlFlags, terminal: Terminal): Promise<void> {
  requireOutputs(flags.report, undefined);
  const text = readText(file);
  const read = goodBowl(file, text);
  const warnings = warningText(read.warnings);
  if (flags.check) {
    terminal.print(warnings || "No faults, no warnings.\n");
    return;
  }
  if (warnings) terminal.say(`${warnings}\n`);
  const bowl = caseOf(read);
  const report = await import("../report/index.ts");
  const outputs = await reportFile(report, bowl, {file, text, read, flags});
  deliver(outputs, flags.json ? bowlJson(bowl, {file, text, read}) : report.bowlTable(bowl, terminal), terminal);
}

type GoodBowl = Extract<BowlOutcome, {kind: "bowl"}>;

/** @throws BadInput with every fault and warning */
function goodBowl(file: string, text: string): GoodBowl {
  const read = readBowl(text);
  if (read.kind === "bowl") return read;
  const blocks = [formatFaults(read.faults, {fileName: file}), warningText(read.warnings)];
  throw new BadInput(
    blocks
      .filter(block => block !== "")
      .join("\n")
      .trimEnd(),
  );
}

function caseOf({document, test}: GoodBowl): BowlCase {
  return {
    name: document.name,
    source: document.source ?? null,
    temperatures: document.layers.map(l => l.temperature_C ?? null),
    result: backAnalyse(test),
  };
}

interface Given {
  readonly file: string;
  readonly text: string;
  readonly read: GoodBowl;
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  {bowlReport}: Report,
  bowl: BowlCase,
  {file, text, read, flags}: Given & {readonly flags: BowlFlags},
): Promise<OutputFile[]> {
  if (flags.report === undefined) return [];
  const context = await reportContext({
    inputHash: inputHash(text, {}),
    sources: {[path.basename(file)]: text},
    warnings: read.warnings.map(w => `${w.path}: ${w.problem}; found ${w.found}, accepted ${w.accepted}`),
  });
  return [{path: flags.report, text: bowlReport(bowl, context)}];
}

function bowlJson({name, source, temperatures, result}: BowlCase, {file, text, read}: Given): string {
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {file: path.basename(file), sha256: inputHash(text, {}), warnings: read.warnings},
    units:
      "SI: m, Pa; temperatures in °C; shares and ratios as plain numbers. Ends of intervals that are null: none within the range searched.",
    name,
    source,
    temperatures,
    ...result,
  });
}
