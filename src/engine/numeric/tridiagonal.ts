import {InputError} from "../errors.ts";

const MOST_SWEEPS = 50; // two or so are usual

/**
 * Eigenvalues and vectors of a symmetric, positive definite tridiagonal matrix by implicit QL with Wilkinson's shift. Where
 * the entries are of very different size the small ones should come first: then small eigenvalues are accurate relative to
 * themselves.
 *
 * @param d  diagonal, length n; overwritten with the eigenvalues, in no order
 * @param e  below the diagonal, length n, the last unused; overwritten
 * @returns  orthonormal vectors [vector][component]
 * @throws InputError "convergence"
 * @source Martin & Wilkinson 1968, Numer. Math. 12, 377–383 (imtql2), from memory; docs/theory/numeric.md
 */
export function tridiagonalModes(d: Float64Array, e: Float64Array): Float64Array {
  const n = d.length;
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < n; i++) vectors[i * n + i] = 1;
  for (let first = 0; first < n; first++) {
    for (let sweep = 0; ; sweep++) {
      let last = first; // of the block that does not fall apart yet
      while (last < n - 1 && Math.abs(e[last]) > Number.EPSILON * (Math.abs(d[last]) + Math.abs(d[last + 1]))) last++;
      if (last === first) break;
      if (sweep === MOST_SWEEPS) throw new InputError("convergence", "sweeps", sweep, `fewer than ${MOST_SWEEPS}`);
      qlSweep(d, e, first, last, vectors);
    }
  }
  return vectors;
}

/** One chase of the bulge from the end of the block to its start. */
function qlSweep(d: Float64Array, e: Float64Array, first: number, last: number, vectors: Float64Array): void {
  const n = d.length;
  const half = (d[first + 1] - d[first]) / (2 * e[first]);
  const root = Math.sqrt(half * half + 1);
  let g = d[last] - d[first] + e[first] / (half + (half < 0 ? -root : root));
  let sine = 1;
  let cosine = 1;
  let p = 0;
  for (let i = last - 1; i >= first; i--) {
    const f = sine * e[i];
    const b = cosine * e[i];
    const r = Math.sqrt(f * f + g * g);
    e[i + 1] = r;
    if (r === 0) {
      d[i + 1] -= p;
      e[last] = 0;
      return;
    }
    sine = f / r;
    cosine = g / r;
    g = d[i + 1] - p;
    const s = (d[i] - g) * sine + 2 * cosine * b;
    p = sine * s;
    d[i + 1] = g + p;
    g = cosine * s - b;
    for (let k = 0, low = i * n, high = low + n; k < n; k++) {
      const upper = vectors[high + k];
      const lower = vectors[low + k];
      vectors[high + k] = sine * lower + cosine * upper;
      vectors[low + k] = cosine * lower - sine * upper;
    }
  }
  d[first] -= p;
  e[first] = g;
  e[last] = 0;
}
