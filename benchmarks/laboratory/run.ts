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
import {
  type CalibrationTask,
  calibrationTasks,
  calibrationWorker,
  fatigueResult,
  solveBeam,
} from "../../src/engine/laboratory/index.ts";
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

/** Parts of a calibration. */
const NAMES = [
  "beams solved",
  "laws fitted",
  "each predicted without it",
  "choices tried",
  "likelihood profiles",
] as const;
type Part = (typeof NAMES)[number];

/** What the tasks of a calibration belong to, the first apart: it solves beams and fits laws. */
const PARTS: Readonly<Record<Exclude<CalibrationTask["part"]["kind"], "base">, Part>> = {
  "leave out": "each predicted without it",
  choice: "choices tried",
  profile: "likelihood profiles",
};

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

/** Task after task, as threads would do them. Beams are solved in the first half of the first one's progress. */
function calibrationTimes(seed: number): Record<Part, number> {
  const tests = inventBeams(cases, INVENTED, seed).map(c => c.test);
  const request = {tests, choices: CHOICES, shearWeight: 1, relative: {}, exponentPrior: null, level: 0.9, seed};
  const times = Object.fromEntries(NAMES.map(name => [name, 0])) as Record<Part, number>;
  const work = calibrationWorker();
  for (const task of calibrationTasks(request)) {
    const {kind} = task.part;
    const start = performance.now();
    let solved = start;
    work(task, [], part => {
      if (part >= 0.5 && solved === start) solved = performance.now();
      return true;
    });
    const end = performance.now();
    times[kind === "base" ? "laws fitted" : PARTS[kind]] += end - solved;
    times["beams solved"] += solved - start;
  }
  if (times["beams solved"] === 0)
    throw new Error("the fit told nothing of its progress: beams and laws are not apart");
  return times;
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
