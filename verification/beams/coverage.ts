/** Whether intervals of fitted growth laws hold: invented programmes whose laws are known. */
import {Worker} from "node:worker_threads";
import {INVENTED} from "../../examples/laboratory/invent.ts";
import {twoSidedT} from "../../src/engine/statistics/index.ts";
import type {verificationTable} from "../table.ts";
import type {Outcome} from "./programmes.ts";

const LEVEL = 0.9;
const PROGRAMMES = 200;

/** Seeds 1 … PROGRAMMES, half of them on each of two threads. */
async function programmes(): Promise<Outcome[]> {
  const half = PROGRAMMES / 2;
  const parts = [1, 1 + half].map(
    from =>
      new Promise<Outcome[]>((resolve, reject) => {
        const worker = new Worker(new URL("./programmes.ts", import.meta.url), {workerData: {from, to: from + half}});
        worker.once("message", resolve);
        worker.once("error", reject);
      }),
  );
  return (await Promise.all(parts)).flat();
}

const median = (values: readonly number[]): number => values.toSorted((p, q) => p - q)[values.length >> 1];

export async function coverage({compare, between}: ReturnType<typeof verificationTable>): Promise<void> {
  const all = await programmes();
  const {length: n} = all;
  const share = (hits: number, of: number): number => Number((hits / of).toFixed(2)); // not so fine as to hang on rounding
  const source = "the laws that the readings were made from";
  const known = {source, standing: "derived", unit: "–"} as const;
  const covered = ({scores, degrees}: Outcome, k: number): boolean => Math.abs(scores[k]) < twoSidedT(LEVEL, degrees);
  const parameters = all[0].scores.map((_, k) => `${k % 2 ? "n" : "ln rate"} of the ${all[0].materials[k >> 1]}`);
  const hits = parameters.map((_, k) => all.filter(o => covered(o, k)).length);
  between({
    ...known,
    name: `all parameters: part of ${LEVEL * 100} % intervals that hold the truth`,
    low: 0.85,
    high: 0.95,
    computed: share(
      hits.reduce((sum, h) => sum + h, 0),
      n * parameters.length,
    ),
  });
  // One parameter alone: three standard deviations of a share, √(0.9·0.1/200) = 2.1 %, to either side.
  parameters.forEach((name, k) => {
    between({...known, name: `${name}: the same`, low: 0.84, high: 0.96, computed: share(hits[k], n)});
  });
  // The median of 200 standard normal scores has a deviation of √(π/400) = 0.09: three times that, and a little for
  // what a sample of eight beams is off by (docs/theory/beams.md).
  parameters.forEach((name, k) => {
    compare({
      ...known,
      name: `${name}: median of (estimate − truth)/standard error`,
      expected: 0,
      computed: Number(median(all.map(o => o.scores[k])).toFixed(2)),
      tolerance: 0.3,
      absolute: true,
    });
  });
  compare({
    ...known,
    name: "scatter of the beams' clocks, median",
    expected: INVENTED.scatter.beam,
    computed: Number(median(all.map(o => o.clock)).toFixed(2)),
    tolerance: 0.2, // a median below the mean: eight beams less three laws, χ² of five is 13 % below in its root's median
  });
  between({
    ...known,
    name: "fits that had not settled",
    source: "none should be left",
    low: 0,
    high: 0,
    computed: share(all.filter(o => !o.converged).length, n),
  });
  between({
    ...known,
    name: "beams that broke before they were stopped",
    source: "the invented programme's plan: half",
    low: 0.4,
    high: 0.6,
    computed: share(
      all.reduce((sum, o) => sum + o.broken, 0),
      8 * n,
    ),
  });
}
