/**
 * Whole lives of the examples: in a pool that is warm, from the shell, and the memory they take as compiled JavaScript,
 * beside that of one response model. One JSON line a measurement on standard output. Peak memory of a command needs GNU
 * time, which install-yardsticks.sh installs.
 *
 *   node benchmarks/life/run.ts
 */
import {spawnSync} from "node:child_process";
import {readFileSync, writeFileSync} from "node:fs";
import path from "node:path";
import {computeLife} from "../../src/compute/index.ts";
import {openLifePool} from "../../src/node/index.ts";
import {openPool} from "../../src/pool/index.ts";
import {ROOT, withCompiled} from "../compiled.ts";
import {tell} from "../line.ts";
import {ENTRY} from "../response/entry.ts";
import {responseOf, softer} from "../response/measure.ts";
import {encode} from "../response/message.ts";
import {APRON, exampleStudy, ROAD, subjects} from "../section.ts";
import {timesIn} from "../times.ts";
import {riskSamples} from "./risk.ts";
import {underOneLoad, underSpectrum} from "./spectrum.ts";

const WORKERS = 2;
const WARM_RUNS = 3;
const SHELL_RUNS = 3;
const RESPONSES = 5; // before each life and after the last

const versions = {node: process.version};

await warmLives();
await spectrumLives();
await riskSamples(versions);
shellLives();
withCompiled(folder => {
  responseMemory(folder);
  studyMemory(folder);
});

/** Lives in one pool, and response models of the same section between them. */
async function warmLives(): Promise<void> {
  const study = exampleStudy(ROAD);
  const [road] = subjects();
  const lifePool = openLifePool(WORKERS);
  const responsePool = openPool(ENTRY, WORKERS);
  const timed = async (once: () => Promise<unknown>): Promise<number> => {
    const start = performance.now();
    await once();
    return performance.now() - start;
  };
  const responses = async (): Promise<number[]> => {
    const ms: number[] = [];
    for (let k = 0; k < RESPONSES; k++) ms.push(await timed(() => responseOf(responsePool, softer(road, k))));
    return ms;
  };
  await responses();
  const cold = await timed(() => computeLife(study, {pool: lifePool}));
  const warm: number[] = [];
  const between = await responses();
  for (let k = 0; k < WARM_RUNS; k++) {
    warm.push(await timed(() => computeLife(study, {pool: lifePool})));
    between.push(...(await responses()));
  }
  await lifePool.close();
  await responsePool.close();
  const about = {study: ROAD, treatments: study.treatments.length, workers: WORKERS, versions};
  tell({what: "life", state: "cold", ...about, ...timesIn([cold])});
  tell({what: "life", state: "warm", ...about, ...timesIn(warm)});
  tell({what: "response model between lives", ...about, ...timesIn(between)});
}

/** Sixty load classes beside one, in turns. */
async function spectrumLives(): Promise<void> {
  const study = exampleStudy(ROAD);
  const cases = [
    {what: "life, one load class", study: underOneLoad(study), ms: [] as number[]},
    {what: "life, sixty load classes", study: underSpectrum(study), ms: [] as number[]},
  ];
  const pool = openLifePool(WORKERS);
  for (const {study: one} of cases) await computeLife(one, {pool});
  for (let k = 0; k < WARM_RUNS; k++)
    for (const {study: one, ms} of cases) {
      const start = performance.now();
      await computeLife(one, {pool});
      ms.push(performance.now() - start);
    }
  await pool.close();
  for (const {what, ms} of cases) tell({what, study: ROAD, workers: WORKERS, versions, ...timesIn(ms)});
}

/** As a user has them: the command run from the shell, reading, starting threads and printing included. */
function shellLives(): void {
  for (const study of [ROAD, APRON]) {
    const ms = Array.from({length: SHELL_RUNS}, () => {
      const start = performance.now();
      const {status, stderr} = spawnSync(process.execPath, ["src/cli/main.ts", "life", `examples/${study}`], {
        cwd: ROOT,
        encoding: "utf8",
      });
      if (status !== 0) throw new Error(`life of ${study} ended with ${status}:\n${stderr}`);
      return performance.now() - start;
    });
    tell({what: "seamwright life", study, ...timesIn(ms), versions});
  }
}

function responseMemory(folder: string): void {
  const file = path.join(folder, "subject.json");
  writeFileSync(file, encode(subjects()[0]));
  const program = path.join(folder, "benchmarks", "response", "once.js");
  for (const workers of [1, 2]) {
    const {status, stdout, stderr} = spawnSync(process.execPath, [program, file, String(workers)], {encoding: "utf8"});
    if (status !== 0) throw new Error(`the response model ended with ${status}:\n${stderr}`);
    tell({...JSON.parse(stdout), versions});
  }
}

function studyMemory(folder: string): void {
  const usage = path.join(folder, "usage");
  const program = path.join(folder, "src", "cli", "main.js");
  for (const study of [ROAD, APRON]) {
    const command = [process.execPath, program, "life", `examples/${study}`, "--workers", String(WORKERS)];
    const {status, error} = spawnSync("time", ["--format", "%e %M", "--output", usage, ...command], {cwd: ROOT});
    if (error) {
      console.error("GNU time is missing: benchmarks/install-yardsticks.sh installs it.");
      return;
    }
    if (status !== 0) throw new Error(`life of ${study} ended with ${status}`);
    const [seconds, kilobytes] = readFileSync(usage, "utf8").trim().split(" ").map(Number);
    tell({what: "memory of a study", study, workers: WORKERS, ms: 1000 * seconds, peakMB: kilobytes / 1024, versions});
  }
}
