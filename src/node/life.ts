import {availableParallelism} from "node:os";
import path from "node:path";
import {assembleLife, type LifePiece, type LifeTask, lifeTasks} from "../engine/life/index.ts";
import type {LifeResult, Study} from "../engine/life/types.ts";
import {runOnWorkers} from "./pool.ts";

export interface LifeProgress {
  readonly done: number; // of all work [–]
  readonly running: readonly LifeTask[];
}

export interface LifeOptions {
  readonly workers?: number | undefined; // default: as many as the machine has to give
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: LifeProgress) => void) | undefined;
}

/** The worker's module stands beside this one, with the same ending: .ts as written, .js as built. */
const ENTRY = new URL(`lifeWorker${path.extname(import.meta.filename)}`, import.meta.url);

/**
 * Lives of all treatments, on several threads; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export async function computeLife(study: Study, options: LifeOptions = {}): Promise<LifeResult> {
  const {signal, onProgress} = options;
  const tasks = lifeTasks(study);
  const results = await runOnWorkers<LifeTask, LifePiece>({
    entry: ENTRY,
    shared: study,
    tasks,
    workers: options.workers ?? availableParallelism(),
    signal,
    onProgress: onProgress && (({done, running}) => onProgress({done, running: running.map(i => tasks[i])})),
  });
  return assembleLife(study, results);
}
