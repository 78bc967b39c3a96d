/** A run in a process of its own, to be killed: squares of whole numbers, slowly. Arguments: run file, points. */
import {runPoints} from "../../../../src/compute/index.ts";
import {openRun} from "../../../../src/node/runs/index.ts";
import {HEADER, square} from "./squares.ts";

const [file, count] = process.argv.slice(2);
const run = openRun(file, HEADER);
await runPoints({
  points: Array.from({length: Number(count)}, (_, k) => k),
  key: String,
  evaluate: async k => {
    await new Promise(resolve => setTimeout(resolve, 5 + (k % 3) * 5));
    return square(k);
  },
  take: () => undefined,
  run,
  slots: 2,
});
run.close();
