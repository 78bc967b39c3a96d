/**
 * Part of the passes at a normal lateral position that bring the point at `at` into each cell of a group's width [–]:
 * Φ((at − e_k)/s) − Φ((at − e_{k+1})/s).
 *
 * @param edges      e, of the cells, ascending, one more than cells [m]
 * @param deviation  s [m], ≥ 0; at 0 all in the cell that holds `at`
 */
export function cellShares(edges: ArrayLike<number>, at: number, deviation: number): Float64Array {
  const shares = new Float64Array(edges.length - 1);
  let before = passedBelow(at - edges[0], deviation);
  for (let k = 0; k < shares.length; k++) {
    const after = passedBelow(at - edges[k + 1], deviation);
    shares[k] = before - after;
    before = after;
  }
  return shares;
}

/**
 * Part of the passes whose lateral offset is at most d [–], the offset normal about zero.
 *
 * @param deviation standard deviation [m], ≥ 0
 */
function passedBelow(d: number, deviation: number): number {
  if (deviation === 0) return d >= 0 ? 1 : 0;
  return normalIntegral(d / deviation);
}

/**
 * Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …): terms of one sign, so nothing cancels. Absolute error about 1e-16.
 *
 * @source Abramowitz & Stegun 1964, Eq. 26.2.11
 */
function normalIntegral(z: number): number {
  if (z > 8.5) return 1; // 1 − Φ(8.5) = 1e-17
  if (z < -8.5) return 0;
  let term = z;
  let sum = z;
  for (let n = 3; Math.abs(term) > 1e-17 * Math.abs(sum); n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}
