import workerpool from "workerpool";
import {InputError} from "../engine/errors.ts";
import type {Assignment, Outcome} from "./messages.ts";
import {inSharedMemory} from "./sharedMemory.ts";

/** Between two tellings of progress [ms]. */
const TELL_EVERY = 50;

/**
 * Makes the module that calls it a worker's: it does each task that comes, one at a time.
 *
 * @param run  must not keep the inputs' arrays to write in: other tasks may read the same memory
 */
export function serveTasks<Task, Result>(
  run: (task: Task, inputs: readonly Result[], onProgress: (part: number) => boolean) => Result,
): void {
  const work = ({task, inputs, keep, spare}: Assignment<Task, Result>): Outcome<Result> => {
    let told = 0;
    const onProgress = (part: number): boolean => {
      const now = Date.now();
      if (now - told >= TELL_EVERY) {
        told = now;
        workerpool.workerEmit(part);
      }
      return true; // a pool that is told to stop ends its threads
    };
    onProgress(0);
    try {
      const result = run(task, inputs, onProgress);
      if (!keep) return {kind: "done", result, spare};
      const left = [...spare];
      return {kind: "done", result: inSharedMemory(result, left), spare: left};
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return {kind: "input", code: error.code, path: error.path, got: String(error.got), need: error.need};
    }
  };
  workerpool.worker({work});
}
