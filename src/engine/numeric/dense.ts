/**
 * Dense kernels on symmetric positive definite matrices, row-major, lower triangle.
 * Everything works in place on caller-owned arrays; nothing allocates.
 */
import {InputError} from "../errors.ts";

const PANEL = 32; // columns factored before the trailing matrix is updated; a panel of a 500-row front fits the L2 cache

/**
 * Eliminates the first `count` unknowns of a symmetric positive definite matrix:
 *
 *   [A₁₁ A₂₁ᵀ; A₂₁ A₂₂] → L₁₁ and L₂₁ = A₂₁·L₁₁⁻ᵀ in the first `count` columns, A₂₂ − L₂₁·L₂₁ᵀ in the rest.
 *
 * Right-looking by panels, so that the work is in one matrix product. Only the lower triangle is read or written.
 *
 * @param A      row-major, leading dimension `n`, length ≥ n²; lower triangle overwritten
 * @param n      order of the matrix
 * @param count  unknowns to eliminate, 0 ≤ count ≤ n
 * @throws InputError "domain" when a pivot is not positive: the matrix is not positive definite
 */
export function eliminate(A: Float64Array, n: number, count: number): void {
  for (let start = 0; start < count; start += PANEL) {
    const end = Math.min(start + PANEL, count);
    factorPanel(A, n, start, end);
    subtractProduct(A, n, start, end);
  }
}

/** Cholesky of columns start…end−1 over all rows, the columns before already applied. */
function factorPanel(A: Float64Array, n: number, start: number, end: number): void {
  for (let k = start; k < end; k++) {
    const rowK = k * n;
    let pivot = A[rowK + k];
    for (let p = start; p < k; p++) pivot -= A[rowK + p] * A[rowK + p];
    if (!(pivot > 0))
      throw new InputError("domain", `pivot ${k}`, pivot, "> 0: the stiffness must be positive definite");
    const root = Math.sqrt(pivot);
    const inverse = 1 / root;
    A[rowK + k] = root;
    for (let i = k + 1; i < n; i++) {
      const rowI = i * n;
      let sum = A[rowI + k];
      for (let p = start; p < k; p++) sum -= A[rowI + p] * A[rowK + p];
      A[rowI + k] = sum * inverse;
    }
  }
}

/** A₂₂ −= L·Lᵀ with L the panel's rows end…n−1; blocks of 4 × 4 held in registers. */
function subtractProduct(A: Float64Array, n: number, start: number, end: number): void {
  const m = n - ((n - end) % 4);
  for (let i = end; i < m; i += 4) {
    const i0 = i * n;
    const i1 = i0 + n;
    const i2 = i1 + n;
    const i3 = i2 + n;
    for (let j = end; j <= i; j += 4) {
      const j0 = j * n;
      const j1 = j0 + n;
      const j2 = j1 + n;
      const j3 = j2 + n;
      let c00 = 0;
      let c01 = 0;
      let c02 = 0;
      let c03 = 0;
      let c10 = 0;
      let c11 = 0;
      let c12 = 0;
      let c13 = 0;
      let c20 = 0;
      let c21 = 0;
      let c22 = 0;
      let c23 = 0;
      let c30 = 0;
      let c31 = 0;
      let c32 = 0;
      let c33 = 0;
      for (let p = start; p < end; p++) {
        const b0 = A[j0 + p];
        const b1 = A[j1 + p];
        const b2 = A[j2 + p];
        const b3 = A[j3 + p];
        const a0 = A[i0 + p];
        c00 += a0 * b0;
        c01 += a0 * b1;
        c02 += a0 * b2;
        c03 += a0 * b3;
        const a1 = A[i1 + p];
        c10 += a1 * b0;
        c11 += a1 * b1;
        c12 += a1 * b2;
        c13 += a1 * b3;
        const a2 = A[i2 + p];
        c20 += a2 * b0;
        c21 += a2 * b1;
        c22 += a2 * b2;
        c23 += a2 * b3;
        const a3 = A[i3 + p];
        c30 += a3 * b0;
        c31 += a3 * b1;
        c32 += a3 * b2;
        c33 += a3 * b3;
      }
      // On the diagonal block this also writes above the diagonal, where nothing is ever read.
      A[i0 + j] -= c00;
      A[i0 + j + 1] -= c01;
      A[i0 + j + 2] -= c02;
      A[i0 + j + 3] -= c03;
      A[i1 + j] -= c10;
      A[i1 + j + 1] -= c11;
      A[i1 + j + 2] -= c12;
      A[i1 + j + 3] -= c13;
      A[i2 + j] -= c20;
      A[i2 + j + 1] -= c21;
      A[i2 + j + 2] -= c22;
      A[i2 + j + 3] -= c23;
      A[i3 + j] -= c30;
      A[i3 + j + 1] -= c31;
      A[i3 + j + 2] -= c32;
      A[i3 + j + 3] -= c33;
    }
  }
  for (let i = m; i < n; i++) {
    for (let j = end; j <= i; j++) {
      let sum = 0;
      for (let p = start; p < end; p++) sum += A[i * n + p] * A[j * n + p];
      A[i * n + j] -= sum;
    }
  }
}

/**
 * Solves A·X = B after `eliminate(A, n, n)`; B holds one right-hand side a row.
 *
 * @param L      factored matrix, row-major n × n
 * @param B      right-hand sides, row-major `count` × n; overwritten with the solutions
 */
export function solveFactored(L: Float64Array, n: number, B: Float64Array, count: number): void {
  for (let r = 0; r < count; r++) {
    const b = B.subarray(r * n, (r + 1) * n);
    for (let i = 0; i < n; i++) {
      let sum = b[i];
      const row = i * n;
      for (let k = 0; k < i; k++) sum -= L[row + k] * b[k];
      b[i] = sum / L[row + i];
    }
    for (let i = n - 1; i >= 0; i--) {
      const x = b[i] / L[i * n + i];
      b[i] = x;
      const row = i * n;
      for (let k = 0; k < i; k++) b[k] -= L[row + k] * x;
    }
  }
}

/**
 * Releases unknown k of a tableau [K | G] in which all unknowns start tied at zero (a principal pivot whose row is not
 * needed afterwards). Rows of tied unknowns hold the force that the tie lacks, g − K·u. Further rows may follow: linear
 * functionals f = wᵀ·u of unknowns to be released, entered as −w in their columns, kept up through every release.
 *
 * Rows of released unknowns are not kept up: whoever needs displacements asks for them through a functional.
 *
 * @param T        row-major, `rows` × `columns`: the unknowns' columns, then right-hand sides; overwritten
 * @param unknowns rows ≥ unknowns, columns ≥ unknowns
 * @param tied     1 where the unknown is still tied; entry k is set to 0
 * @source principal pivot transform, Tucker 1960; see also Goodnight 1979 (sweep operator), doi:10.1080/00031305.1979.10482685
 */
export function release(
  T: Float64Array,
  rows: number,
  unknowns: number,
  columns: number,
  tied: Uint8Array,
  k: number,
): void {
  const rowK = k * columns;
  const inverse = 1 / T[rowK + k];
  tied[k] = 0;
  // Columns of released unknowns are of no more use; those still tied mostly lie together.
  let first = 0;
  while (first < unknowns && !tied[first]) first++;
  let end = unknowns;
  while (end > first && !tied[end - 1]) end--;
  for (let j = first; j < end; j++) T[rowK + j] *= inverse;
  for (let j = unknowns; j < columns; j++) T[rowK + j] *= inverse;
  for (let i = 0; i < rows; i++) {
    if (i < unknowns && !tied[i]) continue;
    const rowI = i * columns;
    const factor = T[rowI + k];
    if (factor === 0) continue;
    for (let j = first; j < end; j++) T[rowI + j] -= factor * T[rowK + j];
    for (let j = unknowns; j < columns; j++) T[rowI + j] -= factor * T[rowK + j];
  }
}
