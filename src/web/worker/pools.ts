/** Threads that compute lives, in a page. */
import {type OpenPool, openLifePool} from "../../compute/index.ts";
import entry from "./life.worker.ts?worker&url";

/** As many as the machine has, within reason: each holds meshes of its own. */
export const THREADS = Math.max(1, Math.min(8, navigator.hardwareConcurrency || 2));

export const openPool: OpenPool = workers => openLifePool(entry, workers);
