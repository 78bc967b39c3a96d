import workerpool from "workerpool";
import {InputError} from "../engine/errors.ts";
import type {Assignment, Outcome} from "./messages.ts";

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
  const work = ({task, inputs, keep}: Assignment<Task, Result>): Outcome<Result> => {
    let told = 0;
    const onProgress = (part: number): boolean => {
      const now = Date.now();
      if (now - told >= TELL_EVERY) workerpool.workerEmit(part);
      told = now - told >= TELL_EVERY ? now : told;
      return true; // a pool that is told to stop ends its threads
    };
    onProgress(0);
    try {
      const result = run(task, inputs, onProgress);
      return {kind: "done", result: keep ? inSharedMemory(result) : result};
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return {kind: "input", code: error.code, path: error.path, got: String(error.got), need: error.need};
    }
  };
  workerpool.worker({work});
}

/**
 * The same with its arrays of doubles in memory that threads share, so that passing it on copies nothing. A page may have no
 * such memory: then it is copied with each message.
 */
function inSharedMemory<T>(value: T): T {
  if (typeof SharedArrayBuffer === "undefined") return value;
  if (value instanceof Float64Array) {
    const shared = new Float64Array(new SharedArrayBuffer(value.byteLength));
    shared.set(value);
    return shared as T;
  }
  if (Array.isArray(value)) return value.map(inSharedMemory) as T;
  if (value && Object.getPrototypeOf(value) === Object.prototype) {
    return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, inSharedMemory(own)])) as T;
  }
  return value;
}
