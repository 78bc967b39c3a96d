/**
 * Expected: what the study computed by itself gives, to the bit, whatever was solved before; and of each edit, which parts of
 * the model it enters, from the equations of docs/theory/life.md.
 */
import {beforeAll, describe, expect, test} from "vitest";
import {computeLife, computeModel, type LiveLives, openLiveLives} from "../../../src/compute/index.ts";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import type {LifeResult, Study} from "../../../src/engine/life/index.ts";
import {type NotedPool, notedPool} from "./inProcess.ts";
import {again, STUDY, weeks, withClasses, withLayers, withMaterials, withSections} from "./studies.ts";

const SPAN = 0.5;
/** Seconds on a machine that has nothing else to do [ms]. */
const PATIENCE = 60_000;

const alone = (study: Study): Promise<LifeResult> => computeLife(study, {pool: notedPool().openPool()});

function live(pool: NotedPool, memory?: number): LiveLives {
  return openLiveLives({openPool: pool.openPool, workers: 1, span: SPAN, memory});
}

/** Kinds of tasks done, each with its treatments: "thermal 0 1". */
function told(done: readonly string[]): string[] {
  const kinds = ["spring", "waves", "thermal", "ordinary", "traffic"];
  return kinds.flatMap(kind => {
    const own = [...new Set(done.filter(d => d.startsWith(kind)).map(d => d.split(" ")[1]))].sort();
    return own.length ? [`${kind} ${own.join(" ")}`] : [];
  });
}

const ALL = ["spring 0", "waves 0 1", "thermal 0 1", "ordinary 0 1", "traffic 0 1"];
const WHEELS = ["spring 0", "waves 0 1", "traffic 0 1"];
const LOADS = ["spring 0", "waves 0 1", "ordinary 0 1", "traffic 0 1"];

describe("lives that follow edits", () => {
  const pool = notedPool();
  const lives = live(pool);
  beforeAll(async () => {
    const model = await lives.solve(STUDY);
    expect(told(pool.done())).toEqual(ALL);
    expect(model).toEqual(await computeModel(STUDY, SPAN, {pool: notedPool().openPool()}));
    expect(model.base).toEqual(await alone(STUDY));
  }, PATIENCE);

  test.each<[string, string[], Study]>([
    ["nothing, read once more", [], again(STUDY)],
    [
      "names and words",
      [],
      {...again(STUDY), name: "other", treatments: STUDY.treatments.map(t => ({...t, name: "other"}))},
    ],
    [
      "names of materials",
      ["ordinary 0 1"],
      withMaterials(STUDY, m => ({...m, name: `${m.name} 2`, source: "hearsay"})),
    ],
    ["counts", ["ordinary 0 1"], withClasses(STUDY, (c, k) => ({...c, passesPerYear: c.passesPerYear * (2 - k)}))],
    [
      "growth of one class: two streams",
      ["ordinary 0 1"],
      withClasses(STUDY, (c, k) => ({...c, growth: 0.02 + 0.01 * k})),
    ],
    [
      "a lighter half load",
      ["ordinary 0 1"],
      withClasses(STUDY, (c, k) => (k ? {...c, wheels: c.wheels.map(w => ({...w, load: 1e4}))} : c)),
    ],
    ["analysis period", ["ordinary 0 1"], {...STUDY, analysisPeriod: 31}],
    [
      "fatigue strain",
      ["ordinary 0 1"],
      withMaterials(STUDY, m => ({...m, fatigue: m.fatigue && {...m.fatigue, strainAtMillion: 1e-4}})),
    ],
    [
      "expansion, relaxation and neutral temperature",
      ["thermal 0 1"],
      {
        ...withMaterials(STUDY, m => ({
          ...m,
          expansion: 1.1 * m.expansion,
          relaxationModulus: 0.9 * m.relaxationModulus,
        })),
        neutralTemperature: 25,
      },
    ],
    [
      "load transfer",
      WHEELS,
      withSections(STUDY, s => ({...s, joint: {...s.joint, transfer: {kind: "spring", stiffness: 1e8}}})),
    ],
    ["wander", LOADS, withClasses(STUDY, c => ({...c, wander: {kind: "uniform", width: 0.5}}))],
    [
      "heavier loads",
      LOADS,
      withClasses(STUDY, c => ({...c, wheels: c.wheels.map(w => ({...w, load: 1.1 * w.load}))})),
    ],
    [
      "exponent",
      ["spring 0", "waves 0 1", "thermal 0 1", "traffic 0 1"],
      withMaterials(STUDY, m => ({...m, growth: m.growth && {...m.growth, exponent: 4.2}})),
    ],
    ["another record", ALL, {...STUDY, weather: weeks(12)}],
    [
      "one treatment",
      ["spring 0", "waves 1", "thermal 1", "ordinary 1", "traffic 1"],
      withLayers(STUDY, (l, k) => (k === 1 && l.role === "overlay" ? {...l, thickness: 0.065} : l)),
    ],
  ])("%s: what must be is solved again, and the lives are those of the study by itself", async (_, expected, study) => {
    await lives.solve(STUDY);
    pool.done();
    const {base} = await lives.solve(study);
    expect(told(pool.done())).toEqual(expected);
    expect(base).toEqual(await alone(study));
    await lives.solve(again(STUDY));
    expect(told(pool.done())).toEqual([]); // what was solved before is still there
  });

  test("another A: nothing is solved, all growth follows", async () => {
    const study = withMaterials(STUDY, m => ({
      ...m,
      growth: m.growth && {...m.growth, coefficient: m.growth.coefficient * (m.name === "overlay" ? 1.7 : 0.4)},
    }));
    await lives.solve(STUDY);
    pool.done();
    const {base} = await lives.solve(study);
    expect(pool.done()).toEqual([]);
    const direct = await alone(study);
    base.treatments.forEach(({histories}, k) => {
      histories.forEach(({life}, s) => {
        // A multiplies all growth: rounding is all that differs, 1e-16 a step over some hundred steps.
        expect(life.years / direct.treatments[k].histories[s].life.years).toBeCloseTo(1, 11);
      });
    });
  });

  test("treatments in another order, or one twice: each section is solved once", async () => {
    const given: Study = {...STUDY, bins: [{temperature: 10, share: 1}]}; // else the first decides the bins
    await lives.solve(given);
    pool.done();
    const turned = {...given, treatments: [...given.treatments].reverse()};
    expect((await lives.solve(turned)).base).toEqual(await alone(turned));
    const twice = {...given, treatments: [...given.treatments, {...given.treatments[1], name: "the same"}]};
    expect((await lives.solve(twice)).base).toEqual(await alone(twice));
    expect(pool.done()).toEqual([]);
  });

  test("quickly: the change of the model gives the life of the study computed by itself", async () => {
    await lives.solve(STUDY);
    const study = withClasses(STUDY, c => ({...c, passesPerYear: 1.3 * c.passesPerYear, growth: c.growth + 0.01}));
    const quick = lives.quick(again(study));
    expect(quick?.change).toMatchObject({passes: 1.3, loads: 1});
    const direct = await alone(study);
    quick?.lives.forEach(({years}, k) => {
      // The model's own tolerance against a study computed anew, as in the test of the model: 0.5 %.
      expect(Math.abs(years / direct.treatments[k].governing.life.years - 1)).toBeLessThan(0.005);
    });
    expect(quick?.lives.length).toBe(2);
    expect(lives.quick({...study, accuracy: 0.04})).toBeNull();
  });
});

test("before the first study is solved nothing is told", () => {
  expect(live(notedPool()).quick(STUDY)).toBeNull();
});

test("broken off: what was finished is kept, and a new pool goes on", async () => {
  const stop = new AbortController();
  const pool = notedPool(task => {
    if (task.kind === "traffic" && task.treatment === 1) stop.abort();
  });
  const lives = live(pool);
  await expect(lives.solve(STUDY, {signal: stop.signal})).rejects.toBeInstanceOf(Cancelled);
  expect(told(pool.done())).toContain("traffic 0");
  const {base} = await lives.solve(STUDY);
  expect(told(pool.done())).toEqual(["spring 0", "waves 1", "traffic 1"]);
  expect(base).toEqual(await alone(STUDY));
  expect(pool.opened()).toBe(2);
  await expect(lives.solve(STUDY, {signal: stop.signal})).rejects.toBeInstanceOf(Cancelled); // told before it begins
});

test("an impossible study leaves the last model and the next solution as they were", async () => {
  const lives = live(notedPool());
  const {base} = await lives.solve(STUDY);
  await expect(lives.solve({...STUDY, accuracy: 1})).rejects.toBeInstanceOf(InputError);
  expect(lives.quick(STUDY)?.model.base).toBe(base);
  expect((await lives.solve(again(STUDY))).base).toEqual(base);
});

test("several at once wait for each other", async () => {
  const lives = live(notedPool());
  const more = withClasses(STUDY, c => ({...c, passesPerYear: 2e5}));
  const both = await Promise.all([lives.solve(STUDY), lives.solve(more)]);
  expect(both.map(m => m.base.study)).toEqual([STUDY, more]);
  expect(lives.quick(more)?.model).toBe(both[1]);
});

test("little memory keeps the pieces of the last study, and those alone", async () => {
  const pool = notedPool();
  const lives = live(pool, 0);
  await lives.solve(STUDY);
  await lives.solve(withClasses(STUDY, c => ({...c, passesPerYear: 2e5})));
  pool.done();
  await lives.solve(STUDY);
  expect(told(pool.done())).toEqual(["ordinary 0 1"]);
});
