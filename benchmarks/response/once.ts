/**
 * One response model and nothing else, for the memory that it takes. One JSON line on standard output.
 *
 *   node benchmarks/response/once.ts <subject as message.ts writes it> <workers>
 */
import {readFileSync} from "node:fs";
import {openPool} from "../../src/pool/index.ts";
import {peakMB, tell} from "../line.ts";
import type {Subject} from "../section.ts";
import {ENTRY} from "./entry.ts";
import {responseOf} from "./measure.ts";
import {decode} from "./message.ts";

const [file, workers] = process.argv.slice(2);
const subject = decode<Subject>(readFileSync(file, "utf8"));
const start = performance.now();
const pool = openPool(ENTRY, Number(workers));
await responseOf(pool, subject);
const ms = performance.now() - start;
const peak = peakMB();
await pool.close();
tell({what: "one response model", subject: subject.name, workers: Number(workers), ms, peakMB: peak});
