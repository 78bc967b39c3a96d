/**
 * Time and memory of a general three-dimensional program on one crack state, one symmetry part and one wheel of the road
 * section, and of our own code on the same question. One JSON line a run on standard output. Needs what
 * install-yardsticks.sh installs; takes some minutes and gigabytes.
 *
 *   node benchmarks/calculix/run.ts
 */
import {spawnSync} from "node:child_process";
import {mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import path from "node:path";
import {
  type Condition,
  condense,
  type Geometry,
  inverseWeights,
  type StateSpace,
  solveDirect,
  stiffnesses,
  wheelLoads,
} from "../../src/engine/response/index.ts";
import type {Mesh} from "../../src/engine/section/index.ts";
import {peakMB, tell} from "../line.ts";
import {meshOf, roadCondition, roadGeometry, roadSection} from "../section.ts";
import {inputFile} from "./input.ts";
import {type Solid, solidModel, type Wheel} from "./model.ts";

const UNKNOWNS = 104_000; // about so many
const FAR = 6; // the plane at the far end of y: more than three times the depth to the rigid base [m]
const GRADING = 4.5; // of the slices: lines at FAR·sinh(GRADING·k/slices)/sinh(GRADING)
const WHEEL = {length: 0.2, width: 0.24, pressure: 0.7e6}; // [m], [m], [Pa]
const WHEEL_PLACE = 0.15; // from the joint, moved to the nearest corner node [m]
const CRACK = 0.02; // through the interlayer and up into the overlay, nearest length that the states have [m]

/** Full integration, as our own elements have it, then reduced integration, which is some percent too soft on this mesh. */
const RUNS = [
  {element: "C3D20", threads: 1},
  {element: "C3D20", threads: 2},
  {element: "C3D20R", threads: 1},
] as const;

/** One crack state and one wheel. */
interface Question {
  readonly tip: number; // node of the path: those down to it are tied, those below are not
  readonly wheel: Wheel;
}

interface Run {
  readonly ms: number;
  readonly cpuMs: number; // of all threads together; hardly depends on what else runs
  readonly peakMB: number;
  readonly deflection: number; // under the wheel's centre, positive downward [m]
}

const section = roadSection();
const condition = roadCondition(section);
const geometry = roadGeometry(section);
const {model, space} = meshOf(geometry, "coarse");
const {mesh} = model;
const question: Question = {tip: tipOf(space), wheel: {...WHEEL, centre: nearestNode(mesh)}};
const asked = {tipDepth: model.path[question.tip].z, wheelCentre: question.wheel.centre};

const own = runOwn(geometry, condition, question);
const unknowns = geometry.waves.beta.length * mesh.grid.unknownCount; // over all wavenumbers
tell({what: "own, one state", ...asked, ...own, unknowns, versions: {node: process.version}});

const solid = solidOf(mesh, question);
const folder = mkdtempSync(path.join(tmpdir(), "seamwright-calculix-"));
try {
  const elastic = section.layers.map((l, k) => ({modulus: condition.moduli[k], poisson: l.material.poisson}));
  const watched = watchedNode(solid, question);
  for (const {element, threads} of RUNS) {
    writeFileSync(path.join(folder, "model.inp"), inputFile(solid, {layers: elastic, element, watched}));
    const run = runCalculix(folder, threads);
    const difference = run.deflection / own.deflection - 1;
    const {unknownCount} = solid;
    tell({
      what: "CalculiX",
      element,
      threads,
      ...asked,
      ...run,
      difference,
      unknowns: unknownCount,
      versions: versions(),
    });
  }
} finally {
  rmSync(folder, {recursive: true});
}

function tipOf({undersideLength, underside}: StateSpace): number {
  const off = undersideLength.map(length => Math.abs(length - CRACK));
  return underside[off.indexOf(Math.min(...off))];
}

function nearestNode({surface}: Mesh): number {
  const corners = surface.filter((_, k) => k % 2 === 0).map(s => s.x);
  return corners.reduce((best, x) => (Math.abs(x - WHEEL_PLACE) < Math.abs(best - WHEEL_PLACE) ? x : best));
}

/** The symmetric part by wavenumbers on the coarse mesh, and its inverse transform on y = 0. */
function runOwn({waves}: Geometry, at: Condition, {tip, wheel}: Question): Run {
  const start = performance.now();
  const cpu = process.cpuUsage();
  const stiff = stiffnesses(section, at);
  const loads = wheelLoads(mesh, wheel.length, [wheel.centre], "symmetric");
  const direct = {part: "symmetric", tied: (k: number) => k <= tip, transfer: 0, interlock: 0, contact: []} as const;
  const strip = {centre: 0, width: wheel.width, pressure: wheel.pressure};
  const {even} = inverseWeights(waves, Float64Array.of(0), [strip]);
  const watched = model.surface[mesh.surface.findIndex(s => s.x === wheel.centre)];
  const deflection = waves.beta.reduce((sum, beta, k) => {
    const {displacement} = solveDirect(model, condense(model, stiff, beta), direct, loads);
    return sum + even[k] * displacement[watched];
  }, 0);
  const {user, system} = process.cpuUsage(cpu);
  return {ms: performance.now() - start, cpuMs: (user + system) / 1000, peakMB: peakMB(), deflection};
}

/** As many slices as come nearest to the number of unknowns wanted. */
function solidOf({path: line, cut, below}: Mesh, {tip, wheel}: Question): Solid {
  const tied = [...line.slice(0, tip + 1), ...cut.slice(-1), ...below].map(n => n.unknowns[0]).filter(u => u >= 0);
  const sliced = (count: number): Solid =>
    solidModel(mesh, {
      lines: Float64Array.from(
        {length: count + 1},
        (_, k) => (FAR * Math.sinh((GRADING * k) / count)) / Math.sinh(GRADING),
      ),
      tied,
      wheel,
    });
  const [one, two] = [sliced(1).unknownCount, sliced(2).unknownCount];
  return sliced(1 + Math.round((UNKNOWNS - one) / (two - one)));
}

function watchedNode({nodes}: Solid, {wheel}: Question): number {
  for (let n = 0; n < nodes.length; n += 3) {
    if (nodes[n] === wheel.centre && nodes[n + 1] === 0 && nodes[n + 2] === 0) return n / 3;
  }
  throw new Error("no node under the wheel's centre");
}

/** Times of the whole program and its peak memory from GNU time, the deflection from the printed displacements. */
function runCalculix(cwd: string, threads: number): Run {
  const env = {...process.env, OMP_NUM_THREADS: String(threads), OPENBLAS_NUM_THREADS: "1"};
  const format = ["--format", "%e %U %S %M", "--output", "usage"];
  const {status, stdout, error} = spawnSync("time", [...format, "ccx", "-i", "model"], {
    cwd,
    env,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  if (status !== 0) throw error ?? new Error(`ccx ended with ${status}:\n${stdout.slice(-2000)}`);
  const [wall, user, system, kilobytes] = readFileSync(path.join(cwd, "usage"), "utf8").trim().split(" ").map(Number);
  const printed = readFileSync(path.join(cwd, "model.dat"), "utf8").trim().split("\n").at(-1)!;
  const [, , , up] = printed.trim().split(/\s+/).map(Number);
  return {ms: 1000 * wall, cpuMs: 1000 * (user + system), peakMB: kilobytes / 1024, deflection: -up};
}

function versions(): Readonly<Record<string, string>> {
  const text = spawnSync("ccx", ["-v"], {encoding: "utf8"}).stdout;
  return {calculix: /Version\s+(\S+)/.exec(text)?.[1] ?? "unknown"};
}
