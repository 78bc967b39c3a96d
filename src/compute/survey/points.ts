/** Lives at points: a study with some inputs varied, computed once for each set of values and kept in a run. */
import {InputError} from "../../engine/errors.ts";
import type {Study} from "../../engine/life/types.ts";
import {type PointOutcome, recordLives} from "../../engine/survey/index.ts";
import type {RiskPlan} from "../../engine/uncertainty/index.ts";
import {
  type Edit,
  type Fault,
  type ReadOutcome,
  type Setting,
  type Variations,
  variedPlan,
  variedStudy,
} from "../../schema/index.ts";
import type {OpenPool} from "../pools.ts";
import {sampleLives} from "../risk/index.ts";
import {
  type LifeSlots,
  openLifeSlots,
  type PointsProgress,
  partOfRun,
  type Run,
  runPoints,
  unsavedRun,
} from "../runs/index.ts";

/** Values of the varied inputs. */
export type Point = readonly Setting[];

export interface PointLivesOptions {
  readonly variations: Variations;
  readonly treatments: readonly string[]; // of the study, by name; the control first
  readonly accuracy: number; // [–]
  readonly openPool: OpenPool;
  readonly workers: number; // points computed at once, ≥ 1
  readonly run?: Run | undefined; // of these treatments and this accuracy, left open; default: kept nowhere
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: PointsProgress) => void) | undefined;
  readonly onSampling?: ((progress: {readonly done: number; readonly point: Point}) => void) | undefined; // part done [–]
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
  /** How many of the points the run does not have. */
  missing(points: readonly Point[]): number;
  /**
   * Lives at points, handed over in their order.
   *
   * @throws Cancelled, then the run has what was finished; PointFaults
   */
  compute(points: readonly Point[], take: (outcome: PointOutcome, point: Point, index: number) => void): Promise<void>;
  /**
   * Lives that a point reaches with the reliability of `sampling`. All points get the same samples of what is uncertain.
   *
   * @throws Cancelled; InputError; PointFaults
   */
  sample(point: Point, sampling: Sampling): Promise<PointSample>;
  /** Ends the workers. */
  close(): Promise<void>;
}

/** The study cannot be read at a point. */
export class PointFaults extends Error {
  readonly point: Point;
  readonly faults: readonly Fault[];

  constructor(point: Point, faults: readonly Fault[]) {
    super(`${keyOf(point)}: ${faults[0].path}: ${faults[0].problem}`);
    this.name = "PointFaults";
    this.point = point;
    this.faults = faults;
  }
}

export function openPointLives(options: PointLivesOptions): PointComputer {
  const {openPool, workers, run = unsavedRun(), signal, onProgress} = options;
  const slots = openLifeSlots(openPool, workers, signal);
  const evaluate = (point: Point, slot: number): Promise<PointOutcome> =>
    lives(asComputed(studyAt(options.variations, point), options), slots, slot);
  return {
    missing: points => points.filter(point => !run.has(keyOf(point))).length,
    compute: (points, take) => runPoints({points, key: keyOf, evaluate, take, run, slots: workers, signal, onProgress}),
    sample: async (point, asked) => {
      const key = `${keyOf(point)} sampled`;
      if (run.has(key)) return run.read(key) as PointSample;
      const found = await sampled(options, point, {asked, run: partOfRun(run, `${keyOf(point)} `)});
      run.append(key, found);
      return found;
    },
    close: slots.close,
  };
}

/**
 * What is uncertain at a point.
 *
 * @throws PointFaults
 */
export function planAt(variations: Variations, point: Point): RiskPlan {
  const outcome = variedPlan(variations, point);
  if (outcome.kind === "faults") throw new PointFaults(point, outcome.faults);
  return outcome.risk;
}

async function sampled(
  options: PointLivesOptions,
  point: Point,
  {asked, run}: {readonly asked: Sampling; readonly run: Run},
): Promise<PointSample> {
  const {variations, openPool, workers, signal, onSampling} = options;
  const vary = (edits: readonly Edit[] = []): ReadOutcome => {
    const outcome = variedStudy(variations, point, edits);
    return outcome.kind === "study" ? {...outcome, study: asComputed(outcome.study, options)} : outcome;
  };
  const base = vary();
  if (base.kind === "faults") throw new PointFaults(point, base.faults);
  // The same number of samples everywhere: points differ by what they are, not by their samples.
  const plan = {
    ...planAt(variations, point),
    reliability: asked.reliability,
    mostSolutions: asked.solutions,
    error: 0,
  };
  const found = await sampleLives(
    base.study,
    plan,
    {vary},
    {
      openPool,
      workers,
      run,
      signal,
      onProgress: onSampling && (({done, total}) => onSampling({done: total > 0 ? done / total : 0, point})),
    },
  );
  const {treatments, errors, samples} = found;
  const years = treatments.map(r => r.reliabilities.find(l => l.reliability === asked.reliability)!.life.low);
  return {years, errors, samples};
}

/** section.joint.spacing_m=4.5 traffic=2 */
export function keyOf(point: Point): string {
  return point.map(({input, value}) => `${input.name}=${value}`).join(" ");
}

/** @throws PointFaults */
function studyAt(variations: Variations, point: Point): Study {
  const outcome = variedStudy(variations, point);
  if (outcome.kind === "faults") throw new PointFaults(point, outcome.faults);
  return outcome.study;
}

function asComputed(study: Study, {treatments, accuracy}: Pick<PointLivesOptions, "treatments" | "accuracy">): Study {
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

/** Reads the study at every point: where it has faults, before hours are spent on the others. */
export function pointFaults(variations: Variations, points: readonly Point[]): PointFaults[] {
  return points.flatMap(point => {
    const outcome = variedStudy(variations, point);
    return outcome.kind === "faults" ? [new PointFaults(point, outcome.faults)] : [];
  });
}
