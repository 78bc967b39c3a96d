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
import {type LineModel, type Stiffnesses, stiffnesses} from "../../src/engine/response/index.ts";
import {BETA, eliminationTimes} from "../elimination.ts";
import {peakMB, tell} from "../line.ts";
import {MESHES, type MeshName, meshOf, roadCondition, roadGeometry, roadSection} from "../section.ts";
import {encodeSystem, flopsOf, systemOf} from "../systems.ts";
import {medianOf} from "../times.ts";

/** Kernels take turns in several rounds, so that other work on the machine does not decide which is the fastest. */
const ROUNDS = 4;
const RUNS: Readonly<Record<MeshName, number>> = {coarse: 11, halved: 3}; // a round
const WARM_UP: Readonly<Record<MeshName, number>> = {coarse: 8, halved: 3}; // of our own code, which is compiled as it runs
const RUNS_EACH_WAVE = 3; // where every wavenumber has its turn
/** The one that OpenBLAS takes by itself is not always the fastest. */
const CORES = [null, "Haswell", "Zen", "SkylakeX", "Cooperlake"];
const SOURCES = ["main.c", "system.c", "multifrontal.c", "structured.c"];
const OPTIONS = ["-O3", "-march=native", "-Wall", "-Wextra"];

/** A measurement; there is more in it, passed on as it is. */
interface Measured {
  readonly what: string;
  readonly mesh: MeshName;
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
      ...CORES.flatMap(core => timeOpenBlas(program, file, {mesh, core, runs: RUNS[mesh]})),
    ]);
    const alike = Map.groupBy(rounds.flat(), m => `${m.what} ${m.asked}`);
    const measured = [...alike.values()].map(together);
    measured.forEach(tell);
    const fastest = [...new Set(measured.filter(m => m.core).map(m => m.what))].map(name => {
      const [first] = measured.filter(m => m.what === name).toSorted((p, q) => p.leastMs - q.leastMs);
      return first;
    });
    for (const own of fastest) tell({...own, what: `${own.what}, fastest core`});
    const beta = mesh === "coarse" ? geometry.waves.beta : geometry.corrections.beta;
    const waves = Array.from(beta, each => {
      writeFileSync(file, encodeSystem(systemOf(model, stiff, each)));
      return fastest.flatMap(own => {
        const core = own.asked === "automatic" ? null : own.asked!;
        return timeOpenBlas(program, file, {mesh, core, runs: RUNS_EACH_WAVE}).filter(m => m.what === own.what);
      });
    });
    for (const own of fastest) tell(summed(waves.flat().filter(m => m.what === own.what)));
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

/** One elimination at each of a mesh's wavenumbers, one after the other. */
function summed(waves: readonly Measured[]) {
  const [{what, asked, core}] = waves;
  const sum = (of: (m: Measured) => number): number => waves.reduce((total, m) => total + of(m), 0);
  return {
    ...{what: `${what}, all wavenumbers`, asked, core, mesh: waves[0].mesh, wavenumbers: waves.length},
    ...{ms: sum(m => m.ms), leastMs: sum(m => m.leastMs), runs: RUNS_EACH_WAVE},
  };
}

/** With element matrices given as to the others, and all that a wavenumber costs: matrices integrated, too. */
function timeOwn(mesh: MeshName, model: LineModel, stiff: Stiffnesses, mflop: number): Measured[] {
  const {given, made} = eliminationTimes(model, stiff, {warmUp: WARM_UP[mesh], runs: RUNS[mesh]});
  const about = {
    mesh,
    mflop,
    peakMB: peakMB(),
    unknowns: model.mesh.grid.unknownCount,
    versions: {node: process.version},
  };
  return [
    {what: "own elimination, matrices given", ...given, ...about},
    {what: "own elimination, matrices made", ...made, ...about},
  ];
}

interface Asked {
  readonly mesh: MeshName;
  readonly core: string | null; // kernels to take; null: those that OpenBLAS chooses
  readonly runs: number;
}

function timeOpenBlas(program: string, file: string, {mesh, core, runs}: Asked): Measured[] {
  const choice = core === null ? {} : {OPENBLAS_CORETYPE: core};
  const env = {...process.env, OPENBLAS_NUM_THREADS: "1", ...choice};
  const {status, signal, stdout, stderr} = spawnSync(program, [file, String(runs)], {env, encoding: "utf8"});
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
      const {openblas, what, ...rest} = JSON.parse(line) as Omit<Measured, "mesh"> & {readonly openblas: string};
      const about = {mesh, asked: core ?? "automatic", versions: {openblas, gcc}};
      return {...rest, what: `OpenBLAS ${what}`, ...about};
    });
}
