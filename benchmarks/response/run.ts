/**
 * Eliminations on one thread by both kernels, and whole response models on two threads, in Node. One JSON line a
 * measurement on standard output.
 *
 *   node benchmarks/response/run.ts
 */
import {tell} from "../line.ts";
import {subjects} from "../section.ts";
import {ENTRY} from "./entry.ts";
import {measureEngine} from "./measure.ts";

await measureEngine(ENTRY, subjects(), line => tell({...line, versions: {node: process.version}}));
