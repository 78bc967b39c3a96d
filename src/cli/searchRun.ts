import {availableParallelism} from "node:os";
import {type Point, type PointComputer, type PointSample, pointWarnings} from "../compute/index.ts";
import {governingOf, leastReaching, type PointLives, type PointOutcome} from "../engine/survey/index.ts";
import {type OutputFile, requireWritable, softwareVersion} from "../node/index.ts";
import type {SearchCase} from "../report/index.ts";
import {faultLine, findInput, type VariedInput} from "../schema/index.ts";
import {toJson} from "./json.ts";
import {deliver} from "./outputs.ts";
import {openShownPointLives, requireGoodPoints, requirePlanAt} from "./pointLives.ts";
import {reportContext} from "./reportContext.ts";
import type {SearchFlags} from "./search.ts";
import {BadInput, type GoodVariedStudy, loadVariedStudy, warningText} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export async function runSearch(file: string, flags: SearchFlags, terminal: Terminal): Promise<void> {
  const study = loadVariedStudy(file, flags.laws);
  const asked = askedSearch(study, flags);
  for (const output of [flags.report, flags.csv, flags.run]) if (output !== undefined) requireWritable(output);
  const points = asked.steps.map((value): Point => [{input: asked.input, value}]);
  requireGoodPoints(study, points);
  if (flags.reliability !== undefined) requireFollowing(study, asked);
  const warnings = warningText(study.read.warnings);
  if (warnings) terminal.say(`${warnings}\n`);
  const one = await searched({study, asked, points, flags, terminal});
  const report = await import("../report/index.ts");
  const files = [...(await reportFile(report, one, study, flags)), ...csvFile(report, one, flags)];
  deliver(files, flags.json ? searchJson(one, study) : report.searchTable(one, terminal), terminal);
}

interface AskedSearch {
  readonly input: VariedInput;
  readonly steps: readonly number[]; // thicknesses [mm]
  readonly treatments: readonly string[]; // to be searched
  readonly computed: readonly string[]; // with the control, by whose temperatures bins are derived
}

const MOST_STEPS = 500;

/** @throws BadInput with all faults of the options */
function askedSearch({file, read}: GoodVariedStudy, flags: SearchFlags): AskedSearch {
  const {from, to, step} = flags;
  const faults: string[] = [];
  const {layers} = read.inputs.document.section;
  const layer = flags.layer ?? layers.find(l => l.role === "overlay")?.name ?? "overlay";
  const found = findInput(file.variations, `section.layers.${layer}.thickness_mm`);
  if (found.kind === "none")
    faults.push(`--layer ${layer}: the section has no such layer\n  accepted: ${layers.map(l => l.name).join(", ")}`);
  if (from > to) faults.push(`--from ${from} --to ${to}: the thickest is thinner than the thinnest`);
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > MOST_STEPS) faults.push(`--step ${step}: ${count} thicknesses\n  accepted: at most ${MOST_STEPS}`);
  const names = read.study.treatments.map(t => t.name);
  const treatments = flags.treatment ?? names;
  for (const name of treatments)
    if (!names.includes(name))
      faults.push(`--treatment ${name}: the study has none of that name\n  accepted: ${names.join(", ")}`);
  if (faults.length > 0 || found.kind === "none") throw new BadInput(faults.join("\n"));
  return {
    input: found.input,
    steps: Array.from({length: count}, (_, k) => Number((from + k * step).toPrecision(12))),
    treatments: names.filter(n => treatments.includes(n)),
    computed: names.filter((n, k) => k === 0 || treatments.includes(n)),
  };
}

/**
 * A spread of the searched thickness that has values of its own would undo the search: every section would be sampled with them.
 *
 * @throws BadInput
 */
function requireFollowing(study: GoodVariedStudy, {input, steps}: AskedSearch): void {
  if (input.place.kind !== "field" || steps.length < 2) return;
  const path = JSON.stringify(input.place.path);
  const spreads = [steps[0], steps[steps.length - 1]].map(value =>
    requirePlanAt(study, [{input, value}]).inputs.find(
      ({effect}) => effect.kind === "field" && JSON.stringify(effect.path) === path,
    ),
  );
  if (spreads[0] === undefined || JSON.stringify(spreads[0]) !== JSON.stringify(spreads[1])) return;
  throw new BadInput(
    `uncertainty: the spread of ${input.name} has values of its own, the same whatever thickness is searched\n  accepted: normal with a deviation or cv_percent and no mean, lognormal without a median, or usual: true`,
  );
}

interface Job {
  readonly study: GoodVariedStudy;
  readonly asked: AskedSearch;
  readonly points: readonly Point[];
  readonly flags: SearchFlags;
  readonly terminal: Terminal;
}

async function searched({study, asked, points, flags, terminal}: Job): Promise<SearchCase> {
  const {costs} = study.read.study;
  const sampling =
    flags.reliability === undefined ? undefined : {reliability: flags.reliability / 100, solutions: flags.sections};
  const computer = openShownPointLives({
    study,
    treatments: asked.computed,
    accuracy: flags.accuracy / 100,
    command: "search",
    inputs: [asked.input.name],
    sampling,
    runFile: flags.run,
    workers: flags.workers ?? availableParallelism(),
    terminal,
  });
  const outcomes = new Map<number, PointOutcome>();
  const samples = new Map<number, PointSample>();
  const sample = oneByOne(async (step: number): Promise<PointSample> => {
    const known = samples.get(step) ?? (await computer.sample(points[step], sampling!));
    samples.set(step, known);
    return known;
  });
  try {
    const search: SearchCase["treatments"][number][] = [];
    for (const name of asked.treatments) {
      const ask = inBatches(points, outcomes, computer);
      const lifeOf = async (step: number): Promise<number> => {
        const outcome = await ask(step);
        if ("failed" in outcome) return 0;
        if (!sampling) return governingOf(pointOf(outcome, name)).years;
        return (await sample(step)).years[outcome.treatments.findIndex(t => t.name === name)];
      };
      const found = await leastReaching({count: points.length, target: flags.target, lifeOf});
      search.push({name, found});
    }
    return {
      study: study.read.study.name,
      layer: asked.input.words,
      steps: asked.steps,
      target: flags.target,
      accuracy: flags.accuracy / 100,
      treatments: search,
      outcomes,
      sampling: sampling ? {reliability: sampling.reliability, sections: sampling.solutions, samples} : null,
      prices: costs && {currency: costs.currency, period: costs.period},
      constant: constantOnes(study, asked),
    };
  } finally {
    await computer.close();
  }
}

/** Each call uses all threads: it waits for those before. */
function oneByOne<A, R>(call: (argument: A) => Promise<R>): (argument: A) => Promise<R> {
  let last: Promise<unknown> = Promise.resolve();
  return argument => {
    const result = last.then(() => call(argument));
    last = result.catch(() => undefined);
    return result;
  };
}

function pointOf({treatments}: PointLives, name: string): PointLives["treatments"][number] {
  return treatments.find(t => t.name === name)!;
}

/** Steps that are asked for in one go are computed side by side; none is computed twice, for whichever treatment. */
function inBatches(
  points: readonly Point[],
  outcomes: Map<number, PointOutcome>,
  computer: PointComputer,
): (step: number) => Promise<PointOutcome> {
  let batch: number[] = [];
  let running: Promise<void> | null = null;
  const flush = async (): Promise<void> => {
    await Promise.resolve(); // until all of the batch are asked for
    const steps = batch.filter(s => !outcomes.has(s));
    [batch, running] = [[], null];
    await computer.compute(
      steps.map(s => points[s]),
      (outcome, _, k) => outcomes.set(steps[k], outcome),
    );
  };
  return async step => {
    batch.push(step);
    running ??= flush();
    await running;
    return outcomes.get(step)!;
  };
}

/** Treatments that give the layer a thickness of their own: searching changes nothing. */
function constantOnes({file}: GoodVariedStudy, {input, steps, treatments}: AskedSearch): string[] {
  const ends = [steps[0], steps[steps.length - 1]].map(value =>
    file.variations.vary(input.place.kind === "field" ? [{path: input.place.path, value}] : []),
  );
  const [a, b] = ends;
  if (a.kind !== "study" || b.kind !== "study" || steps.length < 2) return [];
  const thickness = (study: typeof a.study, name: string): number =>
    study.treatments.find(t => t.name === name)!.section.layers.reduce((sum, l) => sum + l.thickness, 0);
  return treatments.filter(name => thickness(a.study, name) === thickness(b.study, name));
}

type Report = typeof import("../report/index.ts");

async function reportFile(
  {searchReport}: Report,
  one: SearchCase,
  {file, read}: GoodVariedStudy,
  {report}: SearchFlags,
): Promise<OutputFile[]> {
  if (report === undefined) return [];
  const context = await reportContext({
    inputHash: file.hash,
    sources: {[read.inputs.fileName]: file.text},
    warnings: [...read.warnings.map(faultLine), ...pointWarnings([...one.outcomes.values()]), ...failuresOf(one)],
  });
  return [{path: report, text: searchReport(one, context)}];
}

function failuresOf({steps, outcomes}: SearchCase): string[] {
  return [...outcomes].flatMap(([step, outcome]) =>
    "failed" in outcome ? [`${steps[step]} mm could not be computed. ${outcome.failed}`] : [],
  );
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
      best_mm: steps[found.best],
      falls: found.falls.map(({from, to}) => ({from_mm: steps[from], to_mm: steps[to]})),
      lives: found.known.map(({step, life}) => ({thickness_mm: steps[step], years: life})),
    })),
    points: [...outcomes]
      .sort((a, b) => a[0] - b[0])
      .map(([step, outcome]) => ({thickness_mm: steps[step], ...outcome})),
  });
}
