/** Small dense systems, symmetric positive definite, row-major, lower triangle; in place, nothing allocates. */
import {InputError} from "../errors.ts";

/**
 * Cholesky's factor of a symmetric positive definite matrix: A → L.
 *
 * @param A  row-major, length ≥ n²; only the lower triangle is read or overwritten
 * @throws InputError "domain" when a pivot is not positive
 */
export function factor(A: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = 0; j <= i; j++) {
      const other = j * n;
      let sum = A[row + j];
      for (let p = 0; p < j; p++) sum -= A[row + p] * A[other + p];
      if (j < i) A[row + j] = sum / A[other + j];
      else if (sum > 0) A[row + i] = Math.sqrt(sum);
      else throw new InputError("domain", `pivot ${i}`, sum, "> 0: the stiffness must be positive definite");
    }
  }
}

/**
 * Solves A·X = B after `factor`; B holds one right-hand side a row.
 *
 * @param L      from `factor`, row-major n × n
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
