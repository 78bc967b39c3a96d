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
import type {Pool} from "../pool/index.ts";

export interface LifeProgress {
  readonly done: number; // of all work [–]
  readonly running: readonly LifeTask[];
}

export interface LifeOptions {
  readonly pool: Pool; // left open
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: LifeProgress) => void) | undefined;
}

/**
 * Lives of all treatments, on the pool's workers; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export async function computeLife(study: Study, options: LifeOptions): Promise<LifeResult> {
  const plan = lifePlan(study);
  return assembleLife(study, plan, await workOff(plan, options));
}

/**
 * A study solved so that its lives under other laws, counts and scales follow at once.
 *
 * @param span  largest change of a law's exponent that will be asked for [–]
 * @throws InputError; Cancelled
 */
export async function computeModel(study: Study, span: number, options: LifeOptions): Promise<LifeModel> {
  const further = exponentsFor(span);
  const plan = lifePlan(study, further);
  return lifeModel(study, plan, await workOff(plan, options), further);
}

function workOff(
  {tasks}: LifePlan,
  {pool, signal, onProgress}: LifeOptions,
): Promise<readonly (LifePiece | undefined)[]> {
  return pool.run<LifeTask, LifePiece>(tasks, {
    signal,
    onProgress: onProgress && (({done, running}) => onProgress({done, running: running.map(i => tasks[i])})),
  });
}
