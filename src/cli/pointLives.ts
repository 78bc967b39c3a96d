/** Lives at points: a study with some inputs varied, computed once for each set of values and kept in a run file. */
import {Cancelled, InputError} from "../engine/errors.ts";
import type {Study} from "../engine/life/types.ts";
import {type PointOutcome, recordLives} from "../engine/survey/index.ts";
import {softwareVersion} from "../node/index.ts";
import {type LifeSlots, openLifeSlots, openRun, type Run, runPoints, unsavedRun} from "../node/runs/index.ts";
import {formatFaults, type Setting, variedStudy} from "../schema/index.ts";
import {pointsLine} from "./progress.ts";
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
  readonly runFile: string | undefined;
  readonly workers: number;
  readonly terminal: Terminal;
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
  close(): Promise<void>;
}

/** @throws RunFileError; FileError */
export function openPointLives(options: PointLivesOptions): PointComputer {
  const {study, treatments, accuracy, command, inputs, runFile, workers, terminal} = options;
  const settings = {
    command,
    inputs: inputs.join(", "),
    treatments: treatments.join(", "),
    "accuracy in %": percentOf(accuracy),
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
        if (!(error instanceof Cancelled) || run.path === null) throw error;
        const kept = run.count === 1 ? "1 finished point is" : `${run.count} finished points are`;
        throw new Stopped(`${kept} in ${run.path}: the same command goes on from there.`);
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
  return {...study, accuracy, treatments: study.treatments.filter(t => treatments.includes(t.name))};
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
