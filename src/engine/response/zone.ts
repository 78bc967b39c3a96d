/**
 * Mean traction over the process zone ahead of a tip, as weights on the nodal forces of the tied nodes:
 * ⟨σ⟩ = (1/d)·Σ wₖ·Fₖ. A node between two elements gives each its share of the force, in proportion to
 * modulus × length, as two bonded layers strained alike would carry it. The node at the tip belongs wholly to the zone
 * when the other side is broken.
 */
import type {NodePlaces} from "./line.ts";

export interface Zone {
  readonly length: number; // d as used [m]
  readonly nodes: Int32Array; // on the path
  readonly weights: Float64Array; // per length, so that Σ w·F is a mean traction [1/m]
}

export interface ZoneRequest {
  readonly tip: number; // node, a corner
  readonly direction: 1 | -1; // +1 down the path (from the surface), −1 up
  readonly length: number; // d wanted [m]; shortened to end at `limit`
  readonly limit: number; // node that the zone may not pass: next interface or the other front's tip
  readonly brokenBehind: boolean;
  readonly brokenBeyond: boolean; // beyond `limit`
  /** Modulus that shares a node's force: E' for opening, G for shear, by element of the path (element k is between nodes 2k and 2k+2). */
  readonly modulus: ArrayLike<number>;
}

export function zone(path: readonly NodePlaces[], request: ZoneRequest): Zone {
  const {tip, direction, limit, modulus} = request;
  const z = (node: number): number => path[node].z;
  const element = (corner: number, side: 1 | -1): number => (side > 0 ? corner / 2 : corner / 2 - 1);
  const stiffness = (corner: number, side: 1 | -1): number => {
    const e = element(corner, side);
    if (e < 0 || 2 * e + 2 > path.length - 1) return 0;
    return modulus[e] * (z(2 * e + 2) - z(2 * e));
  };
  const room = Math.abs(z(limit) - z(tip));
  const length = Math.min(request.length, room);

  // Force of each element ahead as weights on nodes, then the part of the last one that lies in the zone.
  const weights = new Map<number, number>();
  const add = (node: number, w: number): void => void weights.set(node, (weights.get(node) ?? 0) + w);
  const forces: {
    readonly size: number;
    readonly parts: readonly (readonly [number, number])[];
  }[] = [];
  for (let corner = tip, reached = 0; reached < length - 1e-12; ) {
    const far = corner + 2 * direction;
    const behind = -direction as 1 | -1;
    const nearShare =
      corner === tip && request.brokenBehind
        ? 1
        : stiffness(corner, direction) / (stiffness(corner, direction) + stiffness(corner, behind));
    const farAhead = stiffness(far, direction);
    const own = stiffness(corner, direction);
    const farShare = far === limit && request.brokenBeyond ? 1 : own / (own + farAhead);
    forces.push({
      size: Math.abs(z(far) - z(corner)),
      parts: [
        [corner, nearShare],
        [corner + direction, 1],
        [far, farShare],
      ],
    });
    reached += Math.abs(z(far) - z(corner));
    corner = far;
  }
  const total = forces.reduce((sum, f) => sum + f.size, 0);
  const last = forces.length - 1;
  const excess = total - length;
  forces.forEach((f, k) => {
    // In the element where the zone ends the traction is taken as linear: its mean m over the element and the slope to the
    // mean of the element before give the force on the part inside.
    if (k < last || excess < 1e-12) f.parts.forEach(([node, w]) => void add(node, w));
  });
  if (excess >= 1e-12) {
    const f = forces[last];
    const inside = f.size - excess;
    const before = last > 0 ? forces[last - 1] : null;
    // ∫ over the part inside = inside·m − ½·inside·excess·slope, slope = (m − m_before)/(mean distance)
    const slope = before ? (0.5 * inside * excess) / (0.5 * (f.size + before.size)) : 0;
    f.parts.forEach(([node, w]) => void add(node, (w / f.size) * (inside - slope)));
    before?.parts.forEach(([node, w]) => void add(node, (w / before.size) * slope));
  }
  const nodes = Int32Array.from(weights.keys());
  return {length, nodes, weights: Float64Array.from(nodes, node => weights.get(node)! / length)};
}
