/**
 * From the line model to a tableau [K | G] on the unknowns of the crack path alone, for each symmetry part:
 * symmetric (opening): U on the path, tied or free; antisymmetric (shear): V and W on the path, tied or free.
 * All else on the line, the face and the surface is eliminated with its own conditions.
 */
import {eliminate, release} from "../numeric/index.ts";
import type {LineModel} from "./line.ts";

export interface Tableau {
  readonly rows: number; // unknowns of the path, then functionals
  readonly unknowns: number; // of which unknowns
  readonly loads: number;
  readonly columns: number; // unknowns + loads
  readonly values: Float64Array; // row-major rows × columns
  readonly tied: Uint8Array; // 1 for each unknown still tied
}

/** Loads on the surface nodes, one row a load case: `count` × model.surface.length, row-major [N per m along y]. */
export interface SurfaceLoads {
  readonly count: number;
  readonly values: Float64Array;
}

/** A stretch of the joint's face or of the cut in the foundation whose two sides may be in contact. */
export interface Segment {
  readonly unknowns: Int32Array; // places of U
  readonly shares: Float64Array; // lengths [m]
}

/** Touching stretches: the jointed layers in two halves when the faces touch, and the cut in the foundation. */
export function contactSegments(model: LineModel, facesTouch: boolean): Segment[] {
  const segment = (nodes: LineModel["face"]): Segment => ({
    unknowns: Int32Array.from(nodes, n => n.U),
    shares: Float64Array.from(nodes, n => n.share),
  });
  const segments: Segment[] = [];
  if (facesTouch && model.face.length > 3) {
    const middle = (model.face[0].z + model.face[model.face.length - 1].z) / 2;
    segments.push(segment(model.face.filter(n => n.z <= middle)), segment(model.face.filter(n => n.z > middle)));
  }
  const cut = model.cut.slice(0, -1); // its last node is whole
  if (cut.length) segments.push(segment(cut));
  return segments;
}

/** Symmetric part with every path node and every contact segment still tied. */
export interface SymmetricPart {
  readonly values: Float64Array; // [K | G] over contact unknowns then path unknowns
  readonly contacts: number; // contact unknowns
  readonly paths: number;
  readonly loads: number;
  readonly segments: readonly Segment[];
}

export function symmetricPart(
  model: LineModel,
  S: Float64Array,
  loads: SurfaceLoads,
  segments: readonly Segment[],
): SymmetricPart {
  const keep = [...segments.flatMap(s => [...s.unknowns]), ...model.path.map(n => n.U)];
  const held = new Set(whole(model).map(n => n.U));
  const values = reduce(model, S, keep, held, loads, () => 0);
  return {
    values,
    contacts: keep.length - model.path.length,
    paths: model.path.length,
    loads: loads.count + model.loads.length,
    segments,
  };
}

/**
 * Tableau on the path's U for one pattern of contact; a functional a segment follows the path rows: its mean opening
 * (half of the clear change of width) where open, its force, tension positive, where closed.
 *
 * @param closed bit k set when segment k is in contact
 */
export function contactTableau(part: SymmetricPart, closed: number): Tableau {
  const {contacts, paths, loads, segments} = part;
  const n = contacts + paths;
  const columns = n + loads;
  const T = new Float64Array((n + segments.length) * columns);
  T.set(part.values);
  const open: number[] = [];
  let k = 0;
  segments.forEach((segment, s) => {
    const functional = T.subarray((n + s) * columns, (n + s + 1) * columns);
    const length = segment.shares.reduce((sum, l) => sum + l, 0);
    for (let i = 0; i < segment.unknowns.length; i++, k++) {
      if (closed & (1 << s)) {
        for (let j = 0; j < columns; j++) functional[j] += T[k * columns + j];
      } else {
        functional[k] = -segment.shares[i] / length;
        open.push(k);
      }
    }
  });
  const tied = new Uint8Array(n).fill(1);
  for (const unknown of open) release(T, n + segments.length, n, columns, tied, unknown);
  const rows = paths + segments.length;
  const wide = paths + loads;
  const values = new Float64Array(rows * wide);
  for (let r = 0; r < rows; r++) {
    const from = (contacts + r) * columns + contacts;
    values.set(T.subarray(from, from + wide), r * wide);
  }
  return {rows, unknowns: paths, loads, columns: wide, values, tied: new Uint8Array(paths).fill(1)};
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
  const spring = new Map(model.face.map(n => [n.W, 2 * transfer * n.share]));
  const values = reduce(model, S, keep, held, loads, place => spring.get(place) ?? 0);
  const right = loads.count + model.loads.length;
  const columns = keep.length + right;
  model.path.forEach((node, k) => {
    for (const row of [2 * k, 2 * k + 1]) values[row * columns + row] += 2 * interlock * node.share;
  });
  return {
    rows: keep.length,
    unknowns: keep.length,
    loads: right,
    columns,
    values,
    tied: new Uint8Array(keep.length).fill(1),
  };
}

/** Nodes on x = 0 that are always tied: below the cut, its own end included. */
export function whole(model: LineModel): LineModel["below"] {
  if (model.below.length === 0) return [];
  return [model.cut.at(-1) ?? model.face.at(-1)!, ...model.below];
}

/**
 * Eliminates all kept unknowns but `keep`; those in `held` stay at zero.
 *
 * @returns [K | G] on `keep`, row-major keep × (keep + loads)
 */
function reduce(
  model: LineModel,
  S: Float64Array,
  keep: readonly number[],
  held: ReadonlySet<number>,
  loads: SurfaceLoads,
  spring: (place: number) => number,
): Float64Array {
  const role = new Int8Array(model.size); // 0 eliminate, 1 keep, 2 held
  for (const k of keep) role[k] = 1;
  for (const k of held) if (k >= 0) role[k] = 2;
  for (const k of model.loads) role[k] = 3;
  const go = [...role.keys()].filter(k => role[k] === 0);
  const order = [...go, ...keep];
  const cases = [...model.loads];
  const n = order.length;
  const total = n + loads.count + cases.length;
  const A = new Float64Array(total * total);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) A[i * total + j] = S[order[i] * model.size + order[j]];
    A[i * total + i] += spring(order[i]);
  }
  const column = new Int32Array(model.size).fill(-1);
  order.forEach((k, i) => {
    column[k] = i;
  });
  for (let r = 0; r < loads.count; r++) {
    const row = (n + r) * total;
    model.surface.forEach((place, s) => {
      if (column[place] >= 0) A[row + column[place]] -= loads.values[r * model.surface.length + s];
    });
  }
  cases.forEach((place, q) => {
    for (let j = 0; j < n; j++) A[(n + loads.count + q) * total + j] = S[place * model.size + order[j]];
  });
  eliminate(A, total, go.length);
  const m = keep.length;
  const right = loads.count + cases.length;
  const out = new Float64Array(m * (m + right));
  for (let i = 0; i < m; i++) {
    const I = go.length + i;
    for (let j = 0; j < m; j++) {
      const J = go.length + j;
      out[i * (m + right) + j] = I >= J ? A[I * total + J] : A[J * total + I];
    }
    for (let r = 0; r < right; r++) out[i * (m + right) + m + r] = -A[(n + r) * total + I];
  }
  return out;
}
