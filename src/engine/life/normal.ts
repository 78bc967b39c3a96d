/**
 * Part of the passes whose lateral offset is at most d [–], the offset normal about zero.
 *
 * @param deviation standard deviation [m], ≥ 0
 */
export function passedBelow(d: number, deviation: number): number {
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
