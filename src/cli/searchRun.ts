import {availableParallelism} from "node:os";
import {computeSearch, FIXED_SPREAD, hasFixedSpread, type SearchPlan, searchPlan} from "../compute/index.ts";
import {type OutputFile, requireWritable, softwareVersion} from "../node/index.ts";
import type {SearchCase} from "../report/index.ts";
import {faultLine} from "../schema/index.ts";
import {toJson} from "./json.ts";
import {deliver} from "./outputs.ts";
import {openShownPointLives, requireGoodPoints, withBadPoints} from "./pointLives.ts";
import {reportContext} from "./reportContext.ts";
import type {SearchFlags} from "./search.ts";
import {BadInput, type GoodVariedStudy, loadVariedStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runSearch(file: string, flags: SearchFlags, terminal: Terminal): Promise<void> {
  const study = loadVariedStudy(file, flags.laws);
  const plan = requirePlan(study, flags);
  for (const output of [flags.report, flags.csv, flags.run]) if (output !== undefined) requireWritable(output);
  requireGoodPoints(study, plan.points);
  if (flags.reliability !== undefined) requireFollowing(study, plan);
  const warnings = warningText(study.read.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  const one = await searched({study, plan, flags, terminal});
  const report = await import("../report/index.ts");
  const files = [...(await reportFile(report, one, study, flags)), ...csvFile(report, one, flags)];
  deliver(files, flags.json ? searchJson(one, study) : report.searchTable(one, terminal), terminal);
}

/** @throws BadInput with all faults of the options */
function requirePlan({file}: GoodVariedStudy, {target, layer, from, to, step, treatment}: SearchFlags): SearchPlan {
  const outcome = searchPlan(file.variations, {target, layer, from, to, step, treatments: treatment});
  if (outcome.kind === "plan") return outcome.plan;
  const lines = outcome.faults.map(
    ({option, found, problem, need}) =>
      `--${option} ${found}: ${problem}${need === null ? "" : `\n  accepted: ${need}`}`,
  );
  throw new BadInput(lines.join("\n"));
}

/** @throws BadInput */
function requireFollowing({file}: GoodVariedStudy, plan: SearchPlan): void {
  if (!withBadPoints(() => hasFixedSpread(file.variations, plan))) return;
  throw new BadInput(`uncertainty: ${plan.input.name}: ${FIXED_SPREAD.problem}\n  accepted: ${FIXED_SPREAD.need}`);
}

interface Job {
  readonly study: GoodVariedStudy;
  readonly plan: SearchPlan;
  readonly flags: SearchFlags;
  readonly terminal: Terminal;
}

async function searched({study, plan, flags, terminal}: Job): Promise<SearchCase> {
  const {name, accuracy: own} = study.read.study;
  const accuracy = flags.accuracy === undefined ? own : flags.accuracy / 100;
  const sampling =
    flags.reliability === undefined ? undefined : {reliability: flags.reliability / 100, solutions: flags.sections};
  const computer = openShownPointLives({
    study,
    treatments: plan.computed,
    accuracy,
    command: "search",
    inputs: [plan.input.name],
    sampling,
    runFile: flags.run,
    workers: flags.workers ?? availableParallelism(),
    terminal,
  });
  try {
    const found = await computeSearch({plan, sampling, computer});
    return {study: name, accuracy, ...found};
  } finally {
    await computer.close();
  }
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  {searchReport, searchWarnings}: Report,
  one: SearchCase,
  {file, read}: GoodVariedStudy,
  {report}: SearchFlags,
): Promise<OutputFile[]> {
  if (report === undefined) return [];
  const context = await reportContext({
    inputHash: file.hash,
    sources: {[read.inputs.fileName]: file.text},
    warnings: [...read.warnings.map(faultLine), ...searchWarnings(one)],
  });
  return [{path: report, text: searchReport(one, context)}];
}

function csvFile({searchCsv}: Report, one: SearchCase, {csv}: SearchFlags): OutputFile[] {
  return csv === undefined ? [] : [{path: csv, text: searchCsv(one)}];
}

function searchJson(one: SearchCase, {file, read}: GoodVariedStudy): string {
  const {treatments, outcomes, steps, sampling, ...rest} = one;
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {file: read.inputs.fileName, sha256: file.hash, warnings: read.warnings},
    units:
      "thicknesses in mm; lives in years; present worth in the study's currency per m²; accuracy, reliability and standard errors of ln life as plain numbers (0.01 is 1 %)",
    ...rest,
    sampling: sampling && {
      reliability: sampling.reliability,
      sections: sampling.sections,
      lives: [...sampling.samples]
        .sort((a, b) => a[0] - b[0])
        .map(([step, {years, errors}]) => ({thickness_mm: steps[step], years, errors})),
    },
    treatments: treatments.map(({name, found}) => ({
      name,
      least_mm: found.least === null ? null : steps[found.least],
      best_mm: found.best === null ? null : steps[found.best],
      falls: found.falls.map(({from, to}) => ({from_mm: steps[from], to_mm: steps[to]})),
      lives: found.known.map(({step, life}) => ({thickness_mm: steps[step], years: life})),
    })),
    points: [...outcomes]
      .sort((a, b) => a[0] - b[0])
      .map(([step, outcome]) => ({thickness_mm: steps[step], ...outcome})),
  });
}
