/** Lives at points: a study with some inputs varied, computed once for each set of values and kept in a run file. */
import {Cancelled, InputError} from "../engine/errors.ts";
import type {Study} from "../engine/life/types.ts";
import {type PointOutcome, recordLives} from "../engine/survey/index.ts";
import type {RiskPlan} from "../engine/uncertainty/index.ts";
import {sampleLives, samplingHash, softwareVersion} from "../node/index.ts";
import {
  type LifeSlots,
  openLifeSlots,
  openRun,
  partOfRun,
  type Run,
  runPoints,
  unsavedRun,
} from "../node/runs/index.ts";
import {type Edit, formatFaults, type ReadOutcome, type Setting, variedPlan, variedStudy} from "../schema/index.ts";
import {pointsLine, progressLine} from "./progress.ts";
import {Stopped} from "./stopped.ts";
import {BadInput, type GoodVariedStudy} from "./study.ts";
import type {Terminal} from "./terminal.ts";

/** Values of the varied inputs. */
export type Point = readonly Setting[];

export interface PointLivesOptions {
  readonly study: GoodVariedStudy;
  readonly treatments: readonly string[]; // of the study, by name; the control first
  readonly accuracy: number; // [–]
  readonly command: string; // that a run file belongs to
  readonly inputs: readonly string[]; // that are varied
  readonly sampling?: Sampling | undefined; // of `sample`
  readonly runFile: string | undefined;
  readonly workers: number;
  readonly terminal: Terminal;
}

export interface Sampling {
  readonly reliability: number; // [–]
  readonly solutions: number; // sections solved anew for each point
}

/** What samples of the uncertain inputs say of a point, by treatment. */
export interface PointSample {
  readonly years: readonly number[]; // that the share `reliability` of the samples outlives
  readonly errors: readonly (number | null)[]; // standard error of their ln [–]
  readonly samples: number;
}

export interface PointComputer {
  /** How many of the points the run file does not have. */
  missing(points: readonly Point[]): number;
  /**
   * Lives at points, handed over in their order.
   *
   * @throws Cancelled; then the run file has what was finished
   */
  compute(points: readonly Point[], take: (outcome: PointOutcome, point: Point, index: number) => void): Promise<void>;
  /**
   * Lives that a point reaches with the reliability of `sampling`. All points get the same samples of what is uncertain.
   *
   * @throws Cancelled; InputError
   */
  sample(point: Point, sampling: Sampling): Promise<PointSample>;
  close(): Promise<void>;
}

/** @throws RunFileError; FileError */
export function openPointLives(options: PointLivesOptions): PointComputer {
  const {study, treatments, accuracy, command, inputs, sampling, runFile, workers, terminal} = options;
  const settings = {
    command,
    inputs: inputs.join(", "),
    treatments: treatments.join(", "),
    "accuracy in %": percentOf(accuracy),
    ...(sampling && {
      "reliability in %": percentOf(sampling.reliability),
      sections: sampling.solutions,
      samples: study.read.risk.mostSamples,
      "uncertain inputs": samplingHash(study.read.risk),
    }),
  };
  const run: Run =
    runFile === undefined
      ? unsavedRun()
      : openRun(runFile, {software: softwareVersion(), inputs: study.file.hash, settings});
  const slots = openLifeSlots(workers, terminal.signal);
  const evaluate = (point: Point, slot: number): Promise<PointOutcome> =>
    lives(asComputed(studyAt(study, point), treatments, accuracy), slots, slot);
  return {
    missing: points => points.filter(point => !run.has(keyOf(point))).length,
    compute: async (points, take) => {
      const line = pointsLine(terminal);
      try {
        await runPoints({
          points,
          key: keyOf,
          evaluate,
          take,
          run,
          slots: workers,
          signal: terminal.signal,
          onProgress: line,
        });
      } catch (error) {
        throw stoppedBy(error, run);
      } finally {
        terminal.clearStatus();
      }
    },
    sample: async (point, asked) => {
      const key = `${keyOf(point)} sampled`;
      if (run.has(key)) return run.read(key) as PointSample;
      try {
        const found = await sampled({study, treatments, accuracy, point, asked, run, workers, terminal});
        run.append(key, found);
        return found;
      } catch (error) {
        throw stoppedBy(error, run);
      } finally {
        terminal.clearStatus();
      }
    },
    close: async () => {
      await slots.close();
      run.close();
    },
  };
}

function stoppedBy(error: unknown, run: Run): unknown {
  if (!(error instanceof Cancelled) || run.path === null) return error;
  const kept = run.count === 1 ? "1 finished point is" : `${run.count} finished points are`;
  return new Stopped(`${kept} in ${run.path}: the same command goes on from there.`);
}

/**
 * What is uncertain at a point.
 *
 * @throws BadInput
 */
export function planAt({file}: GoodVariedStudy, point: Point): RiskPlan {
  const outcome = variedPlan(file.variations, point);
  if (outcome.kind === "faults") throw new BadInput(formatFaults(withoutQuotes(outcome.faults)));
  return outcome.risk;
}

interface SampledPoint extends Pick<PointLivesOptions, "study" | "treatments" | "accuracy" | "workers" | "terminal"> {
  readonly point: Point;
  readonly asked: Sampling;
  readonly run: Run;
}

async function sampled(one: SampledPoint): Promise<PointSample> {
  const {study, treatments, accuracy, point, asked, run, workers, terminal} = one;
  const {variations} = study.file;
  const vary = (edits: readonly Edit[] = []): ReadOutcome => {
    const outcome = variedStudy(variations, point, edits);
    return outcome.kind === "study" ? {...outcome, study: asComputed(outcome.study, treatments, accuracy)} : outcome;
  };
  const base = vary();
  if (base.kind === "faults") throw new BadInput(formatFaults(base.faults));
  // The same number of samples everywhere: thicknesses differ by what they are, not by their samples.
  const plan = {...planAt(study, point), reliability: asked.reliability, mostSolutions: asked.solutions, error: 0};
  const line = progressLine(terminal);
  const at = point.map(({input, value}) => `${input.words} ${value}`).join(", ");
  const {
    treatments: risks,
    errors,
    samples,
  } = await sampleLives(
    base.study,
    plan,
    {vary},
    {
      workers,
      run: partOfRun(run, `${keyOf(point)} `),
      signal: terminal.signal,
      onProgress: ({done, total}) => line(total > 0 ? done / total : 0, `samples of ${at}`),
    },
  );
  const years = risks.map(r => r.reliabilities.find(l => l.reliability === asked.reliability)!.life.low);
  return {years, errors, samples};
}

const percentOf = (part: number): number => Number((part * 100).toPrecision(9));

/** section.joint.spacing_m=4.5 traffic=2 */
export function keyOf(point: Point): string {
  return point.map(({input, value}) => `${input.name}=${value}`).join(" ");
}

/**
 * The study at a point, which was found good before.
 *
 * @throws BadInput
 */
function studyAt({file}: GoodVariedStudy, point: Point): Study {
  const outcome = variedStudy(file.variations, point);
  if (outcome.kind === "faults") throw new BadInput(formatFaults(outcome.faults));
  return outcome.study;
}

function asComputed(study: Study, treatments: readonly string[], accuracy: number): Study {
  const {costs} = study;
  const asked = <T extends {readonly name: string}>(all: readonly T[]): T[] =>
    all.filter(t => treatments.includes(t.name));
  return {
    ...study,
    accuracy,
    treatments: asked(study.treatments),
    costs: costs && {...costs, treatments: asked(costs.treatments)},
  };
}

async function lives(study: Study, slots: LifeSlots, slot: number): Promise<PointOutcome> {
  try {
    return recordLives(await slots.compute(study, slot));
  } catch (error) {
    if (error instanceof InputError) return {failed: error.message};
    throw error;
  }
}

/**
 * Reads the study at every point and tells what is wrong with any, before hours are spent on the others.
 *
 * @throws BadInput
 */
export function requireGoodPoints({file}: GoodVariedStudy, points: readonly Point[]): void {
  const bad = points.flatMap(point => {
    const outcome = variedStudy(file.variations, point);
    return outcome.kind === "faults" ? [{point, faults: outcome.faults}] : [];
  });
  if (bad.length === 0) return;
  const [first] = bad;
  const others = bad.length === 1 ? "" : `; ${bad.length} of the ${points.length} points have faults`;
  const at = first.point.map(({input, value}) => `${input.name} = ${value}`).join(", ");
  const heading = `The study cannot be computed at ${at}${others}:`;
  throw new BadInput(formatFaults(withoutQuotes(first.faults), {heading}).trimEnd());
}

/** The document's line shows the value that was replaced. */
function withoutQuotes<F extends {readonly quote: string | null}>(faults: readonly F[]): F[] {
  return faults.map(fault => ({...fault, quote: null}));
}

const MOST_WARNINGS = 8;

/** Warnings of computed points, each once, the most frequent first. */
export function pointWarnings(outcomes: readonly PointOutcome[]): string[] {
  const counts = new Map<string, number>();
  for (const outcome of outcomes)
    for (const w of "failed" in outcome ? [] : outcome.warnings) counts.set(w, (counts.get(w) ?? 0) + 1);
  const sorted = [...counts].sort((a, b) => b[1] - a[1]);
  const told = sorted.slice(0, MOST_WARNINGS).map(([w, n]) => `${w} (${n} of ${outcomes.length} points)`);
  const more = sorted.length - told.length;
  return more > 0 ? [...told, `${more} more, each at fewer points.`] : told;
}
