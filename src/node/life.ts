import {availableParallelism} from "node:os";
import {
  assembleLife,
  exponentsFor,
  type LifeModel,
  type LifePiece,
  type LifePlan,
  type LifeTask,
  lifeModel,
  lifePlan,
} from "../engine/life/index.ts";
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
  const plan = lifePlan(study);
  return assembleLife(study, plan, await workOff(plan, options));
}

/**
 * A study solved so that its lives under other laws, counts and scales follow at once.
 *
 * @param span  largest change of a law's exponent that will be asked for [–]
 * @throws InputError; Cancelled
 */
export async function computeModel(study: Study, span: number, options: LifeOptions = {}): Promise<LifeModel> {
  const further = exponentsFor(span);
  const plan = lifePlan(study, further);
  return lifeModel(study, plan, await workOff(plan, options), further);
}

async function workOff({tasks}: LifePlan, options: LifeOptions): Promise<readonly (LifePiece | undefined)[]> {
  const {signal, onProgress} = options;
  const pool = options.pool ?? openLifePool(options.workers);
  try {
    return await pool.run<LifeTask, LifePiece>(tasks, {
      signal,
      onProgress: onProgress && (({done, running}) => onProgress({done, running: running.map(i => tasks[i])})),
    });
  } finally {
    if (!options.pool) await pool.close();
  }
}
