/** What is measured alike in Node and in a page: eliminations on one thread, whole response models on two. */
import type {ResponseTables} from "../../src/engine/response/index.ts";
import {openPool, type Pool} from "../../src/pool/index.ts";
import type {EliminationTimes} from "../elimination.ts";
import type {MeshName, Subject} from "../section.ts";
import {type Repeats, type Times, timesIn} from "../times.ts";
import {type BenchmarkPiece, type BenchmarkTask, responseTasks} from "./tasks.ts";

const WORKERS = 2;
const COLD_RUNS = 3; // each in a pool of its own
const WARM_RUNS = 15;
const ELIMINATIONS: Readonly<Record<MeshName, Repeats>> = {
  coarse: {warmUp: 10, runs: 25},
  halved: {warmUp: 4, runs: 9},
};

interface EliminationLine extends Times {
  readonly what: "elimination";
  readonly kernel: "plain" | "simd";
  readonly matrices: "given" | "made";
  readonly mesh: MeshName;
}

interface ResponseLine extends Times {
  readonly what: "response model";
  readonly subject: string;
  readonly state: "cold" | "warm";
  readonly workers: number;
  readonly waves: number; // on the coarse mesh
  readonly halvedWaves: number;
  readonly wheels: number; // positions
  readonly states: number;
}

export type EngineLine = EliminationLine | ResponseLine;

/**
 * @param entry  of the workers: a path in Node, an address in a page
 * @param each   called with every line as it is there
 */
export async function measureEngine(
  entry: string,
  all: readonly Subject[],
  each: (line: EngineLine) => void,
): Promise<void> {
  for (const line of await eliminations(entry, all[0])) each(line);
  for (const subject of all) for (const line of await responses(entry, subject)) each(line);
}

async function eliminations(entry: string, subject: Subject): Promise<EliminationLine[]> {
  const kinds = (["coarse", "halved"] as const).flatMap((mesh, index) =>
    (["simd", "plain"] as const).map(kernel => ({mesh, index, kernel})),
  );
  const tasks = kinds.map(({mesh, index, kernel}): BenchmarkTask => {
    return {kind: "elimination", weight: 1, subject, mesh: index as 0 | 1, kernel, repeats: ELIMINATIONS[mesh]};
  });
  const pool = openPool(entry, 1);
  const times = (await pool.run<BenchmarkTask, BenchmarkPiece>(tasks)) as EliminationTimes[];
  await pool.close();
  return times.flatMap((own, k) =>
    (["given", "made"] as const).map((matrices): EliminationLine => {
      const {mesh, kernel} = kinds[k];
      return {what: "elimination", kernel, matrices, mesh, ...own[matrices]};
    }),
  );
}

async function responses(entry: string, subject: Subject): Promise<ResponseLine[]> {
  const cold: number[] = [];
  for (let k = 0; k < COLD_RUNS; k++) {
    const start = performance.now();
    const pool = openPool(entry, WORKERS);
    await responseOf(pool, subject);
    cold.push(performance.now() - start);
    await pool.close();
  }
  const pool = openPool(entry, WORKERS);
  await responseOf(pool, subject);
  const warm: number[] = [];
  let tables: ResponseTables | null = null;
  for (let k = 1; k <= WARM_RUNS; k++) {
    const at = softer(subject, k);
    const start = performance.now();
    tables = await responseOf(pool, at);
    warm.push(performance.now() - start);
  }
  await pool.close();
  const {states, wheels} = tables!;
  const size = {
    workers: WORKERS,
    waves: tables!.waves.beta.length,
    halvedWaves: halvedWavesOf(subject),
    wheels,
    states,
  };
  const about = {what: "response model", subject: subject.name, ...size} as const;
  return [
    {...about, state: "cold", ...timesIn(cold)},
    {...about, state: "warm", ...timesIn(warm)},
  ];
}

/** Every run is of another temperature, as in a life: nothing that depends on moduli is there from the run before. */
export function softer({condition, ...rest}: Subject, run: number): Subject {
  return {...rest, condition: {...condition, moduli: condition.moduli.map(E => E * (1 - 0.001 * run))}};
}

export async function responseOf(pool: Pool, subject: Subject): Promise<ResponseTables> {
  const results = await pool.run<BenchmarkTask, BenchmarkPiece>(responseTasks(subject));
  return results.at(-1) as ResponseTables;
}

function halvedWavesOf(subject: Subject): number {
  return responseTasks(subject).filter(t => t.kind === "waves" && t.mesh === 1).length;
}
