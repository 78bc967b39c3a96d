import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";

/** A small symmetric positive definite matrix A = L·Lᵀ, factored. */
export interface Factored {
  readonly logDeterminant: number;
  /** A⁻¹·b; b is kept. */
  readonly solve: (b: Float64Array) => Float64Array;
  /** A⁻¹, row-major. */
  readonly inverse: () => Float64Array;
  /** L·z: with z standard normal a draw whose covariance is A. */
  readonly spread: (z: Float64Array) => Float64Array;
}

/**
 * Cholesky's factorization, for matrices of order ten or so.
 *
 * @param A         row-major n × n, of which the lower triangle is read
 * @param smallest  pivot that is accepted, of its diagonal entry: what one unknown has that those before do not [–]
 * @throws InputError "domain" when A is not positive definite to rounding, or to `smallest`
 */
export function factored(A: ArrayLike<number>, n: number, smallest = 1e-14): Factored {
  const L = new Float64Array(n * n);
  let logDeterminant = 0;
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = A[i * n + j];
      for (let k = 0; k < j; k++) sum -= L[i * n + k] * L[j * n + k];
      if (i === j) {
        if (!(sum > smallest * Math.abs(A[j * n + j])))
          throw new InputError("domain", `pivot ${j} of ${n}`, sum, "> 0: the matrix is not positive definite");
        L[j * n + j] = Math.sqrt(sum);
        logDeterminant += ln(sum);
      } else L[i * n + j] = sum / L[j * n + j];
    }
  }
  const solve = (b: Float64Array): Float64Array => {
    const x = b.slice();
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) x[i] -= L[i * n + k] * x[k];
      x[i] /= L[i * n + i];
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) x[i] -= L[k * n + i] * x[k];
      x[i] /= L[i * n + i];
    }
    return x;
  };
  return {
    logDeterminant,
    solve,
    inverse: () => {
      const out = new Float64Array(n * n);
      for (let j = 0; j < n; j++) {
        const unit = new Float64Array(n);
        unit[j] = 1;
        out.set(solve(unit), j * n);
      }
      return out;
    },
    spread: z =>
      Float64Array.from({length: n}, (_, i) => z.reduce((sum, v, k) => (k <= i ? sum + L[i * n + k] * v : sum), 0)),
  };
}
