/**
 * The elimination of one wavenumber by our own code and by OpenBLAS, one thread each, on both meshes of a road section.
 * One JSON line a measurement on standard output. Needs what install-yardsticks.sh installs.
 *
 *   node benchmarks/openblas/run.ts
 */
import {execFileSync, spawnSync} from "node:child_process";
import {mkdtempSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {condense, type LineModel, type Stiffnesses, stiffnesses} from "../../src/engine/response/index.ts";
import {medianOf, peakMB, tell} from "../line.ts";
import {MESHES, type MeshName, meshOf, roadCondition, roadGeometry, roadSection} from "../section.ts";
import {elementsOf, encodeSystem, flopsOf, systemOf} from "../systems.ts";

const BETA = 2.9; // among the wavenumbers of the response: a wavelength of about the depth to the rigid base [1/m]
/** Kernels take turns in several rounds, so that other work on the machine does not decide which is the fastest. */
const ROUNDS = 4;
const RUNS: Readonly<Record<MeshName, number>> = {coarse: 11, halved: 3}; // a round
/** The one that OpenBLAS takes by itself is not always the fastest. */
const CORES = [null, "Haswell", "Zen", "SkylakeX", "Cooperlake"];
const SOURCES = ["main.c", "system.c", "multifrontal.c", "structured.c"];
const OPTIONS = ["-O3", "-march=native", "-Wall", "-Wextra"];

/** A measurement; there is more in it, passed on as it is. */
interface Measured {
  readonly what: string;
  readonly asked?: string; // kernels of OpenBLAS
  readonly core?: string; // those that it took
  readonly ms: number; // median
  readonly leastMs: number;
  readonly runs: number;
  readonly mflop: number; // 0: not counted
  readonly peakMB?: number;
}

const gcc = execFileSync("gcc", ["-dumpfullversion"], {encoding: "utf8"}).trim();
const folder = mkdtempSync(path.join(tmpdir(), "seamwright-openblas-"));
try {
  const program = compile(path.join(folder, "eliminate"));
  const section = roadSection();
  const stiff = stiffnesses(section, roadCondition(section));
  const geometry = roadGeometry(section);
  for (const mesh of MESHES) {
    const {model} = meshOf(geometry, mesh);
    const file = path.join(folder, `${mesh}.bin`);
    const system = systemOf(model, stiff, BETA);
    writeFileSync(file, encodeSystem(system));
    const rounds = Array.from({length: ROUNDS}, () => [
      ...timeOwn(mesh, model, stiff, 1e-6 * flopsOf(system)),
      ...CORES.flatMap(core => timeOpenBlas(program, file, mesh, core)),
    ]);
    const alike = Map.groupBy(rounds.flat(), m => `${m.what} ${m.asked}`);
    const measured = [...alike.values()].map(together);
    measured.forEach(tell);
    for (const name of new Set(measured.filter(m => m.core).map(m => m.what))) {
      const [fastest] = measured.filter(m => m.what === name).toSorted((p, q) => p.leastMs - q.leastMs);
      tell({...fastest, what: `${name}, fastest core`});
    }
  }
} finally {
  rmSync(folder, {recursive: true});
}

function compile(program: string): string {
  const sources = SOURCES.map(name => path.join(import.meta.dirname, name));
  execFileSync("gcc", [...OPTIONS, "-o", program, ...sources, "-lopenblas", "-lm"], {stdio: "inherit"});
  return program;
}

/** Median of medians and least of all, with the speed at either; the rest from the first round. */
function together(rounds: readonly Measured[]): Measured {
  const [{mflop}] = rounds;
  const ms = medianOf(rounds.map(m => m.ms));
  const leastMs = Math.min(...rounds.map(m => m.leastMs));
  const runs = rounds.reduce((sum, m) => sum + m.runs, 0);
  const speed = mflop > 0 ? {gflops: mflop / ms, mostGflops: mflop / leastMs} : {};
  return {...rounds[0], ms, leastMs, runs, ...speed};
}

/** All that a wavenumber costs: element matrices integrated, assembled, eliminated; and how much of it is the first. */
function timeOwn(mesh: MeshName, model: LineModel, stiff: Stiffnesses, mflop: number): Measured[] {
  const about = {mesh, unknowns: model.mesh.grid.unknownCount, versions: {node: process.version}};
  const whole = timesOf(RUNS[mesh], () => condense(model, stiff, BETA));
  const matrices = timesOf(RUNS[mesh], () => elementsOf(model, stiff, BETA));
  return [
    {what: "own elimination", ...whole, mflop, peakMB: peakMB(), ...about},
    {what: "own element matrices alone", ...matrices, mflop: 0, ...about},
  ];
}

function timesOf(runs: number, once: () => void): {ms: number; leastMs: number; runs: number} {
  once(); // warms up
  const ms = Array.from({length: runs}, () => {
    const start = performance.now();
    once();
    return performance.now() - start;
  });
  return {ms: medianOf(ms), leastMs: Math.min(...ms), runs};
}

/** @param core  kernels to take; null: those that OpenBLAS chooses */
function timeOpenBlas(program: string, file: string, mesh: MeshName, core: string | null): Measured[] {
  const choice = core === null ? {} : {OPENBLAS_CORETYPE: core};
  const env = {...process.env, OPENBLAS_NUM_THREADS: "1", ...choice};
  const {status, signal, stdout, stderr} = spawnSync(program, [file, String(RUNS[mesh])], {env, encoding: "utf8"});
  if (status !== 0) {
    // Kernels for instructions that the processor does not have end the program.
    tell({what: "OpenBLAS", mesh, asked: core ?? "automatic", failed: signal ?? stderr.trim()});
    if (signal !== "SIGILL") process.exitCode = 1;
    return [];
  }
  return stdout
    .trim()
    .split("\n")
    .map(line => {
      const {openblas, what, ...rest} = JSON.parse(line) as Measured & {readonly openblas: string};
      const about = {mesh, asked: core ?? "automatic", versions: {openblas, gcc}};
      return {...rest, what: `OpenBLAS ${what}`, ...about};
    });
}
