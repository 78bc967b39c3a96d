import workerpool from "workerpool";
import {Cancelled, InputError} from "../engine/errors.ts";
import type {Assignment, Outcome} from "./messages.ts";
import {sharedMemoryOf} from "./sharedMemory.ts";

export interface PoolTask {
  readonly weight: number; // of its time [–]
  readonly needs?: readonly number[] | undefined; // earlier tasks whose results it is given, in this order
}

export interface PoolProgress {
  readonly done: number; // of all work, by weight [–]
  readonly running: readonly number[]; // indices of tasks begun and not ended
}

export interface RunOptions<Result = unknown> {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: PoolProgress) => void) | undefined;
  /** Told each result that is returned in the end as soon as it is there: what is finished outlives an abort. */
  readonly onResult?: ((result: Result, index: number) => void) | undefined;
}

/** Workers that stay and keep what they have warmed up. */
export interface Pool {
  /**
   * Runs tasks: the first of the list whose needs are there goes first. Even a single worker is a thread of its own, so the
   * caller stays free to show progress and to hear an interrupt.
   *
   * @returns results of the tasks that no other needs, in the order of the list; undefined for the others
   * @throws what the first failing task threw, an InputError as one; Cancelled when the signal is aborted. Either ends the
   *         workers: the pool is of no more use
   */
  run<Task extends PoolTask, Result>(
    tasks: readonly Task[],
    options?: RunOptions<Result>,
  ): Promise<(Result | undefined)[]>;
  close(): Promise<void>;
}

/** Between two looks at the progress [ms]. */
const LOOK_EVERY = 100;

/** Of a thread's memory for objects that have just been made: there are few, its arrays lie elsewhere. */
const YOUNG_MB = 8;

/**
 * @param entry    a module that calls `serveTasks`: its path in Node, its address in a page
 * @param workers  ≥ 1
 */
export function openPool(entry: string, workers: number): Pool {
  const pool = workerpool.pool(entry, {
    maxWorkers: workers,
    workerOpts: {type: "module"},
    workerThreadOpts: {resourceLimits: {maxYoungGenerationSizeMb: YOUNG_MB}},
  });
  // A question to each, whatever the answer: they start and load their module while the caller prepares the tasks.
  for (let k = 0; k < workers; k++) pool.exec("methods").catch(() => undefined);
  const close = async (): Promise<void> => void (await pool.terminate(true));
  return {
    close,
    run: async <Task extends PoolTask, Result>(
      tasks: readonly Task[],
      {signal, onProgress, onResult}: RunOptions<Result> = {},
    ) => {
      if (signal?.aborted) throw new Cancelled();
      const plan = schedule(tasks);
      const results: (Result | undefined)[] = new Array(tasks.length);
      const finals: (Result | undefined)[] = new Array(tasks.length);
      const spare: SharedArrayBuffer[] = [];
      const parts = new Float64Array(tasks.length).fill(-1); // done; −1 not begun
      const stop = (): void => void close();
      signal?.addEventListener("abort", stop, {once: true});
      const look = setInterval(() => onProgress?.(progressOf(tasks, parts)), LOOK_EVERY);

      const work = async (index: number): Promise<void> => {
        const task = tasks[index];
        const inputs = (task.needs ?? []).map(k => results[k] as Result);
        parts[index] = 0;
        const keep = plan.isNeeded(index);
        const outcome: Outcome<Result> = await pool.exec(
          "work",
          [{task, inputs, keep, spare: keep ? spare.splice(0) : []} satisfies Assignment<Task, Result>],
          {
            on: (part: number) => {
              parts[index] = Math.max(parts[index], part);
            },
          },
        );
        if (outcome.kind === "input") throw new InputError(outcome.code, outcome.path, outcome.got, outcome.need);
        parts[index] = 1;
        if (keep) results[index] = outcome.result;
        else {
          finals[index] = outcome.result;
          onResult?.(outcome.result, index);
        }
        spare.push(...outcome.spare);
        for (const k of plan.finish(index)) {
          spare.push(...sharedMemoryOf(results[k]));
          results[k] = undefined;
        }
      };
      try {
        await new Promise<void>((resolve, reject) => {
          const startSome = (): void => {
            if (signal?.aborted) {
              reject(new Cancelled()); // between two tasks there is none that could fail
              return;
            }
            for (let index = plan.next(workers); index >= 0; index = plan.next(workers))
              work(index).then(startSome, reject);
            if (plan.isDone()) resolve();
          };
          startSome();
        });
      } catch (error) {
        await close();
        throw signal?.aborted ? new Cancelled() : error;
      } finally {
        clearInterval(look);
        signal?.removeEventListener("abort", stop);
      }
      onProgress?.({done: 1, running: []});
      return finals;
    },
  };
}

/** Which task may begin, and which results have been used by all who need them. */
function schedule(tasks: readonly PoolTask[]) {
  const users = new Int32Array(tasks.length); // tasks to come that need the result
  for (const {needs} of tasks) for (const k of needs ?? []) users[k]++;
  const needed = users.map(u => (u > 0 ? 1 : 0));
  const ended = new Uint8Array(tasks.length);
  const waiting = tasks.map((_, k) => k);
  let running = 0;
  let left = tasks.length;
  return {
    isNeeded: (index: number): boolean => needed[index] === 1,
    isDone: (): boolean => left === 0,
    /** The next task to begin, or −1. */
    next: (workers: number): number => {
      if (running >= workers) return -1;
      const at = waiting.findIndex(k => (tasks[k].needs ?? []).every(n => ended[n]));
      if (at < 0) return -1;
      running++;
      return waiting.splice(at, 1)[0];
    },
    /** Tells the results that nobody needs any more. */
    finish: (index: number): number[] => {
      running--;
      left--;
      ended[index] = 1;
      return (tasks[index].needs ?? []).filter(k => --users[k] === 0);
    },
  };
}

function progressOf(tasks: readonly PoolTask[], parts: Float64Array): PoolProgress {
  let whole = 0;
  let done = 0;
  const running: number[] = [];
  tasks.forEach(({weight}, i) => {
    const part = Math.max(0, parts[i]);
    whole += weight;
    done += weight * part;
    if (parts[i] >= 0 && part < 1) running.push(i);
  });
  return {done: whole > 0 ? done / whole : 0, running};
}
