/**
 * One crack state solved by itself: displacements of every node kept on the line and the surface, and the forces across
 * the tied ones. Slower than the sweep over all states and independent of it; for joint deflections, energy release
 * rates and checks.
 */
import {solve} from "../numeric/index.ts";
import {contactPressures} from "./contact.ts";
import type {LineModel, NodePlaces} from "./line.ts";
import type {SurfaceLoads} from "./loads.ts";
import type {Segment} from "./parts.ts";
import {whole} from "./parts.ts";
import type {Tie} from "./tie.ts";

export interface DirectCase {
  readonly part: "symmetric" | "antisymmetric";
  readonly tied: (node: number) => boolean; // for each node of the path
  readonly transfer: number; // q [Pa/m]
  readonly interlock: number; // [Pa/m]
  readonly tie?: Tie | null; // reinforcement (symmetric part); left out: none
  readonly contact: readonly Segment[]; // segments closed: no mean opening, one pressure each (symmetric part)
}

export interface DirectSolution {
  readonly count: number; // load cases
  /** Row-major count × model.size [m per (Pa·m)…]: displacement of each kept unknown. */
  readonly displacement: Float64Array;
  /** Row-major count × path.length × 3: force across the ligament that the tie carries, tension positive; 0 where free. */
  readonly force: Float64Array;
}

/** @param loads on the surface nodes; the model's own strain cases, if any, follow as further load cases */
export function solveDirect(
  model: LineModel,
  S: Float64Array,
  request: DirectCase,
  loads: SurfaceLoads,
): DirectSolution {
  const {size} = model;
  const symmetric = request.part === "symmetric";
  const components = (n: NodePlaces): number[] => (symmetric ? [n.U] : [n.V, n.W]);
  const held = new Uint8Array(size);
  for (const place of [...model.loads, ...whole(model).flatMap(components)]) if (place >= 0) held[place] = 1;
  model.path.forEach((node, k) => {
    if (request.tied(k)) for (const place of components(node)) if (place >= 0) held[place] = 1;
  });

  const spring = new Float64Array(size);
  if (!symmetric) {
    for (const node of model.face) spring[node.W] += 2 * request.transfer * node.share;
    model.path.forEach((node, k) => {
      if (request.tied(k)) return;
      for (const place of components(node)) if (place >= 0) spring[place] += 2 * request.interlock * node.share;
    });
  }
  const free = Int32Array.from([...held.keys()].filter(k => !held[k]));
  const n = free.length;
  const A = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) A[i * n + j] = S[free[i] * size + free[j]];
    A[i * n + i] += spring[free[i]];
  }

  const tie = (symmetric && request.tie) || null;
  if (tie) addTie(A, n, free, model, tie);
  const count = loads.count + model.loads.length;
  const load = new Float64Array(count * size);
  for (let r = 0; r < loads.count; r++) {
    model.surface.forEach((place, s) => {
      load[r * size + place] += loads.values[r * model.surface.length + s];
    });
  }
  model.loads.forEach((place, q) => {
    for (let k = 0; k < size; k++)
      if (!model.loads.includes(k)) load[(loads.count + q) * size + k] = -S[place * size + k];
  });
  const closed = symmetric ? request.contact : [];
  const B = new Float64Array((count + closed.length) * n);
  for (let r = 0; r < count; r++) for (let i = 0; i < n; i++) B[r * n + i] = load[r * size + free[i]];
  const position = new Int32Array(size).fill(-1);
  free.forEach((place, i) => {
    position[place] = i;
  });
  closed.forEach(({unknowns, shares}, s) => {
    unknowns.forEach((place, i) => {
      if (position[place] >= 0) B[(count + s) * n + position[place]] += shares[i];
    });
  });
  solve(A, n, B, count + closed.length, model.kernel);
  if (closed.length) addContact(B, n, count, closed, position);

  const displacement = new Float64Array(count * size);
  const force = new Float64Array(count * model.path.length * 3);
  for (let r = 0; r < count; r++) {
    const u = displacement.subarray(r * size, (r + 1) * size);
    for (let i = 0; i < n; i++) u[free[i]] = B[r * n + i];
    model.path.forEach((node, k) => {
      if (!request.tied(k)) return;
      const places = [node.U, node.V, node.W];
      for (let c = 0; c < 3; c++) {
        if (symmetric !== (c === 0) || places[c] < 0) continue;
        let f = load[r * size + places[c]];
        for (let i = 0; i < n; i++) f -= S[places[c] * size + free[i]] * B[r * n + i];
        force[(r * model.path.length + k) * 3 + c] = f;
      }
    });
    if (!tie) continue;
    const pull = tie.stiffness * tie.nodes.reduce((sum, k, i) => sum + tie.weights[i] * u[model.path[k].U], 0);
    tie.nodes.forEach((k, i) => {
      if (request.tied(k)) force[(r * model.path.length + k) * 3] -= pull * tie.weights[i];
    });
  }
  return {count, displacement, force};
}

/** A reinforcement among the free unknowns. */
function addTie(A: Float64Array, n: number, free: Int32Array, {path}: LineModel, tie: Tie): void {
  const weight = new Map(Array.from(tie.nodes, (k, i) => [path[k].U, tie.weights[i]]));
  const places = [...free.keys()].filter(i => weight.has(free[i]));
  for (const i of places)
    for (const j of places) if (j <= i) A[i * n + j] += tie.stiffness * weight.get(free[i])! * weight.get(free[j])!;
}

/** Adds to each load case the pressures that take away the mean opening of the closed segments. */
function addContact(B: Float64Array, n: number, count: number, closed: readonly Segment[], position: Int32Array): void {
  const segments = closed.length;
  const open = new Float64Array(segments * count);
  const unit = new Float64Array(segments * segments);
  closed.forEach(({unknowns, shares, length}, s) => {
    unknowns.forEach((place, i) => {
      const at = position[place];
      if (at < 0) return;
      const share = shares[i] / length;
      for (let r = 0; r < count; r++) open[s * count + r] += share * B[r * n + at];
      for (let c = 0; c < segments; c++) unit[s * segments + c] += share * B[(count + c) * n + at];
    });
  });
  const pressures = new Float64Array(segments * count);
  contactPressures({open, unit, systems: 1, tips: 0, segments, loads: count}, (1 << segments) - 1, pressures);
  for (let r = 0; r < count; r++) {
    for (let s = 0; s < closed.length; s++) {
      const p = pressures[s * count + r];
      for (let i = 0; i < n; i++) B[r * n + i] += p * B[(count + s) * n + i];
    }
  }
}
