import {spawn} from "node:child_process";
import {appendFileSync, existsSync, readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import {describe, expect, test} from "vitest";
import {type PointsRequest, runPoints, unsavedRun} from "../../../../src/compute/index.ts";
import {Cancelled} from "../../../../src/engine/errors.ts";
import {openRun, RunFileError} from "../../../../src/node/runs/index.ts";
import {testFolder} from "../../folder.ts";
import {HEADER, type Square, square} from "./squares.ts";

const at = testFolder("test");
const linesOf = (file: string): string[] => readFileSync(file, "utf8").split("\n").slice(0, -1);

interface Taken {
  readonly taken: [point: number, result: Square][];
  readonly evaluated: number[];
}

/** Squares of 0 to count − 1, the slower the smaller; what was handed over, and what was computed for it. */
async function squares(count: number, options: Partial<PointsRequest<number, Square>>): Promise<Taken> {
  const taken: Taken["taken"] = [];
  const evaluated: number[] = [];
  await runPoints<number, Square>({
    points: Array.from({length: count}, (_, k) => k),
    key: String,
    evaluate: async k => {
      evaluated.push(k);
      await new Promise(resolve => setTimeout(resolve, k % 2 === 0 ? 8 : 1));
      return square(k);
    },
    take: (result, point) => taken.push([point, result]),
    run: unsavedRun(),
    slots: 3,
    ...options,
  });
  return {taken, evaluated};
}

const all = (count: number): Taken["taken"] => Array.from({length: count}, (_, k) => [k, square(k)]);

describe("points", () => {
  test("are handed over in their order, whatever order they end in", async () => {
    const {taken, evaluated} = await squares(20, {});
    expect(taken).toEqual(all(20));
    expect(evaluated.length).toBe(20);
  });

  test("that the file has are not computed again", async () => {
    const file = at("a.run");
    const first = openRun(file, HEADER);
    await squares(7, {run: first});
    first.close();
    const second = openRun(file, HEADER);
    expect(second.count).toBe(7);
    const {taken, evaluated} = await squares(12, {run: second});
    second.close();
    expect(evaluated.sort((a, b) => a - b)).toEqual([7, 8, 9, 10, 11]);
    expect(taken).toEqual(all(12));
  });

  test("a failing one ends the run; what was finished before is kept", async () => {
    const file = at("a.run");
    const run = openRun(file, HEADER);
    const evaluate = async (k: number): Promise<Square> => {
      if (k === 5) throw new Error("five");
      return square(k);
    };
    await expect(squares(50, {run, evaluate})).rejects.toThrow("five");
    run.close();
    expect(linesOf(file).length).toBeGreaterThan(5);
    expect(linesOf(file).length).toBeLessThan(12);
  });

  test("an abort ends it with Cancelled", async () => {
    const stop = new AbortController();
    const take = (_: Square, point: number): void => {
      if (point === 3) stop.abort();
    };
    await expect(squares(50, {take, signal: stop.signal})).rejects.toThrow(Cancelled);
  });

  test("one that takes long does not make the others pile up without limit", async () => {
    let ended = 0;
    let most = 0;
    const evaluate = async (k: number): Promise<Square> => {
      if (k === 0) await new Promise(resolve => setTimeout(resolve, 60));
      ended++;
      if (k !== 0) most = Math.max(most, ended);
      return square(k);
    };
    let handed = 0;
    const {taken} = await squares(5000, {
      evaluate: async k => {
        const result = await evaluate(k);
        expect(k - handed).toBeLessThanOrEqual(64 * 3);
        return result;
      },
      take: () => {
        handed++;
      },
    });
    expect(taken).toEqual([]);
    expect(handed).toBe(5000);
  });

  test("tells how many are done and how long the others take", async () => {
    const told: [number, number, number | null][] = [];
    await squares(10, {
      onProgress: ({done, total, secondsLeft}) => told.push([done, total, secondsLeft]),
    });
    expect(told[0]).toEqual([0, 10, null]);
    expect(told.at(-1)).toEqual([10, 10, 0]);
    expect(told[6][2]).toBeGreaterThan(0);
  });
});

describe("the run file", () => {
  test("killed in mid-run and gone on with, it is as an unbroken run", async () => {
    const [file, count] = [at("killed.run"), 120];
    const child = spawn(process.execPath, [path.join(import.meta.dirname, "slowRun.ts"), file, String(count)]);
    const ended = new Promise(resolve => child.on("exit", (_, signal) => resolve(signal)));
    while (!existsSync(file) || linesOf(file).length < 15) await new Promise(resolve => setTimeout(resolve, 5));
    child.kill("SIGKILL");
    expect(await ended).toBe("SIGKILL");
    const before = linesOf(file).length - 1;
    expect(before).toBeLessThan(count);

    const run = openRun(file, HEADER); // the lock of the dead process is taken over
    const {taken, evaluated} = await squares(count, {run});
    run.close();
    expect(taken).toEqual(all(count));
    expect(evaluated.length).toBeGreaterThanOrEqual(count - before);
    expect(evaluated.length).toBeLessThan(count);
    const unbroken = openRun(at("unbroken.run"), HEADER);
    await squares(count, {run: unbroken});
    unbroken.close();
    expect(linesOf(file).toSorted()).toEqual(linesOf(at("unbroken.run")).toSorted());
    expect(existsSync(`${file}.lock`)).toBe(false);
  }, 30_000);

  test("a last line that was cut off is dropped, wherever it was cut", async () => {
    const whole = at("whole.run");
    const run = openRun(whole, HEADER);
    await squares(4, {run});
    run.close();
    const text = readFileSync(whole, "utf8");
    const lastLine = text.lastIndexOf("\n", text.length - 2) + 1;
    for (let cut = lastLine; cut < text.length; cut++) {
      const file = at("cut.run");
      writeFileSync(file, text.slice(0, cut));
      const again = openRun(file, HEADER);
      expect(again.count).toBe(3);
      again.append("new", 1);
      again.close();
      expect(readFileSync(file, "utf8")).toMatch(/\n$/); // nothing is left behind it
      expect(linesOf(file).length).toBe(5);
      expect(JSON.parse(linesOf(file)[4])).toEqual({key: "new", result: 1});
    }
  });

  test("a header that was cut off is written anew", () => {
    const file = at("a.run");
    writeFileSync(file, '{"kind":"seamwri');
    openRun(file, HEADER).close();
    expect(JSON.parse(linesOf(file)[0])).toEqual({kind: "seamwright run", format: 1, ...HEADER});
  });

  test("of other inputs it is refused, and says what differs", () => {
    const file = at("a.run");
    openRun(file, HEADER).close();
    const other = {software: "1.2.4", inputs: "abd", settings: {command: "squares", accuracy: 1, more: true}};
    expect(() => openRun(file, other)).toThrow(
      `cannot go on with ${file}: software was 1.2.3 and is 1.2.4; the study or a file that it names has changed since; accuracy was 2 and is 1; more was nothing and is true; take another file`,
    );
    expect(existsSync(`${file}.lock`)).toBe(false);
  });

  test("what is no run file is refused and left as it is", () => {
    const file = at("study.yaml");
    for (const text of ["format: 1\nname: Road\n", '{"format": 1}\n', '{"name": "Road"}', '{"kind":"other"}']) {
      writeFileSync(file, text);
      expect(() => openRun(file, HEADER)).toThrow("it is not a run file");
      expect(readFileSync(file, "utf8")).toBe(text);
    }
  });

  test("a broken line in the middle is told", () => {
    const file = at("a.run");
    openRun(file, HEADER).close();
    appendFileSync(file, 'oops\n{"key":"1","result":1}\n');
    expect(() => openRun(file, HEADER)).toThrow("its line 2 is not one of a run");
  });

  test("is one process's at a time", () => {
    const file = at("a.run");
    const run = openRun(file, HEADER);
    expect(() => openRun(file, HEADER)).toThrow(RunFileError);
    expect(() => openRun(file, HEADER)).toThrow(`process ${process.pid} on `);
    run.close();
    openRun(file, HEADER).close();
  });

  test("long lines and many of them are found again", () => {
    const file = at("a.run");
    const run = openRun(file, HEADER);
    const long = "é".repeat(50_000);
    for (let k = 0; k < 40; k++) run.append(`point ${k}`, {k, long: k % 7 === 0 ? long : ""});
    run.close();
    const again = openRun(file, HEADER);
    expect(again.count).toBe(40);
    expect(again.read("point 14")).toEqual({k: 14, long});
    expect(again.read("point 39")).toEqual({k: 39, long: ""});
    again.close();
  });
});
