/** Lives at points of a study, kept in a run file; progress goes to the terminal. */
import {
  openPointLives,
  type Point,
  type PointComputer,
  PointFaults,
  pointFaults,
  type Run,
  type Sampling,
  unsavedRun,
} from "../compute/index.ts";
import {Cancelled} from "../engine/errors.ts";
import {openLifePool, openRun, samplingHash, softwareVersion} from "../node/index.ts";
import {formatFaults} from "../schema/index.ts";
import {pointsLine, progressLine} from "./progress.ts";
import {Stopped} from "./stopped.ts";
import {BadInput, type GoodVariedStudy} from "./study.ts";
import type {Terminal} from "./terminal.ts";

export interface PointRunOptions {
  readonly study: GoodVariedStudy;
  readonly treatments: readonly string[]; // of the study, by name; the control first
  readonly accuracy: number; // [–]
  readonly command: string; // that a run file belongs to
  readonly inputs: readonly string[]; // that are varied
  readonly sampling?: Sampling | undefined; // of `sample`
  readonly runFile: string | undefined;
}

/**
 * Where the points of a command are kept.
 *
 * @throws RunFileError; FileError
 */
export function openPointRun(options: PointRunOptions): Run {
  const {study, treatments, accuracy, command, inputs, sampling, runFile} = options;
  if (runFile === undefined) return unsavedRun();
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
  return openRun(runFile, {software: softwareVersion(), inputs: study.file.hash, settings});
}

const percentOf = (part: number): number => Number((part * 100).toPrecision(9));

export interface ShownPointOptions extends PointRunOptions {
  readonly workers: number;
  readonly terminal: Terminal;
}

/** @throws RunFileError; FileError; its methods BadInput, and Stopped in the place of Cancelled where a run file has points */
export function openShownPointLives(options: ShownPointOptions): PointComputer {
  const {study, treatments, accuracy, workers, terminal} = options;
  const run = openPointRun(options);
  let sampling = progressLine(terminal);
  const computer = openPointLives({
    variations: study.file.variations,
    treatments,
    accuracy,
    openPool: openLifePool,
    workers,
    run,
    signal: terminal.signal,
    onProgress: pointsLine(terminal),
    onSampling: ({done, point}) => sampling(done, `samples of ${wordsOf(point)}`),
  });
  return {
    missing: computer.missing,
    compute: (points, take) => shown(() => computer.compute(points, take), run, terminal),
    sample: (point, asked) => {
      sampling = progressLine(terminal); // its time counts from here
      return shown(() => computer.sample(point, asked), run, terminal);
    },
    close: async () => {
      await computer.close();
      run.close();
    },
  };
}

const wordsOf = (point: Point): string => point.map(({input, value}) => `${input.words} ${value}`).join(", ");

/** Takes the progress away in the end, and tells what became of the points. */
export async function shown<T>(compute: () => Promise<T>, run: Run, terminal: Terminal): Promise<T> {
  try {
    return await compute();
  } catch (error) {
    if (error instanceof PointFaults) throw badPoint(error);
    throw stoppedBy(error, run);
  } finally {
    terminal.clearStatus();
  }
}

function stoppedBy(error: unknown, run: Run): unknown {
  if (!(error instanceof Cancelled) || run.path === null) return error;
  const kept = run.count === 1 ? "1 finished point is" : `${run.count} finished points are`;
  return new Stopped(`${kept} in ${run.path}: the same command goes on from there.`);
}

/**
 * What reads the study at points, its faults told.
 *
 * @throws BadInput
 */
export function withBadPoints<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof PointFaults ? badPoint(error) : error;
  }
}

function badPoint({faults}: PointFaults): BadInput {
  return new BadInput(formatFaults(withoutQuotes(faults)));
}

/**
 * Reads the study at every point and tells what is wrong with any, before hours are spent on the others.
 *
 * @throws BadInput
 */
export function requireGoodPoints({file}: GoodVariedStudy, points: readonly Point[]): void {
  const bad = pointFaults(file.variations, points);
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
