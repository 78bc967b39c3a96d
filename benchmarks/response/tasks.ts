/** One response model cut into tasks for several threads as a life is: waves here and there, then the tables of all. */
import type {ResponseRequest} from "../../src/engine/life/plan.ts";
import {plainKernel, simdKernel} from "../../src/engine/numeric/index.ts";
import {
  COARSE,
  type Geometry,
  HALVED,
  type MeshOfPair,
  type ResponseTables,
  responseGeometry,
  responseTables,
  stiffnesses,
  type WaveValues,
  waveGroups,
  waveSolver,
} from "../../src/engine/response/index.ts";
import type {PoolTask} from "../../src/pool/index.ts";
import {type EliminationTimes, eliminationTimes} from "../elimination.ts";
import type {Subject} from "../section.ts";
import type {Repeats} from "../times.ts";

interface WavesTask extends PoolTask {
  readonly kind: "waves";
  readonly subject: Subject;
  readonly mesh: MeshOfPair;
  readonly wave: number; // which of the mesh's wavenumbers
}

/** Needs the coarse waves in their order, then the halved ones. */
interface TablesTask extends PoolTask {
  readonly kind: "tables";
  readonly subject: Subject;
}

interface EliminationTask extends PoolTask {
  readonly kind: "elimination";
  readonly subject: Subject;
  readonly mesh: MeshOfPair;
  readonly kernel: "plain" | "simd";
  readonly repeats: Repeats;
}

export type BenchmarkTask = WavesTask | TablesTask | EliminationTask;
export type BenchmarkPiece = WaveValues | ResponseTables | EliminationTimes;

/** Weights are of time, the coarse ones being 1. */
const HALVED_WEIGHT = 4;

/** The whole response model of a subject. The last task gives its tables; the longest tasks come first. */
export function responseTasks(subject: Subject): BenchmarkTask[] {
  const {section, accuracy} = subject.request;
  const {corrected, between} = waveGroups(section, accuracy);
  const count = [...corrected, ...between.flat()].length;
  const halved = corrected.map((_, wave): BenchmarkTask => {
    return {kind: "waves", weight: HALVED_WEIGHT, subject, mesh: HALVED, wave};
  });
  const coarse = Array.from({length: count}, (_, wave): BenchmarkTask => {
    return {kind: "waves", weight: 1, subject, mesh: COARSE, wave};
  });
  const needs = [...coarse.map((_, k) => halved.length + k), ...halved.keys()];
  return [...halved, ...coarse, {kind: "tables", weight: 1, needs, subject}];
}

/** A worker that remembers the geometry of the last subject and its solvers at the last condition. */
export function benchmarkWorker(): (task: BenchmarkTask, inputs: readonly BenchmarkPiece[]) => BenchmarkPiece {
  const geometryFor = rememberLast<Geometry>();
  const solverFor = [rememberLast<(beta: number) => WaveValues>(), rememberLast<(beta: number) => WaveValues>()];
  const geometryOf = ({name, request}: Subject): Geometry =>
    geometryFor(name, () => responseGeometry(request.section, request));
  return (task, inputs) => {
    const {subject} = task;
    const geometry = geometryOf(subject);
    switch (task.kind) {
      case "waves": {
        const {mesh, wave} = task;
        const {request, condition, name} = subject;
        const key = JSON.stringify([name, condition]);
        const solver = solverFor[mesh](key, () => waveSolver(geometry, mesh, condition, request.patches));
        return solver((mesh === COARSE ? geometry.waves : geometry.corrections).beta[wave]);
      }
      case "tables":
        return tablesOf(geometry, subject.request, inputs as readonly WaveValues[]);
      case "elimination":
        return timed(geometry, task);
    }
  };
}

function rememberLast<Value>(): (key: string, make: () => Value) => Value {
  let last: {readonly key: string; readonly value: Value} | null = null;
  return (key, make) => {
    if (last?.key !== key) last = {key, value: make()};
    return last.value;
  };
}

function tablesOf(geometry: Geometry, {patches}: ResponseRequest, values: readonly WaveValues[]): ResponseTables {
  const count = geometry.waves.beta.length;
  const [coarse, halved] = [values.slice(0, count), values.slice(count)];
  return responseTables(geometry, patches, coarse, halved);
}

function timed({section, meshes}: Geometry, {subject, mesh, kernel: kind, repeats}: EliminationTask): EliminationTimes {
  const kernel = kind === "plain" ? plainKernel() : simdKernel();
  if (!kernel) throw new Error("there are no 128-bit vectors here");
  return eliminationTimes({...meshes[mesh].model, kernel}, stiffnesses(section, subject.condition), repeats);
}
