import path from "node:path";
import {describe, expect, test} from "vitest";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import {openPool, type PoolProgress} from "../../../src/pool/index.ts";
import type {StubResult, StubTask} from "./stubWorker.ts";

const entry = path.join(import.meta.dirname, "stubWorker.ts");
const task = (
  weight: number,
  wait = 1,
  {outcome = "answer", needs}: {outcome?: StubTask["outcome"]; needs?: number[]} = {},
): StubTask => ({weight, wait, outcome, needs, values: Float64Array.of(weight, Number.POSITIVE_INFINITY)});

async function run(
  tasks: readonly StubTask[],
  {workers = 2, ...options}: {workers?: number; signal?: AbortSignal; onProgress?: (p: PoolProgress) => void} = {},
): Promise<(StubResult | undefined)[]> {
  const pool = openPool(entry, workers);
  try {
    return await pool.run<StubTask, StubResult>(tasks, options);
  } finally {
    await pool.close();
  }
}

describe("the pool", () => {
  test("gives results in the order of the tasks for any number of workers", async () => {
    const tasks = [task(1, 30), task(5, 1), task(3, 10), task(4, 2)];
    for (const workers of [1, 2, 7]) {
      const results = await run(tasks, {workers});
      expect(results.map(r => r!.values)).toEqual(tasks.map(t => t.values));
      expect(results.map(r => r!.limit)).toEqual(tasks.map(() => Number.POSITIVE_INFINITY));
    }
  });

  test("begins them in the order of the list", async () => {
    const results = await run([task(1, 15), task(3, 15), task(2, 15)], {workers: 1});
    const began = results.map(r => r!.began);
    expect(began).toEqual([...began].sort((a, b) => a - b));
  });

  test("a task that needs others waits for them and is given their results, in memory that threads share", async () => {
    const tasks = [
      task(1, 40),
      task(10, 1),
      task(100, 1, {needs: [0, 1]}),
      task(1000, 1, {needs: [1]}),
      task(10_000, 1, {needs: [2, 0, 0]}),
    ];
    for (const workers of [1, 2, 3]) {
      const results = await run(tasks, {workers});
      expect(results.map(r => r?.values[0])).toEqual([undefined, undefined, undefined, 1010, 10_113]);
      expect(results[4]!.inputsShared).toBe(true);
    }
  });

  test("workers stay for the next run", async () => {
    const pool = openPool(entry, 1);
    const first = await pool.run<StubTask, StubResult>([task(2)]);
    const second = await pool.run<StubTask, StubResult>([task(3)]);
    await pool.close();
    expect([first[0]!.values[0], second[0]!.values[0]]).toEqual([2, 3]);
  });

  test("tells each result that is asked for as soon as it is there, and keeps those told before an abort", async () => {
    const stop = new AbortController();
    const told: [number, number][] = [];
    const pool = openPool(entry, 1);
    const running = pool.run<StubTask, StubResult>([task(1), task(2), task(4, 1, {needs: [0]}), task(8, 60_000)], {
      signal: stop.signal,
      onResult: ({values}, index) => {
        told.push([index, values[0]]);
        if (told.length === 2) stop.abort();
      },
    });
    await expect(running).rejects.toBeInstanceOf(Cancelled);
    expect(told).toEqual([
      [1, 2],
      [2, 5],
    ]);
  });

  test("has nothing to do for no tasks", async () => {
    expect(await run([])).toEqual([]);
  });

  test("tells progress by weight, rising to 1", async () => {
    const seen: PoolProgress[] = [];
    await run([task(3, 600), task(1, 10)], {workers: 2, onProgress: p => seen.push(p)});
    const done = seen.map(p => p.done);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(done.at(-1)).toBe(1);
    expect(seen.some(p => p.running.length === 1 && p.running[0] === 0 && p.done > 0.25 && p.done < 1)).toBe(true);
  });

  test("an InputError stays one on its way from the thread", async () => {
    const error = await run([task(1, 200), task(2, 1, {outcome: "inputError"})]).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).message).toBe("joint.width: got NaN, need finite, > 0 [m]");
    expect((error as InputError).code).toBe("domain");
  });

  test("another error keeps its message and stack", async () => {
    const error = await run([task(1, 1, {outcome: "otherError"})]).catch((e: unknown) => e);
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
