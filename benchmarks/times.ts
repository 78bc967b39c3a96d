/** Times of the same thing done again and again. */

export interface Times {
  readonly ms: number; // median
  readonly leastMs: number;
  readonly runs: number;
}

export function timesIn(ms: readonly number[]): Times {
  return {ms: medianOf(ms), leastMs: Math.min(...ms), runs: ms.length};
}

export function medianOf(values: readonly number[]): number {
  return values.toSorted((p, q) => p - q)[values.length >> 1];
}

export interface Repeats {
  readonly warmUp: number; // runs that do not count
  readonly runs: number;
}

export function timesOf(once: () => void, {warmUp, runs}: Repeats): Times {
  for (let k = 0; k < warmUp; k++) once();
  const ms = Array.from({length: runs}, () => {
    const start = performance.now();
    once();
    return performance.now() - start;
  });
  return timesIn(ms);
}
