/** One study in, lives by treatment and mechanism out. Theory: docs/theory/life.md. */
import {assembleLife} from "./assemble.ts";
import {lifeTasks, runLifeTask} from "./tasks.ts";
import type {LifeResult, Study} from "./types.ts";

export {assembleLife} from "./assemble.ts";
export {type FrontPath, type FrontProblem, integrateFronts} from "./fronts.ts";
export {fatigueDamage, HORIZON, type OrdinaryCase, ordinaryLives} from "./ordinary.ts";
export {type ProbeRequest, type ProbeResult, probe} from "./probe.ts";
export {type LifePiece, type LifeTask, lifeTasks, runLifeTask} from "./tasks.ts";
export type * from "./types.ts";

/**
 * The whole computation in one call and one thread.
 *
 * @param onProgress called with the part done; returning false cancels
 * @throws InputError, Cancelled
 */
export function lifeOf(study: Study, onProgress: (part: number) => boolean = () => true): LifeResult {
  const tasks = lifeTasks(study);
  const total = tasks.reduce((sum, t) => sum + t.weight, 0);
  let done = 0;
  const pieces = tasks.map(task => {
    const piece = runLifeTask(study, task, part => onProgress((done + part * task.weight) / total));
    done += task.weight;
    return piece;
  });
  return assembleLife(study, pieces);
}
