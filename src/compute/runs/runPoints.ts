/** Many points worked off several at a time; those that a run has already are read from it. */
import {Cancelled} from "../../engine/errors.ts";
import type {Run} from "./run.ts";

export interface PointsProgress {
  readonly done: number; // points handed over or waiting for an earlier one
  readonly total: number;
  readonly secondsLeft: number | null; // by the time that points took so far; null: not known yet
}

export interface PointsRequest<Point, Result> {
  readonly points: readonly Point[];
  /** What a point is called in the run; the same for the same point always. */
  readonly key: (point: Point) => string;
  /**
   * The result must be plain JSON: after a resume it is read from the run.
   *
   * @param slot 0 to slots − 1; no two evaluations share one at a time
   */
  readonly evaluate: (point: Point, slot: number) => Promise<Result>;
  /** Called in the order of the points, whatever order they are finished in, so that sums come out alike. Keeps what it needs. */
  readonly take: (result: Result, point: Point, index: number) => void;
  readonly run: Run;
  readonly slots: number; // points evaluated at once, ≥ 1
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: PointsProgress) => void) | undefined;
}

/** A slow point holds back those after it: so many times the slots are kept at most. */
const AHEAD = 64;

/**
 * Evaluates the points that the run does not have, and hands over all.
 *
 * @throws what the first failing evaluation threw; Cancelled. What was finished is in the run
 */
export async function runPoints<Point, Result>(request: PointsRequest<Point, Result>): Promise<void> {
  const {points, key, evaluate, take, run, slots, signal, onProgress} = request;
  const keys = points.map(key);
  const waiting = new Map<number, Result>(); // finished before an earlier one
  let next = 0; // to begin
  let handed = 0; // to hand over
  const tell = progressOf(keys, run, slots);
  const handOver = (): void => {
    for (; handed < points.length; handed++) {
      const stored = run.has(keys[handed]);
      if (!waiting.has(handed) && !stored) return;
      const result = waiting.has(handed) ? (waiting.get(handed) as Result) : (run.read(keys[handed]) as Result);
      waiting.delete(handed);
      take(result, points[handed], handed);
    }
  };
  const begin = (): number => {
    while (next < points.length && run.has(keys[next])) next++;
    return next < points.length && next - handed < AHEAD * slots ? next++ : -1;
  };
  let failed = false;
  const work = async (slot: number): Promise<void> => {
    for (;;) {
      if (signal?.aborted) throw new Cancelled();
      const index = failed ? -1 : begin();
      if (index < 0) return;
      const result = await evaluate(points[index], slot);
      if (!run.has(keys[index])) run.append(keys[index], result);
      waiting.set(index, result);
      onProgress?.(tell(1));
      handOver();
    }
  };
  onProgress?.(tell(0));
  handOver();
  while (handed < points.length) {
    const ends = await Promise.allSettled(
      Array.from({length: slots}, (_, slot) =>
        work(slot).catch(error => {
          failed = true;
          throw error;
        }),
      ),
    );
    const bad = ends.find(end => end.status === "rejected");
    if (bad) throw signal?.aborted ? new Cancelled() : bad.reason;
  }
}

/** Counts points and the time of those evaluated here. */
function progressOf(keys: readonly string[], run: Run, slots: number): (finished: number) => PointsProgress {
  const start = performance.now();
  const total = keys.length;
  const missing = keys.filter(k => !run.has(k)).length;
  let fresh = 0;
  return finished => {
    fresh += finished;
    const seconds = (performance.now() - start) / 1000;
    const secondsLeft = fresh >= Math.min(slots, missing) && fresh > 0 ? (seconds / fresh) * (missing - fresh) : null;
    return {done: total - missing + fresh, total, secondsLeft: missing === fresh ? 0 : secondsLeft};
  };
}
