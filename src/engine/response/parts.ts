/**
 * From the line model to a tableau [K | G] on the unknowns of the crack path alone, for each symmetry part:
 * symmetric (opening): U on the path, tied or free; antisymmetric (shear): V and W on the path, tied or free.
 * All else on the line, the face and the surface is eliminated with its own conditions.
 */
import {eliminateFront, PANEL, packedRow} from "../numeric/index.ts";
import type {LineModel} from "./line.ts";
import {addPressure, type SurfaceLoads} from "./loads.ts";
import type {Tie} from "./tie.ts";

/**
 * The path with everything else eliminated, one symmetric matrix [K −G; −Gᵀ −F]: K the stiffness of the path's unknowns, G
 * the forces that the ties carry when all of them hold, F by reciprocity what the load of one column moves along another.
 */
export interface Tableau {
  readonly unknowns: number; // of the path, from the surface down
  readonly loads: number; // surface loads, the model's strain cases, a unit pressure on each contact segment
  readonly segmentLengths: readonly number[]; // the last loads are unit pressures on these [m]
  readonly packed: Float64Array; // of order unknowns + loads, see numeric/packed.ts
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
    const [top, bottom] = [model.path.at(-1)?.z ?? model.face[0].z, model.face[model.face.length - 1].z];
    const middle = (top + bottom) / 2;
    segments.push(faceBetween(model, top, middle), faceBetween(model, middle, bottom));
  }
  const cut = model.cut.slice(0, -1); // its last node is whole
  if (cut.length) segments.push(segmentOf(cut));
  return segments;
}

/** The whole face of the jointed layers, for the movement of the joint. */
export function faceSegment(model: LineModel): Segment {
  return segmentOf(model.face);
}

/** Part of the face, ending where it is told to and not at a node: the same stretch on every mesh. */
function faceBetween({face, mesh}: LineModel, from: number, to: number): Segment {
  const {z} = mesh.grid;
  const shares = new Float64Array(face.length);
  for (let row = 0; row + 1 < z.length; row++) {
    const depths = [z[row], (z[row] + z[row + 1]) / 2, z[row + 1]];
    const own = new Float64Array(3);
    addPressure(
      depths.map(x => ({x})),
      from,
      to,
      1,
      own,
    );
    depths.forEach((depth, k) => {
      // None where the node is the path's; two where jointed layers slide on each other: the first is the upper layer's.
      const here = (n: LineModel["face"][number]): boolean => Math.abs(n.z - depth) < 1e-9;
      const node = k === 0 ? face.findLastIndex(here) : face.findIndex(here);
      if (node >= 0) shares[node] += own[k];
    });
  }
  return segmentOf(face.map((node, k) => ({...node, share: shares[k]})).filter(n => n.share !== 0));
}

function segmentOf(nodes: LineModel["face"]): Segment {
  const shares = Float64Array.from(nodes, n => n.share);
  return {unknowns: Int32Array.from(nodes, n => n.U), shares, length: shares.reduce((sum, l) => sum + l, 0)};
}

/**
 * Symmetric part, every path node tied, every segment open: unknown k is U of path node k. A reinforcement adds a matrix of
 * rank one to them: tied nodes do not move and so do not stretch it.
 */
export function symmetricPart(
  model: LineModel,
  S: Float64Array,
  loads: SurfaceLoads,
  segments: readonly Segment[],
  tie: Tie | null = null,
): Tableau {
  const keep = model.path.map(n => n.U);
  const held = new Set(whole(model).map(n => n.U));
  const tableau = reduce(model, S, {keep, held, loads, segments, spring: () => 0});
  tie?.nodes.forEach((i, p) => {
    const row = packedRow(i);
    for (let q = 0; q <= p; q++)
      tableau.packed[row + PANEL * tie.nodes[q]] += tie.stiffness * tie.weights[p] * tie.weights[q];
  });
  return tableau;
}

/**
 * Antisymmetric part: unknowns 2k and 2k + 1 are V and W of path node k.
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
  const springs = new Map<number, number>();
  // Jointed layers that slide on each other have two nodes of one W.
  for (const n of model.face) springs.set(n.W, (springs.get(n.W) ?? 0) + 2 * transfer * n.share);
  const tableau = reduce(model, S, {keep, held, loads, segments: [], spring: place => springs.get(place) ?? 0});
  model.path.forEach((node, k) => {
    for (const i of [2 * k, 2 * k + 1]) tableau.packed[packedRow(i) + PANEL * i] += 2 * interlock * node.share;
  });
  return tableau;
}

/** Nodes on x = 0 that are always tied: below the cut, its own end included. */
export function whole(model: LineModel): LineModel["below"] {
  if (model.below.length === 0) return [];
  return [model.cut.at(-1) ?? model.face.at(-1)!, ...model.below];
}

/** In place of an unknown that the path's node does not have: the tableau numbers the nodes evenly all the same. */
const NOTHING = -1;

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
  for (const k of keep) if (k !== NOTHING) role[k] = 1;
  for (const k of [...held, ...model.loads]) if (k >= 0) role[k] = 2;
  const go = [...role.keys()].filter(k => role[k] === 0);
  const order = Int32Array.from([...go, ...keep]);
  const n = order.length;
  const right = loads.count + model.loads.length + segments.length;
  const position = new Int32Array(model.size).fill(-1);
  order.forEach((k, i) => {
    if (k !== NOTHING) position[k] = i;
  });
  const gaps = keep.includes(NOTHING);
  const fill = (A: Float64Array, front: number): void => {
    order.forEach((k, i) => {
      const row = front + packedRow(i);
      if (k === NOTHING) {
        for (let j = 0; j < i; j++) A[row + PANEL * j] = 0;
        A[row + PANEL * i] = 1; // coupled to nothing, loaded by nothing
        return;
      }
      for (let j = 0; j <= i; j++) A[row + PANEL * j] = S[k * model.size + order[j]];
      if (gaps) for (let j = go.length; j < i; j++) if (order[j] === NOTHING) A[row + PANEL * j] = 0;
      A[row + PANEL * i] += spring(k);
    });
    const put = (load: number, place: number, force: number): void => {
      if (position[place] >= 0) A[front + packedRow(n + load) + PANEL * position[place]] -= force;
    };
    for (let r = 0; r < loads.count; r++)
      for (let s = 0; s < model.surface.length; s++)
        put(r, model.surface[s], loads.values[r * model.surface.length + s]);
    model.loads.forEach((place, q) => {
      for (const k of order) if (k !== NOTHING) put(loads.count + q, k, -S[place * model.size + k]);
    });
    segments.forEach(({unknowns, shares}, s) => {
      unknowns.forEach((place, i) => void put(right - segments.length + s, place, shares[i]));
    });
  };
  return {
    unknowns: keep.length,
    loads: right,
    segmentLengths: segments.map(s => s.length),
    packed: eliminateFront(model.kernel, n + right, go.length, fill),
  };
}
