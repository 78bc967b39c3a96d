/**
 * Reads one stiffness history as `seamwright fatigue` does, row by row, and nothing else, for its memory. One JSON line on
 * standard output.
 *
 *   node benchmarks/laboratory/history.ts FILE.csv
 */
import {statSync} from "node:fs";
import path from "node:path";
import {readHistory as historyReader} from "../../src/engine/laboratory/index.ts";
import {readHistory} from "../../src/node/laboratory/index.ts";
import {peakMB, tell} from "../line.ts";

const [file] = process.argv.slice(2);
const reader = historyReader(path.basename(file));
const start = performance.now();
const {rows, refused} = await readHistory(file, (cycle, value) => {
  if (typeof value !== "number") throw new Error(`${file}: got force and displacement, need a modulus`);
  reader.add({cycle, modulus: value});
});
const {cyclesToHalf} = reader.finish();
const ms = performance.now() - start;
if (refused > 0 || cyclesToHalf === null) throw new Error(`${file}: ${refused} rows refused, failure ${cyclesToHalf}`);
tell({what: "history read", ms, runs: 1, megabytes: statSync(file).size / 1e6, rows, cyclesToHalf, peakMB: peakMB()});
