import {describe, expect, test} from "vitest";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import {type PoolProgress, runOnWorkers} from "../../../src/node/pool.ts";
import type {StubResult, StubShared, StubTask} from "./stubWorker.ts";

const entry = new URL("stubWorker.ts", import.meta.url);
const shared: StubShared = {values: Float64Array.of(1, Number.POSITIVE_INFINITY), limit: Number.POSITIVE_INFINITY};
const task = (weight: number, wait = 1, then: StubTask["then"] = "answer"): StubTask => ({weight, wait, then});

const run = (
  tasks: readonly StubTask[],
  more: {workers?: number; signal?: AbortSignal; onProgress?: (p: PoolProgress) => void} = {},
) => runOnWorkers<StubTask, StubResult>({entry, shared, tasks, workers: 2, ...more});

describe("the pool", () => {
  test("gives results in the order of the tasks for any number of workers", async () => {
    const tasks = [task(1, 30), task(5, 1), task(3, 10), task(4, 2)];
    for (const workers of [1, 2, 7]) {
      const results = await run(tasks, {workers});
      expect(results.map(r => r.values)).toEqual(tasks.map(t => Float64Array.of(t.weight, Number.POSITIVE_INFINITY)));
      expect(results.map(r => r.limit)).toEqual(tasks.map(() => Number.POSITIVE_INFINITY));
    }
  });

  test("begins the heaviest first", async () => {
    const results = await run([task(1, 15), task(3, 15), task(2, 15)], {workers: 1});
    const order = results.map((r, i) => ({i, began: r.began})).sort((a, b) => a.began - b.began);
    expect(order.map(o => o.i)).toEqual([1, 2, 0]);
  });

  test("has nothing to do for no tasks", async () => {
    expect(await run([])).toEqual([]);
  });

  test("tells progress by weight, rising to 1", async () => {
    const seen: PoolProgress[] = [];
    await run([task(3, 400), task(1, 10)], {workers: 2, onProgress: p => seen.push(p)});
    const done = seen.map(p => p.done);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(done.at(-1)).toBe(1);
    expect(seen.some(p => p.running.length === 1 && p.running[0] === 0 && p.done > 0.25 && p.done < 1)).toBe(true);
  });

  test("an InputError stays one on its way from the thread", async () => {
    const error = await run([task(1, 200), task(2, 1, "inputError")]).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).message).toBe("joint.width: got NaN, need finite, > 0 [m]");
    expect((error as InputError).code).toBe("domain");
  });

  test("another error keeps its message and stack", async () => {
    const error = await run([task(1, 1, "otherError")]).catch((e: unknown) => e);
    expect((error as Error).message).toBe("out of the blue");
    expect((error as Error).stack).toContain("stubWorker.ts");
  });

  test("stops at once when told to, even in the middle of a task", async () => {
    const stop = new AbortController();
    const start = Date.now();
    setTimeout(() => stop.abort(), 150);
    const error = await run([task(1, 60_000), task(1, 60_000), task(1, 60_000)], {signal: stop.signal}).catch(e => e);
    expect(error).toBeInstanceOf(Cancelled);
    expect(Date.now() - start).toBeLessThan(10_000);
  });

  test("does not begin when told to stop before", async () => {
    const error = await run([task(1)], {signal: AbortSignal.abort()}).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(Cancelled);
  });
});
