/**
 * The life of a case by any discretisation, and the time that its response model and passes take in one thread. Composed
 * from the same parts of the engine as the product's own tasks (src/engine/life/work.ts), with the sizes left open.
 */
import {closureMaps} from "../../src/engine/life/closure.ts";
import {assembleLife} from "../../src/engine/life/index.ts";
import {type Lane, laneOf, wanderOver} from "../../src/engine/life/lane.ts";
import {passAdvance, tipLaws} from "../../src/engine/life/passes.ts";
import {passPlan, patchesOf} from "../../src/engine/life/passPlan.ts";
import {crackGrid} from "../../src/engine/life/rates.ts";
import type {LifePiece} from "../../src/engine/life/work.ts";
import {
  addInterpolated,
  type CrackLengths,
  coarseTables,
  correctionTables,
  type Geometry,
  lineModel,
  type Patch,
  type ResponseTables,
  responseGeometry,
  type StateSpace,
  stateSpace,
  tipDepths,
  tipLayers,
  type Wavenumbers,
  type WaveValues,
  wavenumbers,
  waveSolver,
} from "../../src/engine/response/index.ts";
import {modelledSlabs, waveScale} from "../../src/engine/response/model.ts";
import {buildMesh, type MeshOptions} from "../../src/engine/section/index.ts";
import {crackLengthsOf} from "../section.ts";
import {medianOf} from "../times.ts";
import type {Case} from "./cases.ts";
import {linearStiffness} from "./linear.ts";

export interface Discretisation {
  readonly rowSize: number; // [m]
  readonly finest: number; // at the joint's corner [m]
  readonly neighbour: number; // of columns at the neighbouring joint [m]
  readonly cracks: number; // accuracy whose crack lengths are solved [–]
  readonly mesh: MeshOptions["halved"]; // of which coarse mesh
  readonly companion: MeshOptions["halved"] | null; // that it is extrapolated with; null: with none
  readonly waves: number; // wavenumbers on the mesh
  readonly corrections: number; // wavenumbers on both
  readonly lastWave: number; // [1/m]
  readonly element: "quadratic" | "linear";
  readonly positions: number; // of wheels along a pass, in each step of the product's
  readonly offsets: number; // across the lane, the same
}

export interface Measured {
  readonly passes: readonly number[]; // to 25, 50, 75 % of the overlay and to the end [–]
  readonly peak: Float64Array; // [state][tip], largest tip strain [–]
  readonly ms: number;
  readonly unknowns: number; // of the larger mesh
}

const REACH = 4; // as in src/engine/life/plan.ts [m]

interface Solved {
  readonly values: WaveValues;
  readonly ms: number;
}

/** A mesh at one temperature, with what it has been solved at. */
interface Solver {
  readonly geometry: Geometry;
  readonly patches: readonly Patch[];
  readonly at: (beta: number) => Solved;
}

const KEPT = 4; // solvers, some hundred megabytes each when fine

export interface Bench {
  readonly tables: (d: Discretisation) => Tables;
  readonly measure: (d: Discretisation) => Measured;
  readonly forget: () => void; // what it remembers
}

/** Remembers the last few meshes it made and what they gave: discretisations that share a mesh are asked for in a row. */
export function benchOf(one: Case): Bench {
  const known = new Map<string, Solver>();
  const solverOf = (d: Discretisation, mesh: MeshOptions["halved"]): Solver => {
    const key = JSON.stringify([d.rowSize, d.finest, d.neighbour, d.cracks, d.element, d.positions, d.lastWave, mesh]);
    const solver = known.get(key) ?? makeSolver(one, d, mesh);
    known.delete(key);
    known.set(key, solver);
    if (known.size > KEPT) known.delete(known.keys().next().value!);
    return solver;
  };
  const tables = (d: Discretisation): Tables => tablesOf(one, d, solverOf);
  return {tables, measure: d => lifeOf(one.study, [pieceOf(one, d, tables(d))]), forget: () => known.clear()};
}

function clocked<Value>(work: () => Value): {value: Value; ms: number} {
  // Of this thread alone, and only while it runs: other work on the machine hardly shows.
  const start = process.threadCpuUsage();
  const value = work();
  const {user, system} = process.threadCpuUsage(start);
  return {value, ms: (user + system) / 1e3};
}

function makeSolver({section, study, moduli, transfer}: Case, d: Discretisation, mesh: MeshOptions["halved"]): Solver {
  const cracks = lengthsOf(section, d.cracks);
  const {rowSize, finest, neighbour} = d;
  const extent = {spacings: modelledSlabs(section.joint.spacing)};
  const made = lineModel(
    buildMesh(section, {rowSize, finest, neighbour, halved: mesh, tips: tipDepths(cracks), reach: REACH, extent}),
  );
  const model = d.element === "linear" ? {...made, element: linearStiffness} : made;
  const space = stateSpace(model, cracks);
  const waves = wavesOf(section, d.waves, d.lastWave);
  const geometry: Geometry = {section, meshes: [{model, space}], waves, corrections: waves};
  const patches = patchesOf(study.traffic, REACH).map(p => ({...p, centres: divided(p.centres, d.positions)}));
  const solve = waveSolver(geometry, 0, {moduli, transfer}, patches);
  const solved = new Map<string, Solved>();
  return {
    geometry,
    patches,
    at: beta => {
      const key = beta.toPrecision(12);
      let found = solved.get(key);
      if (!found) {
        const {value, ms} = clocked(() => solve(beta));
        found = {values: value, ms};
        solved.set(key, found);
      }
      return found;
    },
  };
}

const lengthsKnown = new Map<string, CrackLengths>();

/** The product's own crack lengths at some accuracy. */
function lengthsOf(section: Case["section"], accuracy: number): CrackLengths {
  const key = JSON.stringify([section.layers, accuracy]);
  const known = lengthsKnown.get(key);
  if (known) return known;
  const {space} = responseGeometry(section, {accuracy, reach: 0}).meshes[0];
  const lengths = crackLengthsOf(section, space);
  lengthsKnown.set(key, lengths);
  return lengths;
}

function wavesOf(section: Case["section"], count: number, last: number): Wavenumbers {
  return wavenumbers(count, waveScale(section), last);
}

/** Every step in so many equal parts. */
function divided(values: Float64Array, parts: number): Float64Array {
  return Float64Array.from({length: parts * (values.length - 1) + 1}, (_, k) => {
    const at = Math.min(Math.floor(k / parts), values.length - 2);
    return values[at] + ((values[at + 1] - values[at]) * (k - parts * at)) / parts;
  });
}

/** Response tables, and the time of all wavenumbers in them. */
export interface Tables {
  readonly tables: ResponseTables;
  readonly correction: ResponseTables | null;
  readonly ms: {readonly mesh: number; readonly companion: number};
  readonly space: StateSpace;
  readonly model: Geometry["meshes"][number]["model"];
  readonly unknowns: number;
}

/** Every wavenumber of a mesh takes the same time: the median is not disturbed by what else the machine does. */
function timeOf(solved: readonly Solved[]): number {
  return solved.length * medianOf(solved.map(s => s.ms));
}

function tablesOf(
  {section}: Case,
  d: Discretisation,
  solverOf: (d: Discretisation, mesh: MeshOptions["halved"]) => Solver,
): Tables {
  const own = solverOf(d, d.mesh);
  const companion = d.companion === null ? null : solverOf(d, d.companion);
  const waves = wavesOf(section, d.waves, d.lastWave);
  const corrections = wavesOf(section, d.corrections, d.lastWave);
  const geometry: Geometry = {...own.geometry, waves, corrections};
  const coarse = Array.from(waves.beta, b => own.at(b));
  const tables = coarseTables(
    geometry,
    own.patches,
    coarse.map(s => s.values),
  );
  const {model, space} = own.geometry.meshes[0];
  const {unknownCount} = (companion ?? own).geometry.meshes[0].model.mesh.grid;
  const common = {tables, space, model, unknowns: unknownCount};
  if (!companion) return {...common, correction: null, ms: {mesh: timeOf(coarse), companion: 0}};
  // Wavenumbers that are not among those of the mesh are solved on it too.
  const both = Array.from(corrections.beta, b => own.at(b));
  const halved = Array.from(corrections.beta, b => companion.at(b));
  const correction = correctionTables(geometry, own.patches, [
    {weight: 1, coarse: both.map(s => s.values), halved: halved.map(s => s.values)},
  ]);
  const mesh = timeOf([...new Set([...coarse, ...both])]);
  return {...common, correction, ms: {mesh, companion: timeOf(halved)}};
}

export interface Piece {
  readonly piece: Extract<LifePiece, {kind: "traffic"}>;
  readonly ms: number; // of waves and passes
  readonly unknowns: number;
}

/** Growth per pass at the case's temperature. @param tables are added the correction to */
export function pieceOf({section, study, moduli, temperature, transfer}: Case, d: Discretisation, made: Tables): Piece {
  const {tables, correction, model, space} = made;
  if (correction) addInterpolated(tables, correction);
  const usual = laneOf(study.traffic);
  const lane: Lane = {...usual, y: divided(usual.y, d.offsets)};
  const laws = tipLaws(section, moduli, tipLayers(model, space));
  const rules = {maps: closureMaps(space), laws, shearWeight: section.shearWeight, further: []};
  const {value: passes, ms} = clocked(() =>
    study.traffic.classes.map(one => {
      const pass = passAdvance(passPlan(one, tables, lane), tables, rules);
      return {...pass, advance: wanderOver(lane, one.wander, laws.length, pass.advance)};
    }),
  );
  const piece = {
    kind: "traffic",
    treatment: 0,
    temperature,
    cracks: crackGrid(space),
    lane,
    advance: passes.map(p => p.advance),
    further: [],
    exponent: Float64Array.from(laws, law => law?.exponent ?? 0),
    tipLayer: Int8Array.from(tipLayers(model, space).flat(), layer => layer ?? -1),
    peak: passes.map(p => p.peak),
    unsettled: passes.map(p => p.unsettled),
    transfer: {stiffness: transfer, efficiency: Number.NaN, floor: false},
    warnings: [],
  } as const;
  return {piece, ms: ms + made.ms.mesh + made.ms.companion, unknowns: made.unknowns};
}

/** @param pieces one a bin of the study */
export function lifeOf(study: Case["study"], pieces: readonly Piece[]): Measured {
  const bins = study.bins as readonly {temperature: number; share: number}[];
  const [{histories}] = assembleLife(
    study,
    {bins, temperatures: [null]},
    pieces.map(p => p.piece),
  ).treatments;
  const [{life, milestones, failed}] = histories;
  if (!failed) throw new Error(`${study.treatments[0].name} does not fail within the horizon`);
  return {
    passes: [...milestones.map(m => m.passes), life.passes],
    peak: pieces[0].piece.peak[0],
    ms: pieces.reduce((sum, p) => sum + p.ms, 0),
    unknowns: Math.max(...pieces.map(p => p.unknowns)),
  };
}
