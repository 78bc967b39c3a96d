import {availableParallelism} from "node:os";
import {
  computeSurvey,
  gridPoints,
  type SurveyAxis,
  type Surveyed,
  type SurveyedPlane,
  USUAL_TOLERANCE,
} from "../compute/index.ts";
import {type OutputFile, openLifePool, requireWritable, softwareVersion, writeFiles} from "../node/index.ts";
import type {SurveyCase} from "../report/index.ts";
import {faultLine} from "../schema/index.ts";
import {readAxis} from "./axis.ts";
import type {ChartFlags} from "./chart.ts";
import {toJson} from "./json.ts";
import {deliver} from "./outputs.ts";
import {openPointRun, requireGoodPoints, shown} from "./pointLives.ts";
import {pointsLine} from "./progress.ts";
import {reportContext} from "./reportContext.ts";
import {BadInput, type GoodVariedStudy, loadVariedStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runChart(file: string, flags: ChartFlags, terminal: Terminal): Promise<void> {
  const study = loadVariedStudy(file, flags.laws);
  const asked = askedChart(study, flags);
  for (const output of [flags.report, flags.csv, flags.run]) if (output !== undefined) requireWritable(output);
  requireGoodPoints(study, gridPoints(asked));
  const warnings = warningText(study.read.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  const accuracy = flags.accuracy / 100;
  const surveyed = await computed({study, asked, accuracy, flags, terminal});
  const report = await import("../report/index.ts");
  const one = caseOf(study, asked, {...surveyed, accuracy, finished: true});
  const files = [...(await reportFile(one, study, flags)), ...csvFile(report, one, flags)];
  deliver(files, flags.json ? chartJson(report, one, study) : report.surveyTable(one, flags.show, terminal), terminal);
}

interface Job {
  readonly study: GoodVariedStudy;
  readonly asked: SurveyedPlane;
  readonly accuracy: number; // [–]
  readonly flags: ChartFlags;
  readonly terminal: Terminal;
}

/** The survey; the report gets a new picture after each step. */
async function computed({study, asked, accuracy, flags, terminal}: Job): Promise<Surveyed> {
  const {x, y, treatments} = asked;
  const run = openPointRun({
    study,
    treatments,
    accuracy,
    command: "chart",
    inputs: [x.input.name, y.input.name],
    runFile: flags.run,
  });
  const compute = (): Promise<Surveyed> =>
    computeSurvey({
      ...asked,
      variations: study.file.variations,
      accuracy,
      tolerance: flags.allPoints ? -1 : USUAL_TOLERANCE,
      openPool: openLifePool,
      workers: flags.workers ?? availableParallelism(),
      run,
      signal: terminal.signal,
      onProgress: pointsLine(terminal),
      onPicture: async state => {
        if (flags.report === undefined) return;
        writeFiles(await reportFile(caseOf(study, asked, {...state, accuracy, finished: false}), study, flags));
        terminal.say(`A picture from ${state.points} points is in ${flags.report}\n`);
      },
    });
  try {
    return await shown(compute, run, terminal);
  } finally {
    run.close();
  }
}

function caseOf(
  {read}: GoodVariedStudy,
  {x, y, treatments}: SurveyedPlane,
  state: Surveyed & Pick<SurveyCase, "accuracy" | "finished">,
): SurveyCase {
  const input = ({input: {name, words, label, unit, base}}: SurveyAxis) => ({name, words, label, unit, present: base});
  const treated = read.study.treatments.find(t => t.name === treatments[1])!;
  return {
    study: read.study.name,
    x: input(x),
    y: input(y),
    treatments,
    interlayer: treated.section.layers.some(l => l.role === "interlayer"),
    accuracy: state.accuracy,
    survey: state.survey,
    missed: state.missed,
    computed: state.points,
    finished: state.finished,
  };
}

async function reportFile(one: SurveyCase, {file, read}: GoodVariedStudy, {report}: ChartFlags): Promise<OutputFile[]> {
  if (report === undefined) return [];
  const {surveyReport, surveyWarnings} = await import("../report/index.ts");
  const context = await reportContext({
    inputHash: file.hash,
    sources: {[read.inputs.fileName]: file.text},
    warnings: [...read.warnings.map(faultLine), ...surveyWarnings(one)],
  });
  return [{path: report, text: surveyReport(one, context)}];
}

function csvFile({surveyCsv}: Report, one: SurveyCase, {csv}: ChartFlags): OutputFile[] {
  return csv === undefined ? [] : [{path: csv, text: surveyCsv(one)}];
}

type Report = typeof import("../report/index.ts");

function chartJson({surveyView, regionReason}: Report, one: SurveyCase, {file, read}: GoodVariedStudy): string {
  const {points, regions, present, harm, cheaper, alongX, alongY, failures} = surveyView(one);
  return toJson({
    software: `seamwright ${softwareVersion()}`,
    input: {file: read.inputs.fileName, sha256: file.hash, warnings: read.warnings},
    units:
      "inputs in the units of the study; lives in years; ratios, shares and accuracies as plain numbers (0.01 is 1 %)",
    x: {...one.x, values: one.survey.x.values},
    y: {...one.y, values: one.survey.y.values},
    treatments: one.treatments,
    accuracy: one.accuracy,
    computed: one.computed,
    missed: one.missed,
    present,
    shareWithHarm: harm,
    shareCheaper: cheaper,
    ratioVariesAlong: {x: alongX, y: alongY},
    regions: regions.map(r => ({...r, inside: undefined, reason: regionReason(r, one)})),
    points,
    failures,
  });
}

/** @throws BadInput with all faults of the options */
function askedChart({file, read}: GoodVariedStudy, flags: ChartFlags): SurveyedPlane {
  const axes = [readAxis("--x", flags.x, file.variations), readAxis("--y", flags.y, file.variations)] as const;
  const names = read.study.treatments.map(t => t.name);
  const treatment = flags.treatment ?? names[1];
  const faults = axes.flatMap(a => (a.kind === "fault" ? [a.fault] : []));
  if (names.length < 2) faults.push("the study has the control alone: nothing to compare it with");
  else if (!names.slice(1).includes(treatment))
    faults.push(
      `--treatment ${treatment}: the study has no such treatment beside the control\n  accepted: ${names.slice(1).join(", ")}`,
    );
  const [x, y] = axes;
  if (x.kind === "axis" && y.kind === "axis" && x.axis.input.name === y.axis.input.name)
    faults.push(`--y ${flags.y}: it is the input of --x as well`);
  if (flags.show === "cost" && read.study.costs === null)
    faults.push("--show cost: the study has no prices\n  accepted: a study with costs, or ratio, or life");
  if (faults.length > 0 || x.kind === "fault" || y.kind === "fault") throw new BadInput(faults.join("\n"));
  return {x: x.axis, y: y.axis, treatments: [names[0], treatment]};
}
