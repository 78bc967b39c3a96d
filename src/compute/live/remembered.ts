/** What was computed for earlier studies and may serve for a later one. */
import type {PavementTemperatureRun} from "../../engine/climate/index.ts";
import type {WeatherRecord} from "../../engine/climate/types.ts";
import {heatKey, type SolvedPiece, type TemperaturesOf} from "../../engine/life/index.ts";
import {sameContent} from "./sameContent.ts";

/** Records told apart at once: one in use, others before and after an edit. */
const RECORDS = 4;

/**
 * Numbers records: those of one number have the same content. A record that has not been seen for a while gets a new number, and
 * what was computed with it is computed again.
 */
export function recordNumbers(): (record: WeatherRecord) => number {
  const numbers = new WeakMap<WeatherRecord, number>();
  const lately: {readonly record: WeatherRecord; readonly number: number}[] = [];
  let next = 0;
  return record => {
    const seen = numbers.get(record);
    if (seen !== undefined) return seen;
    const alike = lately.find(known => sameContent(known.record, record));
    const number = alike?.number ?? next++;
    numbers.set(record, number);
    if (!alike) lately.push({record, number});
    if (lately.length > RECORDS) lately.shift();
    return number;
  };
}

/** A run is some megabytes; a study has one for each treatment that conducts heat otherwise. */
const RUNS = 12;

/** Temperatures of a year in a section, computed once for each record, surface and way of conducting heat. */
export function rememberedTemperatures(
  recordOf: (record: WeatherRecord) => number,
  compute: TemperaturesOf,
): TemperaturesOf {
  const runs = new Map<string, PavementTemperatureRun>();
  return (section, record, exchange) => {
    const key = JSON.stringify([recordOf(record), exchange, heatKey(section)]);
    const run = runs.get(key) ?? compute(section, record, exchange);
    runs.delete(key);
    runs.set(key, run); // the last one used stands last
    if (runs.size > RUNS) runs.delete(runs.keys().next().value!);
    return run;
  };
}

/** Pieces by key, up to a size. */
export interface PieceStore {
  get(key: string): SolvedPiece | undefined;
  keep(key: string, solved: SolvedPiece): void;
  /** These are in use and others may go, the longest unused first, as far as there are too many. */
  settle(keys: Iterable<string>): void;
}

/** @param most  that the pieces beside those in use may take, their arrays and keys counted [bytes] */
export function pieceStore(most: number): PieceStore {
  const pieces = new Map<string, {readonly solved: SolvedPiece; readonly bytes: number}>(); // the last used last
  return {
    get: key => pieces.get(key)?.solved,
    keep: (key, solved) => void pieces.set(key, {solved, bytes: 2 * key.length + bytesOf(solved.piece)}),
    settle: keys => {
      const inUse = new Set(keys);
      for (const key of inUse) {
        const known = pieces.get(key);
        if (!known) continue;
        pieces.delete(key);
        pieces.set(key, known);
      }
      let bytes = 0;
      for (const [key, {bytes: own}] of [...pieces].reverse()) {
        if (inUse.has(key)) continue;
        bytes += own;
        if (bytes > most) pieces.delete(key);
      }
    },
  };
}

/** Of all arrays in it [bytes]. */
function bytesOf(value: unknown): number {
  if (ArrayBuffer.isView(value)) return value.byteLength;
  if (typeof value !== "object" || value === null) return 0;
  return Object.values(value).reduce<number>((sum, own) => sum + bytesOf(own), 0);
}
