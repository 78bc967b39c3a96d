import {Piscina} from "piscina";
import {Cancelled, InputError} from "../engine/errors.ts";
import {type Assignment, type Outcome, PART_SCALE, type PoolData} from "./worker.ts";

export interface PoolProgress {
  readonly done: number; // of all work, by weight [–]
  readonly running: readonly number[]; // indices of tasks begun and not ended
}

export interface PoolRequest<Task> {
  readonly entry: URL; // a module whose default export was made by `poolWorker`
  readonly shared: unknown; // cloned once into each worker
  readonly tasks: readonly Task[];
  readonly workers: number; // ≥ 1
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: PoolProgress) => void) | undefined;
}

/** Between two looks at the workers' progress [ms]. */
const LOOK_EVERY = 100;

/**
 * Runs tasks on worker threads, the heaviest first. Even a single worker is a thread of its own: the caller stays free to
 * show progress and to hear an interrupt.
 *
 * @returns results in the order of the tasks, whatever the number of workers
 * @throws what the first failing task threw, an InputError as one; Cancelled when the signal is aborted
 */
export async function runOnWorkers<Task extends {readonly weight: number}, Result>(
  request: PoolRequest<Task>,
): Promise<Result[]> {
  const {entry, shared, tasks, signal} = request;
  if (signal?.aborted) throw new Cancelled();
  if (tasks.length === 0) return [];

  const parts = new Int32Array(new SharedArrayBuffer(tasks.length * Int32Array.BYTES_PER_ELEMENT));
  const threads = Math.min(request.workers, tasks.length);
  const data: PoolData<unknown> = {shared, parts};
  const pool = new Piscina({filename: entry.href, minThreads: threads, maxThreads: threads, workerData: data});
  // A worker ended in the middle of a task may still report it, which the pool tells as an error: heard and left aside
  // once the race below is decided.
  const broken = new Promise<never>((_, reject) => void pool.on("error", reject));
  const look = setInterval(() => request.onProgress?.(progressOf(tasks, parts)), LOOK_EVERY);
  const stop = (): void => void pool.destroy();
  signal?.addEventListener("abort", stop, {once: true});

  const results: Result[] = new Array(tasks.length);
  try {
    const queue = heaviestFirst(tasks); // the pool's own is not strictly first in, first out
    const lane = async (): Promise<void> => {
      for (let index = queue.shift(); index !== undefined; index = queue.shift()) {
        const outcome: Outcome<Result> = await pool.run({index, task: tasks[index]} satisfies Assignment<Task>);
        if (outcome.kind === "input") throw new InputError(outcome.code, outcome.path, outcome.got, outcome.need);
        Atomics.store(parts, index, 1 + PART_SCALE);
        results[index] = outcome.result;
      }
    };
    await Promise.race([Promise.all(Array.from({length: threads}, lane)), broken]);
  } catch (error) {
    throw signal?.aborted ? new Cancelled() : error;
  } finally {
    clearInterval(look);
    signal?.removeEventListener("abort", stop);
    await pool.destroy();
  }
  request.onProgress?.({done: 1, running: []});
  return results;
}

function heaviestFirst(tasks: readonly {readonly weight: number}[]): number[] {
  return tasks.map((_, i) => i).sort((a, b) => tasks[b].weight - tasks[a].weight || a - b);
}

function progressOf(tasks: readonly {readonly weight: number}[], parts: Int32Array): PoolProgress {
  let whole = 0;
  let done = 0;
  const running: number[] = [];
  tasks.forEach(({weight}, i) => {
    const part = Math.max(0, Atomics.load(parts, i) - 1) / PART_SCALE;
    whole += weight;
    done += weight * part;
    if (Atomics.load(parts, i) > 0 && part < 1) running.push(i);
  });
  return {done: whole > 0 ? done / whole : 0, running};
}
