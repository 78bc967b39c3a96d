import {availableParallelism} from "node:os";
import {
  type GridLevel,
  type MissByAxis,
  missesOf,
  newNodes,
  type PointOutcome,
  type Reached,
  refinement,
  type Survey,
} from "../engine/survey/index.ts";
import {type OutputFile, requireWritable, writeFiles} from "../node/index.ts";
import {type AskedAxis, readAxis} from "./axis.ts";
import type {ChartFlags} from "./chart.ts";
import {openPointLives, type Point, type PointComputer, requireGoodPoints} from "./pointLives.ts";
import {BadInput, type GoodVariedStudy, loadVariedStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runChart(file: string, flags: ChartFlags, terminal: Terminal): Promise<void> {
  const study = loadVariedStudy(file, flags.laws);
  const asked = askedChart(study, flags);
  for (const output of [flags.report, flags.csv, flags.run]) if (output !== undefined) requireWritable(output);
  requireGoodPoints(study, gridPoints(asked));
  const warnings = warningText(study.read.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  const computer = openPointLives({
    study,
    treatments: asked.treatments,
    accuracy: flags.accuracy / 100,
    command: "chart",
    inputs: [asked.x.input.name, asked.y.input.name],
    runFile: flags.run,
    workers: flags.workers ?? availableParallelism(),
    terminal,
  });
  try {
    await surveyed(asked, computer, {
      tolerance: flags.allPoints ? -1 : TOLERANCE,
      each: s => terminal.say(JSON.stringify(s.missed) + " " + s.points + "\n"),
    });
  } finally {
    await computer.close();
  }
}

/** Miss of interpolated lives and ratios that is accepted [–]: the 1 or 2 % that the accuracy of a life moves them. */
const TOLERANCE = 0.02;
/** Lives beyond are no prediction, as in every report [years]. */
const LONGEST = 100;

export interface AskedChart {
  readonly x: AskedAxis;
  readonly y: AskedAxis;
  readonly treatments: readonly [control: string, treated: string];
}

/** @throws BadInput with all faults of the options */
function askedChart({file, read}: GoodVariedStudy, flags: ChartFlags): AskedChart {
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
  if (faults.length > 0 || x.kind === "fault" || y.kind === "fault") throw new BadInput(faults.join("\n"));
  return {x: x.axis, y: y.axis, treatments: [names[0], treatment]};
}

function pointAt({x, y}: AskedChart, i: number, j: number): Point {
  return [
    {input: x.input, value: x.values[i]},
    {input: y.input, value: y.values[j]},
  ];
}

function gridPoints(asked: AskedChart): Point[] {
  return asked.y.values.flatMap((_, j) => asked.x.values.map((_, i) => pointAt(asked, i, j)));
}

/** A survey as far as it is computed. */
export interface Surveyed {
  readonly survey: Survey;
  readonly points: number; // computed
  readonly missed: MissByAxis | null; // by interpolation, at the last step
}

interface Steps {
  readonly tolerance: number; // [–]
  readonly each: (surveyed: Surveyed) => void | Promise<void>; // after each step
}

/** Step by step until what lies between is foretold well enough. */
async function surveyed(asked: AskedChart, computer: PointComputer, {tolerance, each}: Steps): Promise<Surveyed> {
  const outcomes = new Map<string, PointOutcome>();
  const {next} = refinement(asked.x.values.length, asked.y.values.length);
  let reached: Reached = {x: -1, y: -1};
  let level: GridLevel | null = null;
  let state: Surveyed | null = null;
  for (let step = next(reached, null, tolerance); step; step = next(reached, state?.missed ?? null, tolerance)) {
    const nodes = newNodes(step.level, level);
    await computer.compute(
      nodes.map(({i, j}) => pointAt(asked, i, j)),
      (outcome, _, k) => outcomes.set(`${nodes[k].i},${nodes[k].j}`, outcome),
    );
    const survey: Survey = {...asked, level: step.level, outcome: (i, j) => outcomes.get(`${i},${j}`)};
    const missed: MissByAxis | null = level && missesOf(survey, level, {treatment: 1, longest: LONGEST});
    [reached, level, state] = [step.reached, step.level, {survey, points: outcomes.size, missed}];
    await each(state);
  }
  return state!;
}
