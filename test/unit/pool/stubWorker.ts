/** A worker for the tests of the pool: tasks that wait, fail or report, and no physics. */
import {InputError} from "../../../src/engine/errors.ts";
import {type PoolTask, serveTasks} from "../../../src/pool/index.ts";

export interface StubTask extends PoolTask {
  readonly values: Float64Array;
  readonly wait: number; // [ms]
  readonly outcome: "answer" | "inputError" | "otherError";
}

export interface StubResult {
  readonly values: Float64Array; // the task's and those of all its inputs, added
  readonly limit: number;
  readonly began: number; // [ms since the epoch]
  readonly inputsShared: boolean; // all inputs came in memory that threads share
}

serveTasks<StubTask, StubResult>((task, inputs, onProgress) => {
  const began = Date.now();
  while (Date.now() - began < task.wait) {
    onProgress((Date.now() - began) / task.wait);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
  }
  if (task.outcome === "inputError") throw new InputError("domain", "joint.width", Number.NaN, "finite, > 0 [m]");
  if (task.outcome === "otherError") throw new RangeError("out of the blue");
  return {
    values: task.values.map((v, k) => inputs.reduce((sum, input) => sum + input.values[k], v)),
    limit: Number.POSITIVE_INFINITY,
    began,
    inputsShared: inputs.every(i => i.values.buffer instanceof SharedArrayBuffer),
  };
});
