import {availableParallelism} from "node:os";
import {openLifePool as openPool} from "../compute/index.ts";
import type {Pool} from "../pool/index.ts";
import {workerEntry} from "./workerEntry.ts";

const ENTRY = workerEntry(import.meta, "lifeWorker");

/** Threads that compute lives; by default as many as the machine has to give. */
export function openLifePool(workers: number = availableParallelism()): Pool {
  return openPool(ENTRY, workers);
}
