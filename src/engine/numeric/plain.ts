/**
 * The operations in which the time goes, in plain TypeScript: what runs where there are no 128-bit vectors, and the twin by
 * which those of engine/wasm are tested. Both do the same arithmetic in the same order, so their results are the same
 * to the bit. Theory: docs/theory/numeric.md.
 *
 * All matrices are packed (see packed.ts) and lie in one memory; `M` is that memory as doubles, `I` the same as 32-bit
 * integers. Addresses are indices into M, those of maps into I.
 */
import {PANEL, packedRow} from "./packed.ts";

/**
 * Eliminates unknowns start … end − 1 of a symmetric matrix whose earlier unknowns are gone:
 *
 *   [A₁₁ A₂₁ᵀ; A₂₁ A₂₂] → L₂₁ = A₂₁·L₁₁⁻ᵀ in the columns eliminated, A₂₂ − L₂₁·L₂₁ᵀ in the later ones.
 *
 * A row at a time, from the left: for three columns of a panel all that is left of them is summed in registers first.
 * The diagonal of L₁₁ holds reciprocals.
 *
 * @returns −1, or the first unknown whose pivot is not positive
 */
export function eliminate(M: Float64Array, front: number, n: number, start: number, end: number): number {
  const panels = Math.ceil(n / PANEL);
  for (let r = Math.floor(start / PANEL); r < panels; r++) {
    const A = front + packedRow(PANEL * r);
    for (let k0 = start - (start % 3); k0 < PANEL * (r + 1); k0 += 3) {
      const B = front + packedRow(k0);
      subtractProducts(M, A, B, k0, start, end);
      if (k0 < end) {
        const refused = finish(M, A, B, PANEL * r, k0, start, end);
        if (refused >= 0) return refused;
      }
    }
  }
  return -1;
}

/** One panel at A and three columns from k0, whose rows begin at B: subtracts Σ_p L_ip·L_kp, start ≤ p < min(end, k0). */
function subtractProducts(M: Float64Array, A: number, B: number, k0: number, start: number, end: number): void {
  let c00 = 0;
  let c01 = 0;
  let c02 = 0;
  let c10 = 0;
  let c11 = 0;
  let c12 = 0;
  let c20 = 0;
  let c21 = 0;
  let c22 = 0;
  let c30 = 0;
  let c31 = 0;
  let c32 = 0;
  let c40 = 0;
  let c41 = 0;
  let c42 = 0;
  let c50 = 0;
  let c51 = 0;
  let c52 = 0;
  let a = (A + PANEL * start) | 0; // whole numbers for the compiler: nearly twice as fast
  let b = (B + PANEL * start) | 0;
  for (const stop = A + PANEL * Math.min(end, k0); a < stop; a = (a + PANEL) | 0, b = (b + PANEL) | 0) {
    const b0 = M[b];
    const b1 = M[b + 1];
    const b2 = M[b + 2];
    const a0 = M[a];
    c00 += a0 * b0;
    c01 += a0 * b1;
    c02 += a0 * b2;
    const a1 = M[a + 1];
    c10 += a1 * b0;
    c11 += a1 * b1;
    c12 += a1 * b2;
    const a2 = M[a + 2];
    c20 += a2 * b0;
    c21 += a2 * b1;
    c22 += a2 * b2;
    const a3 = M[a + 3];
    c30 += a3 * b0;
    c31 += a3 * b1;
    c32 += a3 * b2;
    const a4 = M[a + 4];
    c40 += a4 * b0;
    c41 += a4 * b1;
    c42 += a4 * b2;
    const a5 = M[a + 5];
    c50 += a5 * b0;
    c51 += a5 * b1;
    c52 += a5 * b2;
  }
  const at = A + PANEL * k0;
  if (k0 >= start) {
    M[at] -= c00;
    M[at + 1] -= c10;
    M[at + 2] -= c20;
    M[at + 3] -= c30;
    M[at + 4] -= c40;
    M[at + 5] -= c50;
  }
  if (k0 + 1 >= start) {
    M[at + 6] -= c01;
    M[at + 7] -= c11;
    M[at + 8] -= c21;
    M[at + 9] -= c31;
    M[at + 10] -= c41;
    M[at + 11] -= c51;
  }
  M[at + 12] -= c02;
  M[at + 13] -= c12;
  M[at + 14] -= c22;
  M[at + 15] -= c32;
  M[at + 16] -= c42;
  M[at + 17] -= c52;
}

/** Columns k0 … k0 + 2 of the panel of rows from `first`, what lies left of k0 already subtracted. */
function finish(M: Float64Array, A: number, B: number, first: number, k0: number, start: number, end: number): number {
  for (let c = 0; c < 3; c++) {
    const k = k0 + c;
    if (k < start) continue;
    const at = A + PANEL * k;
    for (let p = Math.max(k0, start); p < Math.min(k, end); p++) {
      const factor = M[B + PANEL * p + c];
      const left = A + PANEL * p;
      for (let i = 0; i < PANEL; i++) M[at + i] -= M[left + i] * factor;
    }
    if (k >= end) continue;
    const diagonal = B + PANEL * k + c;
    const own = k >= first; // its row is in this very panel
    if (own && !(M[diagonal] > 0)) return k;
    const inverse = own ? 1 / Math.sqrt(M[diagonal]) : M[diagonal];
    for (let i = 0; i < PANEL; i++) M[at + i] *= inverse;
    if (own) M[diagonal] = inverse;
  }
  return -1;
}

/**
 * Adds rows and columns skip … n − 1 of a child's matrix into a front.
 *
 * @param map  where they stand in the front, ascending
 */
export function extendAdd(
  M: Float64Array,
  I: Int32Array,
  front: number,
  child: number,
  n: number,
  skip: number,
  map: number,
): void {
  for (let i = skip; i < n; i++) {
    const from = child + packedRow(i);
    const to = front + packedRow(I[map + i - skip]);
    for (let j = skip; j <= i; j++) M[to + PANEL * I[map + j - skip]] += M[from + PANEL * j];
  }
}

/**
 * Adds an element's matrix into a front.
 *
 * @param element  row-major m × m, only the lower triangle is read
 * @param map      where its unknowns stand in the front; −1 where held
 */
export function addElement(
  M: Float64Array,
  I: Int32Array,
  front: number,
  element: number,
  m: number,
  map: number,
): void {
  for (let i = 0; i < m; i++) {
    const row = I[map + i];
    if (row < 0) continue;
    for (let j = 0; j <= i; j++) {
      const column = I[map + j];
      if (column < 0) continue;
      const at = row >= column ? packedRow(row) + PANEL * column : packedRow(column) + PANEL * row;
      M[front + at] += M[element + i * m + j];
    }
  }
}

/**
 * Rows and columns of one matrix in another order, or some of them: to(i, j) = from(order[i], order[j]).
 *
 * @param n  of the result
 */
export function gather(M: Float64Array, I: Int32Array, to: number, from: number, n: number, order: number): void {
  for (let i = 0; i < n; i++) {
    const row = I[order + i];
    for (let j = 0; j <= i; j++) {
      const column = I[order + j];
      const at = row >= column ? packedRow(row) + PANEL * column : packedRow(column) + PANEL * row;
      M[to + packedRow(i) + PANEL * j] = M[from + at];
    }
  }
}
