import {workerData} from "piscina";
import {InputError} from "../engine/errors.ts";

/** What a pool gives to each of its workers at the start. */
export interface PoolData<Shared> {
  readonly shared: Shared;
  readonly parts: Int32Array; // in shared memory, one a task: 0 waiting, else 1 + part done · PART_SCALE
}

/** What a pool asks a worker to do. */
export interface Assignment<Task> {
  readonly index: number; // into `parts`
  readonly task: Task;
}

/** Errors of our own lose their class on the way between threads, so an InputError travels as data. */
export type Outcome<Result> =
  | {readonly kind: "done"; readonly result: Result}
  | {
      readonly kind: "input";
      readonly code: InputError["code"];
      readonly path: string;
      readonly got: string;
      readonly need: string;
    };

/** Steps of progress in a task. */
export const PART_SCALE = 1e6;

/** The function that a worker's module exports as its default, made of one that does a task. */
export function poolWorker<Shared, Task, Result>(
  run: (shared: Shared, task: Task, onProgress: (part: number) => boolean) => Result,
): (assignment: Assignment<Task>) => Outcome<Result> {
  return ({index, task}) => {
    const {shared, parts} = workerData as PoolData<Shared>;
    const onProgress = (part: number): boolean => {
      Atomics.store(parts, index, 1 + Math.round(part * PART_SCALE));
      return true; // a pool that is told to stop ends its threads
    };
    onProgress(0);
    try {
      return {kind: "done", result: run(shared, task, onProgress)};
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return {kind: "input", code: error.code, path: error.path, got: String(error.got), need: error.need};
    }
  };
}
