import path from "node:path";
import type {Command} from "commander";
import {computeLife} from "../compute/index.ts";
import type {LifeResult} from "../engine/life/types.ts";
import {type OutputFile, openLifePool, softwareVersion} from "../node/index.ts";
import {faultLine, fileWord} from "../schema/index.ts";
import {workersOption} from "./flags.ts";
import {lifeJson} from "./json.ts";
import {deliver, requireOutputs} from "./outputs.ts";
import {progressLine} from "./progress.ts";
import {reportContext} from "./reportContext.ts";
import {type GoodStudy, loadStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

interface LifeFlags {
  readonly json?: true;
  readonly report?: string;
  readonly csv?: string;
  readonly laws?: string;
  readonly workers?: number;
}

export function addLife(program: Command, terminal: Terminal): void {
  program
    .command("life")
    .summary("compute the life of every treatment")
    .description(
      "Computes the life of every treatment of a study by each mechanism and prints a table. Progress goes to the error output when that is a terminal.",
    )
    .argument("<study>", "study document, YAML or JSON")
    .option("--json", "print the whole result as JSON, in SI units, instead of the table")
    .option("--report <file.html>", "write a report: one HTML file that stands alone and prints on A4")
    .option(
      "--csv <folder>",
      "write crack fronts against time, a CSV file for each treatment and cause, and what each load is worth",
    )
    .option("--laws <folder>", "take law files from this folder instead of where the study says")
    .addOption(workersOption())
    .addHelpText(
      "after",
      "\nExamples:\n  seamwright life examples/county-road.yaml --report out/county-road.html\n  seamwright life examples/apron.yaml --json > apron.json",
    )
    .action((study: string, flags: LifeFlags) => runLife(study, flags, terminal));
}

async function runLife(file: string, flags: LifeFlags, terminal: Terminal): Promise<void> {
  const {study, result} = await computed(file, flags, terminal);
  // Loaded only now: charts and pages would take their memory and time beside the computation.
  const report = await import("../report/index.ts");
  const files = [...(await reportFile(report, result, study, flags)), ...csvFiles(report, result, flags)];
  const answer = flags.json ? lifeJson(result, study, softwareVersion()) : report.lifeTable(result, terminal);
  deliver(files, answer, terminal);
}

interface Computed {
  readonly study: GoodStudy;
  readonly result: LifeResult;
}

async function computed(file: string, flags: LifeFlags, terminal: Terminal): Promise<Computed> {
  const pool = openLifePool(flags.workers); // first of all: its threads start while the study is read
  try {
    const study = loadStudy(file, flags.laws);
    requireOutputs(flags.report, flags.csv);
    const warnings = warningText(study.read.warnings);
    if (warnings) terminal.say(`${warnings}\n`);
    const progress = progressLine(terminal);
    const result = await computeLife(study.read.study, {
      pool,
      signal: terminal.signal,
      onProgress: ({done, running}) => {
        const others = running.length > 1 ? ` (and ${running.length - 1} more)` : "";
        progress(done, running.length > 0 ? running[0].label + others : "");
      },
    });
    return {study, result};
  } finally {
    terminal.clearStatus();
    await pool.close();
  }
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  {lifeReport}: Report,
  result: LifeResult,
  {file, read}: GoodStudy,
  {report}: LifeFlags,
): Promise<OutputFile[]> {
  if (report === undefined) return [];
  const text = lifeReport(
    result,
    await reportContext({
      inputHash: file.hash,
      sources: {[read.inputs.fileName]: file.text},
      warnings: read.warnings.map(faultLine),
    }),
  );
  return [{path: report, text}];
}

function csvFiles({equivalenceCsv, frontsCsv}: Report, result: LifeResult, {csv}: LifeFlags): OutputFile[] {
  if (csv === undefined) return [];
  return result.treatments.flatMap((life, i) => {
    const {treatment, histories} = life;
    const file = (what: string): string =>
      path.join(csv, `${i + 1}-${fileWord(treatment.name, "treatment")}-${what}.csv`);
    const fronts = histories.map(h => ({path: file(h.scenario), text: frontsCsv(h, treatment)}));
    const equivalence = equivalenceCsv(life);
    return equivalence === null ? fronts : [...fronts, {path: file("loads"), text: equivalence}];
  });
}
