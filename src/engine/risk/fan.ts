import {InputError} from "../errors.ts";
import {atPosition, positionsOf, requireShare} from "./ordered.ts";

/** Depth of a crack against time, one sample. */
export interface DepthHistory {
  readonly years: ArrayLike<number>; // [years], ascending
  readonly depth: ArrayLike<number>; // [m]
  readonly failed: boolean; // through at the end, where it stays
}

export interface Fan {
  readonly years: readonly number[];
  readonly probabilities: readonly number[]; // share of the samples with less depth [–]
  readonly depths: readonly Float64Array[]; // [m]; one array a probability, over the years
}

/**
 * Quantiles of crack depth at given times, over all samples; between the steps of a history depth is linear.
 *
 * @throws InputError "domain" when a history that has not failed ends before a time, and when there are too few histories
 *         for a probability: each stands for 1/n, so p lies from 1/(2n) to 1 − 1/(2n)
 */
export function fan(
  histories: readonly DepthHistory[],
  {years, probabilities}: {readonly years: readonly number[]; readonly probabilities: readonly number[]},
): Fan {
  const n = histories.length;
  if (n === 0) throw new InputError("domain", "histories.length", n, "≥ 1");
  for (const p of probabilities) {
    requireShare("probabilities", p);
    if (n * Math.min(p, 1 - p) < 0.5 - 1e-9)
      throw new InputError("domain", "histories.length", n, `≥ ${Math.ceil(0.5 / Math.min(p, 1 - p))} for ${p}`);
  }
  histories.forEach(requireHistory);
  const depths = probabilities.map(() => new Float64Array(years.length));
  years.forEach((time, t) => {
    const ascending = Float64Array.from(histories, (history, i) => depthAt(history, time, i)).sort();
    probabilities.forEach((p, k) => {
      depths[k][t] = atPosition(ascending, positionsOf(n, p, 0)[1], {floor: 0, ceiling: Infinity}).low;
    });
  });
  return {years, probabilities, depths};
}

function requireHistory({years, depth}: DepthHistory, i: number): void {
  const path = `histories[${i}]`;
  if (years.length === 0) throw new InputError("shape", `${path}.years.length`, 0, "≥ 1");
  if (depth.length !== years.length)
    throw new InputError("shape", `${path}.depth.length`, depth.length, `${years.length}`);
  for (let k = 0; k < years.length; k++) {
    if (!Number.isFinite(years[k]) || (k > 0 && !(years[k] >= years[k - 1])))
      throw new InputError("domain", `${path}.years[${k}]`, years[k], "finite, ascending");
    if (!(depth[k] >= 0 && depth[k] < Infinity))
      throw new InputError("domain", `${path}.depth[${k}]`, depth[k], "finite, ≥ 0 [m]");
  }
}

function depthAt({years, depth, failed}: DepthHistory, time: number, i: number): number {
  const last = years.length - 1;
  if (!(time >= years[0])) throw new InputError("domain", "years", time, `≥ ${years[0]}, where histories[${i}] starts`);
  if (time >= years[last]) {
    if (failed || time === years[last]) return depth[last];
    throw new InputError("domain", "years", time, `≤ ${years[last]}, where histories[${i}] ends without failing`);
  }
  let [low, high] = [0, last];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (years[middle] <= time) low = middle;
    else high = middle;
  }
  return depth[low] + ((time - years[low]) / (years[high] - years[low])) * (depth[high] - depth[low]);
}
