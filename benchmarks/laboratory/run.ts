/**
 * Growth laws from a programme of eight beams of three materials, everything in one thread: beams solved, laws fitted with
 * likelihood profiles, each beam predicted by laws fitted without it, choices tried. Then the fatigue lines of the example's
 * bending tests, and a long stiffness history read in a process of its own. One JSON line a part on standard output.
 *
 *   node benchmarks/laboratory/run.ts
 */
import {mkdtempSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {CHOICES, INVENTED, inventBeams, inventedCases} from "../../examples/laboratory/invent.ts";
import {calibrate, fatigueResult, solveBeam} from "../../src/engine/laboratory/index.ts";
import {readFatigueProgramme} from "../../src/node/laboratory/index.ts";
import {linesOf} from "../collect.ts";
import {ROOT} from "../compiled.ts";
import {peakMB, tell} from "../line.ts";
import {timesIn, timesOf} from "../times.ts";
import {writeHistory} from "./writeHistory.ts";

const RUNS = 3; // each of another programme
const SOLVES = 5; // of each beam
const LINES = 101; // times that fatigue lines are worked out
const HISTORY_BYTES = 200e6;

/** Parts of a calibration, in their order, by how they tell of themselves. */
const PARTS = {
  "beams solved": "solving",
  "laws fitted": "fitting",
  "likelihood profiles": "profiling",
  "each predicted without it": "predicting",
  "choices tried": "trying",
} as const;
type Part = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as Part[];

const cases = inventedCases();
const {foundation} = cases[0].solution;
const solves = cases.map(({test}) => timesOf(() => solveBeam(test, foundation, CHOICES), {warmUp: 1, runs: SOLVES}));
// The mean of all beams: a programme is not solved at the pace of its quickest one.
const ofAll = (which: "ms" | "leastMs"): number => solves.reduce((sum, s) => sum + s[which], 0) / cases.length;
tell({what: "beam solved", ms: ofAll("ms"), leastMs: ofAll("leastMs"), runs: SOLVES, beams: cases.length});

const runs = Array.from({length: RUNS}, (_, k) => calibrationTimes(k + 1));
for (const part of NAMES) tell({what: part, ...timesIn(runs.map(run => run[part]))});
tell({what: "laws fitted with profiles", ...sumOf("laws fitted", "likelihood profiles")});
tell({what: "calibration", ...sumOf(...NAMES), peakMB: peakMB(), versions: {node: process.version}});

const {programme} = await readFatigueProgramme(fatigueTables(), "example");
const lines = timesOf(() => void fatigueResult(programme, 0.9), {warmUp: 5, runs: LINES});
tell({what: "fatigue lines with bands", ...lines, specimens: programme.specimens.length});
tellOfHistory();

/** A part begins when it is first told of, and no part comes back: fits within others tell of themselves too. */
function calibrationTimes(seed: number): Record<Part, number> {
  const tests = inventBeams(cases, INVENTED, seed).map(c => c.test);
  const request = {tests, choices: CHOICES, shearWeight: 1, relative: {}, exponentPrior: null, level: 0.9, seed};
  const begun: number[] = [performance.now()];
  calibrate(request, (_, doing) => {
    const part = NAMES.findIndex(name => doing.startsWith(PARTS[name]));
    if (part === begun.length) begun.push(performance.now());
    return true;
  });
  if (begun.length !== NAMES.length) throw new Error(`calibrate told of ${begun.length} parts, need ${NAMES.length}`);
  begun.push(performance.now());
  return Object.fromEntries(NAMES.map((name, k) => [name, begun[k + 1] - begun[k]])) as Record<Part, number>;
}

function sumOf(...parts: readonly Part[]) {
  return timesIn(runs.map(run => parts.reduce((sum, part) => sum + run[part], 0)));
}

function fatigueTables(): string[] {
  const folder = path.join(ROOT, "examples", "laboratory", "fatigue");
  return ["dense-asphalt", "soft-interlayer", "stiff-binder-course"].map(name => path.join(folder, `${name}.csv`));
}

/** In a process of its own: its memory is that of nothing else. */
function tellOfHistory(): void {
  const folder = mkdtempSync(path.join(tmpdir(), "seamwright-history-"));
  try {
    const file = path.join(folder, "history.csv");
    writeHistory(file, HISTORY_BYTES);
    for (const line of linesOf("laboratory/history.ts", file)) tell(line);
  } finally {
    rmSync(folder, {recursive: true, force: true});
  }
}
