/**
 * Each extreme of a strain known at points along a pass, moved to the vertex of the parabola through the squares of its value
 * and of its two neighbours'. Between points a peak is missed by up to some per cent, which a power of it multiplies. Squares,
 * because a tip strain is a root of a sum of squares: it has a corner where shear changes sign, its square has none, and
 * a crack that closes takes σ₊² away with no corner either.
 *
 *   ε² = b² + s·u + k·u²,  k = (l + r)/(p + q),  s = (r·p − l·q)/(p + q),  ε²(vertex) = b² − s²/(4k)
 *
 * with l = (a² − b²)/p, r = (c² − b²)/q for values a, b, c at u = −p, 0, q. The vertex lies between the neighbours. The first
 * and the last value stay.
 *
 * @param at      ascending [m]
 * @param strain  as many values, ≥ 0 [–]
 * @param out     as many, [–]; overwritten; not the same array as `strain`
 * @source docs/theory/life.md
 */
export function moveTurns(at: Float64Array, strain: Float64Array, out: Float64Array): void {
  const last = at.length - 1;
  out.set(strain.subarray(0, at.length));
  for (let j = 1; j < last; j++) {
    const [a, b, c] = [strain[j - 1], strain[j], strain[j + 1]];
    if (a < b !== c < b && a !== b && b !== c) continue; // on the way up or down
    const [p, q] = [at[j] - at[j - 1], at[j + 1] - at[j]];
    const left = ((a - b) * (a + b)) / p;
    const right = ((c - b) * (c + b)) / q;
    const curvature = (left + right) / (p + q);
    if (curvature === 0) continue; // three equal values
    const slope = (right * p - left * q) / (p + q);
    out[j] = Math.sqrt(Math.max(0, b * b - (slope * slope) / (4 * curvature)));
  }
}
