/** A pool without threads that does the tasks of a life where it stands, and notes which. */
import {Cancelled} from "../../../src/engine/errors.ts";
import {type LifePiece, type LifeTask, lifeWorker} from "../../../src/engine/life/index.ts";
import type {Pool, PoolTask, RunOptions} from "../../../src/pool/index.ts";

export interface NotedPool {
  readonly openPool: () => Pool;
  /** Kinds and treatments of the tasks done since the last call. */
  done(): string[];
  opened(): number;
}

/** @param onTask  told before each task */
export function notedPool(onTask: (task: LifeTask) => void = () => undefined): NotedPool {
  const work = lifeWorker();
  let noted: string[] = [];
  let opened = 0;
  const run = async (
    tasks: readonly LifeTask[],
    {signal, onResult}: RunOptions<LifePiece>,
  ): Promise<(LifePiece | undefined)[]> => {
    const pieces: LifePiece[] = [];
    const needed = new Set(tasks.flatMap(t => t.needs));
    tasks.forEach((task, k) => {
      onTask(task);
      if (signal?.aborted) throw new Cancelled();
      const inputs = task.needs.map(n => pieces[n]);
      pieces.push(work(task, inputs));
      noted.push(`${task.kind} ${task.treatment}`);
      if (!needed.has(k)) onResult?.(pieces[k], k);
    });
    return pieces.map((piece, k) => (needed.has(k) ? undefined : piece));
  };
  return {
    openPool: () => {
      opened++;
      // The tasks of lives are the only ones that it is given.
      return {
        run: <Task extends PoolTask, Result>(tasks: readonly Task[], options: RunOptions<Result> = {}) =>
          run(tasks as unknown as LifeTask[], options as unknown as RunOptions<LifePiece>) as Promise<
            unknown[]
          > as Promise<(Result | undefined)[]>,
        close: async () => undefined,
      };
    },
    done: () => {
      const since = noted;
      noted = [];
      return since;
    },
    opened: () => opened,
  };
}
