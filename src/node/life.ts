import {availableParallelism} from "node:os";
import {assembleLife, type LifePiece, type LifeTask, lifePlan} from "../engine/life/index.ts";
import type {LifeResult, Study} from "../engine/life/types.ts";
import {openPool, type Pool} from "../pool/index.ts";
import {workerEntry} from "./workerEntry.ts";

export interface LifeProgress {
  readonly done: number; // of all work [–]
  readonly running: readonly LifeTask[];
}

export interface LifeOptions {
  readonly workers?: number | undefined; // default: as many as the machine has to give
  readonly pool?: Pool | undefined; // from `openLifePool`, left open; default: one for this call alone
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: LifeProgress) => void) | undefined;
}

const ENTRY = workerEntry(import.meta, "lifeWorker");

/** Threads that compute lives, for many calls of `computeLife`. */
export function openLifePool(workers: number = availableParallelism()): Pool {
  return openPool(ENTRY, workers);
}

/**
 * Lives of all treatments, on several threads; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export async function computeLife(study: Study, options: LifeOptions = {}): Promise<LifeResult> {
  const {signal, onProgress} = options;
  const plan = lifePlan(study);
  const {tasks} = plan;
  const pool = options.pool ?? openLifePool(options.workers);
  try {
    const pieces = await pool.run<LifeTask, LifePiece>(tasks, {
      signal,
      onProgress: onProgress && (({done, running}) => onProgress({done, running: running.map(i => tasks[i])})),
    });
    return assembleLife(study, plan, pieces);
  } finally {
    if (!options.pool) await pool.close();
  }
}
