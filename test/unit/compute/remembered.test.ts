import {describe, expect, test} from "vitest";
import {onlyNeeded} from "../../../src/compute/live/onlyNeeded.ts";
import {pieceStore, recordNumbers, rememberedTemperatures} from "../../../src/compute/live/remembered.ts";
import {sameContent} from "../../../src/compute/live/sameContent.ts";
import {pavementTemperatures} from "../../../src/engine/climate/index.ts";
import {type LifePiece, type LifeTask, lifePlan, type SolvedPiece} from "../../../src/engine/life/index.ts";
import {again, STUDY, weeks} from "./studies.ts";

describe("same content", () => {
  test.each<[unknown, unknown]>([
    [1, 1],
    [0, -0],
    [Number.NaN, Number.NaN],
    [Infinity, Infinity],
    [
      [1, [2]],
      [1, [2]],
    ],
    [{a: 1, b: undefined}, {a: 1}],
    [{a: 1}, {a: 1, b: undefined}],
    [
      {a: 1, b: 2},
      {b: 2, a: 1},
    ],
    [Float64Array.of(1, Number.NaN), Float64Array.of(1, Number.NaN)],
    [null, null],
    [again(STUDY), STUDY],
  ])("%o and %o", (one, other) => expect(sameContent(one, other)).toBe(true));

  test.each<[unknown, unknown]>([
    [1, 2],
    [1, "1"],
    [Infinity, -Infinity],
    [Infinity, null],
    [0, null],
    [null, undefined],
    [null, {}],
    [[], {}],
    [[1], [1, 2]],
    [[1, 2], [1]],
    [[undefined], []],
    [{a: 1}, {b: 1}],
    [{a: 1}, {a: 1, b: null}],
    [{a: 1, b: null}, {a: 1}],
    [Float64Array.of(1, 2), Float64Array.of(1, 3)],
    [Float64Array.of(1), Int32Array.of(1)],
    [Float64Array.of(1), [1]],
  ])("not %o and %o", (one, other) => {
    expect(sameContent(one, other)).toBe(false);
    expect(sameContent(other, one)).toBe(false);
  });
});

test("records of the same content have the same number, others not", () => {
  const number = recordNumbers();
  const record = weeks();
  expect(number(again({...STUDY, weather: record}).weather!)).toBe(number(record));
  expect(number(weeks(11))).not.toBe(number(record));
  expect(number({...record, label: "other"})).not.toBe(number(record));
  for (let k = 0; k < 20; k++) number(weeks(20 + k)); // long ago now
  expect(number(record)).toBe(number(record));
});

test("temperatures of a year are computed once for each record, surface and way of conducting heat", () => {
  let computed = 0;
  const temperatures = rememberedTemperatures(recordNumbers(), (...given) => {
    computed++;
    return pavementTemperatures(...given);
  });
  const [{section}] = STUDY.treatments;
  const {exchange} = STUDY;
  const run = temperatures(section, weeks(), exchange);
  expect(temperatures(structuredClone(section), weeks(), {...exchange})).toBe(run);
  expect(run).toEqual(pavementTemperatures(section, weeks(), exchange));
  expect(computed).toBe(1);
  const [top, ...rest] = section.layers;
  const others = [
    temperatures(section, weeks(11), exchange),
    temperatures(
      {...section, layers: [{...top, material: {...top.material, conductivity: 1.1}}, ...rest]},
      weeks(),
      exchange,
    ),
    temperatures(section, {...weeks(), kind: "air"}, {...exchange, filmCoefficient: 20}),
  ];
  expect(new Set([run, ...others]).size).toBe(4);
  expect(computed).toBe(4);
});

test("pieces go when there are too many, the longest unused first, those in use never", () => {
  const solved = (doubles: number): SolvedPiece => ({
    task: {} as LifeTask,
    piece: {kind: "waves", values: [new Float64Array(doubles)]} as unknown as LifePiece,
  });
  const store = pieceStore(2500); // two of 1000 bytes beside those in use
  const kept = (): string[] => ["a", "b", "c", "d"].filter(key => store.get(key));
  for (const key of ["a", "b", "c", "d"]) store.keep(key, solved(125));
  store.settle(["d"]);
  expect(kept()).toEqual(["b", "c", "d"]);
  store.settle(["b"]); // c and d were used before
  expect(kept()).toEqual(["b", "c", "d"]);
  store.keep("a", solved(125));
  store.settle(["a", "b"]);
  expect(kept()).toEqual(["a", "b", "c", "d"]);
  store.settle(["a", "b", "c", "d"]);
  expect(kept()).toEqual(["a", "b", "c", "d"]);
});

test("wanted tasks with all that they need, in their order, the needs numbered anew", () => {
  const {tasks: all} = lifePlan(STUDY);
  const traffic = all.findLastIndex(t => t.kind === "traffic");
  const {tasks, places} = onlyNeeded(
    all,
    all.map((_, k) => k === traffic),
  );
  expect(places.at(-1)).toBe(traffic);
  expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
  tasks.forEach((task, k) => {
    expect(task.needs.map(n => places[n])).toEqual(all[places[k]].needs);
    expect(task.needs.every(n => n < k)).toBe(true);
  });
  const used = new Set(tasks.flatMap(t => t.needs));
  expect(tasks.every((_, k) => used.has(k) || places[k] === traffic)).toBe(true); // nothing idle
  expect(
    onlyNeeded(
      all,
      all.map(() => false),
    ),
  ).toEqual({tasks: [], places: []});
});
