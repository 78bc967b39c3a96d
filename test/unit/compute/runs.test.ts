/** Expected: squares of whole numbers; a run that goes on hands over what one that was not broken off does. */
import {expect, test} from "vitest";
import {memoryRun, partOfRun, type Run, runPoints, unsavedRun} from "../../../src/compute/index.ts";
import {nextTurn} from "../../../src/compute/turn.ts";
import {Cancelled} from "../../../src/engine/errors.ts";

async function squares(run: Run, stopAt = Infinity): Promise<{taken: number[]; evaluated: number[]}> {
  const stop = new AbortController();
  const taken: number[] = [];
  const evaluated: number[] = [];
  await runPoints({
    points: [0, 1, 2, 3, 4, 5, 6],
    key: String,
    evaluate: async k => {
      await nextTurn();
      evaluated.push(k);
      if (k === stopAt) stop.abort();
      return k * k;
    },
    take: (result: number) => taken.push(result),
    run,
    slots: 2,
    signal: stop.signal,
  }).catch(error => {
    if (!(error instanceof Cancelled)) throw error;
  });
  return {taken, evaluated};
}

test("in memory: broken off and gone on with, nothing is evaluated twice", async () => {
  const run = memoryRun();
  const first = await squares(run, 3);
  expect(run.count).toBe(first.evaluated.length);
  expect(run.count).toBeLessThan(7);
  run.close();
  const second = await squares(run);
  expect(second.taken).toEqual([0, 1, 4, 9, 16, 25, 36]);
  expect([...first.evaluated, ...second.evaluated].sort()).toEqual([0, 1, 2, 3, 4, 5, 6]);
  expect(run.count).toBe(7);
  expect(() => run.read("8")).toThrow("no point 8");
});

test("results that are undefined or null are points as well", () => {
  const run = memoryRun();
  run.append("a", null);
  expect([run.has("a"), run.read("a"), run.has("b")]).toEqual([true, null, false]);
});

test("part of a run has its own points only", () => {
  const run = memoryRun();
  const part = partOfRun(run, "x ");
  part.append("1", 10);
  run.append("1", 20);
  expect([run.read("x 1"), part.read("1"), part.has("2"), unsavedRun().has("1")]).toEqual([10, 10, false, false]);
});

test("timers have their turn", async () => {
  let rung = false;
  setTimeout(() => {
    rung = true;
  }, 5);
  const start = Date.now();
  while (!rung && Date.now() - start < 5000) await nextTurn();
  expect(rung).toBe(true);
});
