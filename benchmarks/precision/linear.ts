/**
 * Linear elements in the place of a quadratic one: its eight nodes and one in the middle make 2 × 2 bilinear rectangles,
 * the middle one eliminated. The same unknowns along y and the same strains as in src/engine/response/element.ts, whose
 * order of nodes and unknowns this keeps; integrated exactly. To be compared, not to be used: springs and loads stay those
 * of the quadratic element.
 */
import type {Lame} from "../../src/engine/response/index.ts";

/** Node of the 3 × 3 lattice (column, row) of each of the eight nodes, then the middle one. */
const COLUMN = [0, 2, 2, 0, 1, 2, 1, 0, 1];
const ROW = [0, 0, 2, 2, 0, 1, 2, 1, 1];

/** Integrals over [−1, 1] of the three hats at −1, 0, 1: ∫N·N, ∫N′·N′, ∫N′·N (derivative of the first). */
const MASS = [
  [1 / 3, 1 / 6, 0],
  [1 / 6, 2 / 3, 1 / 6],
  [0, 1 / 6, 1 / 3],
];
const STEEP = [
  [1, -1, 0],
  [-1, 2, -1],
  [0, -1, 1],
];
const SLOPE = [
  [-1 / 2, -1 / 2, 0],
  [1 / 2, 0, -1 / 2],
  [0, 1 / 2, 1 / 2],
];

const NODES = 9;
const SIZE = 3 * NODES;
const OUTER = 24; // unknowns that stay
const full = new Float64Array(SIZE * SIZE); // scratch

/** Signature and layout of `elementStiffness`. */
export function linearStiffness(dx: number, dz: number, material: Lame, beta: number, out: Float64Array): void {
  fill(dx, dz, material, beta);
  for (let k = SIZE - 1; k >= OUTER; k--) {
    const pivot = full[SIZE * k + k];
    for (let i = 0; i < k; i++) {
      const factor = full[SIZE * k + i] / pivot;
      for (let j = 0; j <= i; j++) full[SIZE * i + j] -= factor * full[SIZE * k + j];
    }
  }
  for (let i = 0; i < OUTER; i++) for (let j = 0; j <= i; j++) out[OUTER * i + j] = full[SIZE * i + j];
}

/** The stiffness with the middle node, in `full`: the same combinations of the six integrals as the quadratic element's. */
function fill(dx: number, dz: number, {lambda, mu}: Lame, beta: number): void {
  const m = lambda + 2 * mu;
  const area = (dx * dz) / 4;
  const rx = dz / dx;
  const rz = dx / dz;
  for (let i = 0; i < NODES; i++) {
    for (let j = 0; j <= i; j++) {
      const [a, b, c, d] = [COLUMN[i], COLUMN[j], ROW[i], ROW[j]];
      const mass = area * beta * beta * MASS[a][b] * MASS[c][d];
      const xx = rx * STEEP[a][b] * MASS[c][d];
      const zz = rz * MASS[a][b] * STEEP[c][d];
      const xz = SLOPE[a][b] * SLOPE[d][c]; // N,x(i)·N,z(j)
      const zx = SLOPE[b][a] * SLOPE[c][d];
      const x0 = 0.5 * dz * beta * SLOPE[a][b] * MASS[c][d]; // β·N,x(i)·N(j)
      const ox = 0.5 * dz * beta * SLOPE[b][a] * MASS[c][d];
      const z0 = 0.5 * dx * beta * MASS[a][b] * SLOPE[c][d];
      const oz = 0.5 * dx * beta * MASS[a][b] * SLOPE[d][c];
      const r = 3 * (SIZE * i + j);
      full[r] = m * xx + mu * zz + mu * mass;
      full[r + 1] = lambda * x0 - mu * ox;
      full[r + 2] = lambda * xz + mu * zx;
      full[r + SIZE] = lambda * ox - mu * x0;
      full[r + SIZE + 1] = mu * (xx + zz) + m * mass;
      full[r + SIZE + 2] = lambda * oz - mu * z0;
      full[r + 2 * SIZE] = lambda * zx + mu * xz;
      full[r + 2 * SIZE + 1] = lambda * z0 - mu * oz;
      full[r + 2 * SIZE + 2] = m * zz + mu * xx + mu * mass;
    }
  }
}
