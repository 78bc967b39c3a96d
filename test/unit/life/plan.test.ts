import {describe, expect, test} from "vitest";
import {computeLife} from "../../../src/compute/index.ts";
import {type LifePiece, lifePlan, lifeWorker, type Study} from "../../../src/engine/life/index.ts";
import {correctionNodes} from "../../../src/engine/life/plan.ts";
import type {TrafficPiece} from "../../../src/engine/life/work.ts";
import {openLifePool} from "../../../src/node/index.ts";
import {section} from "../section/fixture.ts";

const wheel = {
  name: "wheel",
  wheels: [{x: 0, y: 0, load: 40e3, length: 0.24, width: 0.24}],
  passesPerYear: 1e5,
  growth: 0,
  group: null,
  wander: {kind: "normal", deviation: 0.25} as const,
};

/** Asphalt and interlayer soften with temperature, the base does not. */
const ROAD = (() => {
  const road = section();
  const soften = (at20: number) =>
    [-10, 50].map(temperature => ({temperature, modulus: at20 * 10 ** ((20 - temperature) / 30)}));
  return {
    ...road,
    layers: road.layers.map((l, k) =>
      k < 2 ? {...l, material: {...l.material, modulus: soften(l.material.modulus[0].modulus)}} : l,
    ),
  };
})();

const study = (temperatures: readonly number[]): Study => ({
  name: "test",
  treatments: [
    {name: "with", description: "", section: ROAD},
    {name: "without", description: "", section: {...ROAD, layers: ROAD.layers.filter(l => l.role !== "interlayer")}},
  ],
  traffic: {classes: [wheel], standardAxle: wheel, calendar: {hours: null, months: null}},
  weather: null,
  exchange: {absorptivity: 0.9, emissivity: 0.9, filmCoefficient: 15},
  bins: temperatures.map(temperature => ({temperature, share: 1 / temperatures.length})),
  neutralTemperature: null,
  analysisPeriod: 20,
  accuracy: 0.05,
  costs: null,
});

describe("a plan", () => {
  const {tasks} = lifePlan(study([0, 10, 20, 30, 40]));

  test("names only earlier tasks as needs, and the spring first", () => {
    tasks.forEach(({needs}, k) => void expect(needs.every(n => n < k)).toBe(true));
    for (const task of tasks)
      if (task.kind === "waves" || task.kind === "traffic") expect(tasks[task.needs[0]].kind).toBe("spring");
  });

  test("finds the load transfer once: the base is the same in all treatments at all temperatures", () => {
    expect(tasks.filter(t => t.kind === "spring").length).toBe(1);
  });

  test("solves the coarse mesh at every temperature, the halved one at three", () => {
    for (const treatment of [0, 1]) {
      const solved = (mesh: 0 | 1) =>
        new Set(
          tasks.flatMap(t => (t.kind === "waves" && t.treatment === treatment && t.mesh === mesh ? [t.moduli[0]] : [])),
        );
      expect([solved(0).size, solved(1).size]).toEqual([5, 3]);
    }
  });

  test("can be sent to another thread", () => {
    expect(structuredClone(tasks)).toEqual(tasks);
  });
});

describe("temperatures at which the halved mesh is solved", () => {
  test("are all of them when they are few", () => {
    const {nodes, weights} = correctionNodes([5, 3]);
    expect(nodes.map(n => [5, 3][n]).sort()).toEqual([3, 5]);
    weights.forEach(
      (w, k) => void expect(w.map((v, i) => v * [5, 3][nodes[i]]).reduce((a, b) => a + b)).toBe([5, 3][k]),
    );
  });

  test("equal places are one", () => {
    expect(correctionNodes([2, 2, 2])).toEqual({nodes: [0], weights: [[1], [1], [1]]});
  });

  test("are the ends and the middle of many; their weights give parabolas exactly", () => {
    const places = [9, 1, 2.5, 4, 5.2, 7];
    const {nodes, weights} = correctionNodes(places);
    expect(nodes.map(n => places[n])).toEqual([1, 5.2, 9]);
    const parabola = (x: number): number => 3 - 2 * x + 0.7 * x * x;
    places.forEach((x, k) => {
      const sum = weights[k].reduce((total, w, i) => total + w * parabola(places[nodes[i]]), 0);
      expect(sum).toBeCloseTo(parabola(x), 12);
    });
  });
});

/** Results of all tasks in one thread. */
function workOff(s: Study): LifePiece[] {
  const work = lifeWorker();
  const pieces: LifePiece[] = [];
  for (const task of lifePlan(s).tasks)
    pieces.push(
      work(
        task,
        task.needs.map(n => pieces[n]),
      ),
    );
  return pieces;
}

const traffic = (pieces: readonly LifePiece[], temperature: number): TrafficPiece =>
  pieces.find(p => p.kind === "traffic" && p.temperature === temperature && p.treatment === 0) as TrafficPiece;

/** Largest difference of growth, relative to the largest growth. */
function difference(one: TrafficPiece, other: TrafficPiece): number {
  const largest = Math.max(...other.advance[0]);
  return Math.max(...one.advance[0].map((v, k) => Math.abs(v - other.advance[0][k]))) / largest;
}

describe("the correction between temperatures", () => {
  const many = workOff(study([0, 10, 20, 30, 40]));
  const alone = workOff(study([10]));

  test("is worth as much as one solved there", () => {
    // Growth goes with the fourth power of strain: 0.4 % is 0.1 % of strain, with 5 % asked for.
    expect(difference(traffic(many, 10), traffic(alone, 10))).toBeLessThan(4e-3);
    expect(difference(traffic(many, 0), traffic(workOff(study([0])), 0))).toBe(0);
  });

  test("is solved after all where the temperatures solved do not tell it", () => {
    const {tasks} = lifePlan(study([0, 10, 20, 30, 40]));
    const at = tasks.findIndex(t => t.kind === "traffic" && t.temperature === 10);
    const task = tasks[at];
    if (task.kind !== "traffic") throw new Error("found as one");
    const misled = {...task, pairs: [20, -30, 11]};
    const piece = lifeWorker()(
      misled,
      task.needs.map(n => many[n]),
    ) as TrafficPiece;
    expect(difference(piece, traffic(alone, 10))).toBe(0);
  });
});

test("lives are the same on any number of threads, to the bit", async () => {
  const s = study([0, 10, 20, 30]);
  const lives = async (workers: number) => {
    const pool = openLifePool(workers);
    try {
      return await computeLife(s, {pool});
    } finally {
      await pool.close();
    }
  };
  const [one, two] = [await lives(1), await lives(2)];
  expect(two.treatments.map(t => t.histories)).toEqual(one.treatments.map(t => t.histories));
});
