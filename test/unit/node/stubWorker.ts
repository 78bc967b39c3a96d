/** A worker for the tests of the pool: tasks that wait, fail or report, and no physics. */
import {InputError} from "../../../src/engine/errors.ts";
import {poolWorker} from "../../../src/node/worker.ts";

export interface StubTask {
  readonly weight: number;
  readonly wait: number; // [ms]
  readonly then: "answer" | "inputError" | "otherError";
}

export interface StubShared {
  readonly values: Float64Array;
  readonly limit: number;
}

export interface StubResult {
  readonly values: Float64Array;
  readonly limit: number;
  readonly began: number; // [ms since the epoch]
}

export default poolWorker<StubShared, StubTask, StubResult>((shared, task, onProgress) => {
  const began = Date.now();
  while (Date.now() - began < task.wait) {
    onProgress((Date.now() - began) / task.wait);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
  }
  if (task.then === "inputError") throw new InputError("domain", "joint.width", Number.NaN, "finite, > 0 [m]");
  if (task.then === "otherError") throw new RangeError("out of the blue");
  return {values: shared.values.map(v => v * task.weight), limit: shared.limit, began};
});
