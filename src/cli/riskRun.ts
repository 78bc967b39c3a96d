import {availableParallelism} from "node:os";
import {computeRisk} from "../compute/index.ts";
import type {RiskResult} from "../engine/uncertainty/index.ts";
import {
  type OutputFile,
  openLifePool,
  openRun,
  requireWritable,
  samplingHash,
  softwareVersion,
  writeFiles,
} from "../node/index.ts";
import {riskCsv, riskReport, riskTable} from "../report/index.ts";
import {faultLine} from "../schema/index.ts";
import {toJson} from "./json.ts";
import {deliver} from "./outputs.ts";
import {progressLine} from "./progress.ts";
import {reportContext} from "./reportContext.ts";
import type {RiskFlags} from "./risk.ts";
import {type GoodStudy, type GoodVariedStudy, loadVariedStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runRisk(path: string, flags: RiskFlags, terminal: Terminal): Promise<void> {
  const study = loadVariedStudy(path, flags.laws);
  for (const file of [flags.report, flags.csv]) if (file !== undefined) requireWritable(file);
  const warnings = warningText(study.read.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  const about = await context(study);
  const result = await sampled(study, flags, terminal, picture => {
    if (flags.report === undefined) return;
    writeFiles([{path: flags.report, text: riskReport(picture, about)}]);
    terminal.say(`A picture from ${picture.samples.length} samples is in ${flags.report}\n`);
  });
  const files: OutputFile[] = [];
  if (flags.report !== undefined) files.push({path: flags.report, text: riskReport(result, about)});
  if (flags.csv !== undefined) files.push({path: flags.csv, text: riskCsv(result)});
  deliver(files, flags.json ? riskJson(result, study) : riskTable(result, terminal), terminal);
}

async function sampled(
  {file, read}: GoodVariedStudy,
  flags: RiskFlags,
  terminal: Terminal,
  onPicture: (picture: RiskResult) => void,
): Promise<RiskResult> {
  const settings = {
    command: "risk",
    seed: read.risk.seed,
    samples: read.risk.mostSamples,
    solutions: read.risk.mostSolutions,
    "uncertain inputs": samplingHash(read.risk),
  };
  const header = {software: softwareVersion(), inputs: file.hash, settings};
  const run = flags.run === undefined ? undefined : openRun(flags.run, header);
  const progress = progressLine(terminal);
  try {
    return await computeRisk(read.study, read.risk, file.variations, {
      openPool: openLifePool,
      workers: flags.workers ?? availableParallelism(),
      run,
      onPicture,
      signal: terminal.signal,
      onProgress: ({doing, done, total}) => progress(total > 0 ? done / total : 0, `${doing}, ${done} of ${total}`),
    });
  } finally {
    terminal.clearStatus();
    run?.close();
  }
}

function context({file, read}: GoodStudy) {
  return reportContext({
    inputHash: file.hash,
    sources: {[read.inputs.fileName]: file.text},
    warnings: read.warnings.map(faultLine),
  });
}

function riskJson(result: RiskResult, {file, read}: GoodStudy): string {
  const {study: _, ...told} = result;
  return toJson({
    software: `Seamwright ${softwareVersion()}`,
    input: {file: read.inputs.fileName, sha256: file.hash},
    units: "SI: years for lives, shares and ratios as plain numbers; depths as part of the overlay",
    ...told,
  });
}
