/**
 * From the line model to a tableau [K | G] on the unknowns of the crack path alone, for each symmetry part:
 * symmetric (opening): U on the path, tied or free; antisymmetric (shear): V and W on the path, tied or free.
 * All else on the line, the face and the surface is eliminated with its own conditions.
 */
import {eliminate} from "../numeric/index.ts";
import type {LineModel} from "./line.ts";

export interface Tableau {
  readonly rows: number; // unknowns of the path, then functionals
  readonly unknowns: number; // of which unknowns
  readonly loads: number; // surface loads, the model's strain cases, a unit pressure on each contact segment
  readonly columns: number; // unknowns + loads
  readonly values: Float64Array; // row-major rows × columns
  readonly tied: Uint8Array; // 1 for each unknown still tied
}

/** Loads on the surface nodes, one row a load case: `count` × model.surface.length, row-major [N per m along y]. */
export interface SurfaceLoads {
  readonly count: number;
  readonly values: Float64Array;
}

/** A stretch of the joint's face or of the cut in the foundation whose two sides may be in contact, with one pressure over it. */
export interface Segment {
  readonly unknowns: Int32Array; // places of U
  readonly shares: Float64Array; // lengths [m]
  readonly length: number; // [m]
}

/** Touching stretches: the jointed layers in two halves when the faces touch, and the cut in the foundation. */
export function contactSegments(model: LineModel, facesTouch: boolean): Segment[] {
  const segments: Segment[] = [];
  if (facesTouch && model.face.length > 3) {
    const middle = (model.face[0].z + model.face[model.face.length - 1].z) / 2;
    segments.push(segmentOf(model.face.filter(n => n.z <= middle)), segmentOf(model.face.filter(n => n.z > middle)));
  }
  const cut = model.cut.slice(0, -1); // its last node is whole
  if (cut.length) segments.push(segmentOf(cut));
  return segments;
}

/** The whole face of the jointed layers, for the movement of the joint. */
export function faceSegment(model: LineModel): Segment {
  return segmentOf(model.face);
}

function segmentOf(nodes: LineModel["face"]): Segment {
  const shares = Float64Array.from(nodes, n => n.share);
  return {unknowns: Int32Array.from(nodes, n => n.U), shares, length: shares.reduce((sum, l) => sum + l, 0)};
}

/**
 * Symmetric part, every path node tied, every segment open. After the path's rows comes a functional a segment: its mean
 * opening (half the change of clear width) [m]. The last columns are unit pressures on the segments.
 */
export function symmetricPart(
  model: LineModel,
  S: Float64Array,
  loads: SurfaceLoads,
  segments: readonly Segment[],
): Tableau {
  const keep = model.path.map(n => n.U);
  const held = new Set(whole(model).map(n => n.U));
  return reduce(model, S, {keep, held, loads, segments, spring: () => 0});
}

/**
 * Antisymmetric part: rows 2k and 2k + 1 are V and W of path node k.
 *
 * @param transfer   q, load-transfer spring on the joint's face [Pa/m]; the two sides move oppositely, so 2q acts on W
 * @param interlock  spring between the faces of a crack in the overlay [Pa/m], on V and W once they are released
 */
export function antisymmetricPart(
  model: LineModel,
  S: Float64Array,
  loads: SurfaceLoads,
  transfer: number,
  interlock: number,
): Tableau {
  const keep = model.path.flatMap(n => [n.V, n.W]);
  const held = new Set(whole(model).flatMap(n => [n.V, n.W]));
  const springs = new Map(model.face.map(n => [n.W, 2 * transfer * n.share]));
  const tableau = reduce(model, S, {keep, held, loads, segments: [], spring: place => springs.get(place) ?? 0});
  model.path.forEach((node, k) => {
    for (const row of [2 * k, 2 * k + 1]) tableau.values[row * tableau.columns + row] += 2 * interlock * node.share;
  });
  return tableau;
}

/** Nodes on x = 0 that are always tied: below the cut, its own end included. */
export function whole(model: LineModel): LineModel["below"] {
  if (model.below.length === 0) return [];
  return [model.cut.at(-1) ?? model.face.at(-1)!, ...model.below];
}

interface Reduction {
  readonly keep: readonly number[];
  readonly held: ReadonlySet<number>; // stay at zero
  readonly loads: SurfaceLoads;
  readonly segments: readonly Segment[];
  readonly spring: (place: number) => number; // added on the diagonal [N/m per m]
}

/**
 * Eliminates all kept unknowns but `keep`. Loads ride along as rows holding −f, so that afterwards the rows hold minus the
 * reduced loads, and the block among them minus fᵣᵀ·K⁻¹·f_q: by reciprocity the opening of segment r under load q.
 */
function reduce(model: LineModel, S: Float64Array, {keep, held, loads, segments, spring}: Reduction): Tableau {
  const role = new Int8Array(model.size); // 0 eliminate, 1 keep, 2 held or load
  for (const k of keep) role[k] = 1;
  for (const k of [...held, ...model.loads]) if (k >= 0) role[k] = 2;
  const go = [...role.keys()].filter(k => role[k] === 0);
  const order = [...go, ...keep];
  const n = order.length;
  const right = loads.count + model.loads.length + segments.length;
  const total = n + right;
  const A = new Float64Array(total * total);
  const position = new Int32Array(model.size).fill(-1);
  order.forEach((k, i) => {
    position[k] = i;
    for (let j = 0; j <= i; j++) A[i * total + j] = S[k * model.size + order[j]];
    A[i * total + i] += spring(k);
  });
  for (let r = 0; r < loads.count; r++) {
    model.surface.forEach((place, s) => {
      if (position[place] >= 0) A[(n + r) * total + position[place]] -= loads.values[r * model.surface.length + s];
    });
  }
  model.loads.forEach((place, q) => {
    for (let j = 0; j < n; j++) A[(n + loads.count + q) * total + j] = S[place * model.size + order[j]];
  });
  const firstSegment = n + right - segments.length;
  segments.forEach(({unknowns, shares}, s) => {
    unknowns.forEach((place, i) => {
      if (position[place] >= 0) A[(firstSegment + s) * total + position[place]] -= shares[i];
    });
  });
  eliminate(A, total, go.length);

  const m = keep.length;
  const columns = m + right;
  const rows = m + segments.length;
  const values = new Float64Array(rows * columns);
  const at = (i: number, j: number): number => (i >= j ? A[i * total + j] : A[j * total + i]);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) values[i * columns + j] = at(go.length + i, go.length + j);
    for (let r = 0; r < right; r++) values[i * columns + m + r] = -at(n + r, go.length + i);
  }
  segments.forEach(({length}, s) => {
    const row = (m + s) * columns;
    for (let j = 0; j < m; j++) values[row + j] = at(firstSegment + s, go.length + j) / length;
    for (let r = 0; r < right; r++) values[row + m + r] = -at(firstSegment + s, n + r) / length;
  });
  return {rows, unknowns: m, loads: right, columns, values, tied: new Uint8Array(m).fill(1)};
}
