/** A symmetric matrix taken apart: values ascending, unit vectors in their order. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: readonly Float64Array[];
}

const SWEEPS = 30; // quadratic: five or six are enough

/**
 * Eigenvalues and eigenvectors of a small symmetric matrix by Jacobi's rotations.
 *
 * @param A  row-major n × n; kept
 * @source Golub & Van Loan, Matrix Computations, 8.5 (from memory)
 */
export function symmetricEigen(A: Float64Array, n: number): Eigen {
  const M = A.slice();
  const V = new Float64Array(n * n);
  for (let k = 0; k < n; k++) V[k * n + k] = 1;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let rotated = false;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        if (Math.abs(M[p * n + q]) <= 1e-16 * Math.sqrt(Math.abs(M[p * n + p] * M[q * n + q]))) continue;
        rotate(M, V, n, p, q);
        rotated = true;
      }
    if (!rotated) break;
  }
  const order = Array.from({length: n}, (_, k) => k).sort((a, b) => M[a * n + a] - M[b * n + b]);
  return {
    values: Float64Array.from(order, k => M[k * n + k]),
    vectors: order.map(k => Float64Array.from({length: n}, (_, i) => V[i * n + k])),
  };
}

/** One rotation in the plane of p and q, after which M[p, q] is zero. */
function rotate(M: Float64Array, V: Float64Array, n: number, p: number, q: number): void {
  const theta = (M[q * n + q] - M[p * n + p]) / (2 * M[p * n + q]);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (let k = 0; k < n; k++) {
    const [a, b] = [M[k * n + p], M[k * n + q]];
    M[k * n + p] = c * a - s * b;
    M[k * n + q] = s * a + c * b;
  }
  for (let k = 0; k < n; k++) {
    const [a, b] = [M[p * n + k], M[q * n + k]];
    M[p * n + k] = c * a - s * b;
    M[q * n + k] = s * a + c * b;
    const [v, w] = [V[k * n + p], V[k * n + q]];
    V[k * n + p] = c * v - s * w;
    V[k * n + q] = s * v + c * w;
  }
}
