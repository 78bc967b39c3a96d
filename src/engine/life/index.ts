/** One study in, lives by treatment and mechanism out. Theory: docs/theory/life.md. */
import {assembleLife} from "./assemble.ts";
import {lifePlan} from "./plan.ts";
import type {LifeResult, Study} from "./types.ts";
import {type LifePiece, lifeWorker} from "./work.ts";

export {assembleLife} from "./assemble.ts";
export type {TemperaturesOf} from "./bins.ts";
export {type ClosureMap, closureMaps, resolveClosure} from "./closure.ts";
export {type FieldRequest, type FieldTip, fieldAround, type JointField, usualPositions} from "./field.ts";
export {type FieldChoice, fieldRequest} from "./fieldRequest.ts";
export {type FrontPath, type FrontProblem, integrateFronts} from "./fronts.ts";
export {heatKey} from "./heatKey.ts";
export {
  type Change,
  type ChangedLife,
  changedLives,
  exponentsFor,
  type LifeModel,
  lifeModel,
  noChange,
} from "./model.ts";
export {fatigueDamage, HORIZON, type OrdinaryCase, ordinaryLives} from "./ordinary.ts";
export {fittedPiece, pieceKeys, type SolvedPiece} from "./pieceKeys.ts";
export {type LifePlan, type LifeTask, lifePlan} from "./plan.ts";
export {type ProbeRequest, type ProbeResult, probe} from "./probe.ts";
export {type CrackGrid, crackGrid, type Fronts, type LawScale, type RateTable, ratesAt, rateTable} from "./rates.ts";
export type * from "./types.ts";
export {type LifePiece, type LifeWorker, lifeWorker} from "./work.ts";

/**
 * The whole computation in one call and one thread.
 *
 * @param onProgress called with the part done; returning false cancels
 * @throws InputError, Cancelled
 */
export function lifeOf(study: Study, onProgress: (part: number) => boolean = () => true): LifeResult {
  const plan = lifePlan(study);
  const {tasks} = plan;
  const total = tasks.reduce((sum, t) => sum + t.weight, 0);
  const last = new Int32Array(tasks.length); // task that uses each result last
  tasks.forEach(({needs}, k) => {
    for (const n of needs) last[n] = k;
  });
  const work = lifeWorker();
  const pieces: (LifePiece | undefined)[] = [];
  let done = 0;
  tasks.forEach((task, k) => {
    const inputs = task.needs.map(n => pieces[n]!);
    pieces.push(work(task, inputs, part => onProgress((done + part * task.weight) / total)));
    for (const n of task.needs) if (last[n] === k) pieces[n] = undefined;
    done += task.weight;
  });
  return assembleLife(study, plan, pieces);
}
