/** A general three-dimensional program on one crack state against our whole response model. */
import {type Line, leastOf, pick} from "../collect.ts";
import {atLeast, type Comparison, type Group} from "./group.ts";
import {roadResponse} from "./response.ts";

const PARTS = 2; // symmetric and antisymmetric

/** @param life  lines of life/run.ts, with the memory of one response model; empty where that is left out */
export function calculixGroup(calculix: readonly Line[], engine: readonly Line[], life: readonly Line[]): Group {
  const runs = calculix.filter(line => line.what === "CalculiX");
  const own = roadResponse(engine);
  const states = Number(own.states) * PARTS;
  const fastest = runs.toSorted((p, q) => p.ms - q.ms)[0];
  const smallest = Math.min(...runs.map(line => line.peakMB!));
  const memory = [1, 2].flatMap((workers): Comparison[] => {
    const line = pick(life, {what: "one response model", workers});
    if (!line) return [];
    const ratio = smallest / line.peakMB!;
    const threads = workers === 1 ? "one thread" : "two threads";
    return [
      {what: `Memory: CalculiX ÷ response model on ${threads}`, median: ratio, least: ratio, ...atLeast(10), unit: ""},
    ];
  });
  const time = (what: string, count: number, aim: number): Comparison => {
    return {
      what,
      median: (count * fastest.ms) / own.ms,
      least: (count * fastest.ms) / leastOf(own),
      ...atLeast(aim),
      unit: "",
    };
  };
  return {
    title: "A general three-dimensional program",
    text:
      "CalculiX on the road's section extruded along y: bricks of 20 nodes with full (C3D20) and reduced (C3D20R) " +
      `integration, ${Number(runs[0].unknowns).toLocaleString("en")} unknowns, one crack state, the symmetric part of one ` +
      `wheel. The response model that it is held against solves ${own.states} crack states × ${PARTS} symmetry parts = ` +
      `${states}, each under ${own.wheels} wheel positions at all wavenumbers. Time for time: CalculiX' whole run over ` +
      `the whole response model. Per crack state and symmetry part: the response model's time is divided by ${states}, ` +
      "CalculiX' by one. Wheel positions are not counted, since another load costs a direct solver little. Its fastest " +
      "and its smallest run are taken. The deflection under the wheel is that of our own solution with full " +
      "integration; reduced integration is some percent too soft on such a mesh.",
    comparisons: [
      time("Time: CalculiX, one crack state and symmetry part ÷ whole response model", 1, 200),
      ...memory,
      time("Time for one crack state and symmetry part: CalculiX ÷ response model", states, 20_000),
    ],
    tables: [
      {
        head: ["run", "threads", "s", "processor s", "peak MB", "deflection, difference"],
        rows: runs.map(({element, threads, ms, cpuMs, peakMB, difference}) => [
          `CalculiX, ${element}`,
          Number(threads),
          ms / 1000,
          Number(cpuMs) / 1000,
          peakMB!,
          `${(100 * Number(difference)).toFixed(1)} %`,
        ]),
      },
    ],
    pictures: [],
  };
}
