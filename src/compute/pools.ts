import {openPool, type Pool} from "../pool/index.ts";

/** Opens so many workers that compute lives. Where they come from is known to the program alone. */
export type OpenPool = (workers: number) => Pool;

/**
 * Workers that compute lives.
 *
 * @param entry    a module that serves the tasks of a life: its path in Node, its address in a page
 * @param workers  ≥ 1
 */
export function openLifePool(entry: string, workers: number): Pool {
  return openPool(entry, workers);
}
