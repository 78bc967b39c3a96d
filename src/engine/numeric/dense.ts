import {eliminate, type Kernel, threadKernel} from "./kernel.ts";
import {PANEL, packedLength, packedRow} from "./packed.ts";

/**
 * Solves A·X = B for a symmetric positive definite matrix.
 *
 * @param A       row-major, length ≥ n²; only the lower triangle is read
 * @param B       right-hand sides, row-major `count` × n; overwritten with the solutions
 * @param kernel  its memory is overwritten
 * @throws InputError "domain" when a pivot is not positive
 */
export function solve(
  A: Float64Array,
  n: number,
  B: Float64Array,
  count: number,
  kernel: Kernel = threadKernel(),
): void {
  // Right-hand sides as further rows: eliminating the unknowns turns them into (L⁻¹·b)ᵀ.
  kernel.reserve(packedLength(n + count));
  const {doubles: M} = kernel;
  for (let i = 0; i < n; i++) {
    const row = packedRow(i);
    for (let j = 0; j <= i; j++) M[row + PANEL * j] = A[i * n + j];
  }
  for (let r = 0; r < count; r++) {
    const row = packedRow(n + r);
    for (let j = 0; j < n; j++) M[row + PANEL * j] = B[r * n + j];
    for (let q = 0; q <= r; q++) M[row + PANEL * (n + q)] = 0;
  }
  eliminate(kernel, 0, n + count, 0, n);
  for (let r = 0; r < count; r++) {
    const x = B.subarray(r * n, (r + 1) * n);
    const own = packedRow(n + r);
    for (let j = 0; j < n; j++) x[j] = M[own + PANEL * j];
    for (let i = n - 1; i >= 0; i--) {
      const row = packedRow(i);
      x[i] *= M[row + PANEL * i]; // the diagonal holds reciprocals
      for (let k = 0; k < i; k++) x[k] -= M[row + PANEL * k] * x[i];
    }
  }
}
