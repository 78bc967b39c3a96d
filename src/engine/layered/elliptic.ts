/**
 * Bulirsch's general complete elliptic integral
 *
 *   cel(kc, p, a, b) = ∫₀^{π/2} (a cos²θ + b sin²θ) / (cos²θ + p sin²θ) / √(cos²θ + kc² sin²θ) dθ,
 *
 * so K = cel(kc, 1, 1, 1), E = cel(kc, 1, 1, kc²), Π(n) = cel(kc, 1 − n, 1, 1), with kc² = 1 − k².
 *
 * @param kc  complementary modulus [–], > 0
 * @param p   [–], > 0
 * @source Bulirsch 1965, Numer. Math. 7, 78–90 (algorithm for p > 0)
 */
export function cel(kc: number, p: number, a: number, b: number): number {
  let k = kc;
  let mean = 1; // arithmetic–geometric mean, quadratic: stopping at 1e-8 leaves 1e-16
  let root = Math.sqrt(p);
  let sine = b / root;
  let cosine = a;
  let product = k;
  let last = 0;
  for (let first = true; first || Math.abs(last - k) > 1e-8 * last; first = false) {
    if (!first) {
      k = 2 * Math.sqrt(product);
      product = k * mean;
    }
    const f = cosine;
    cosine += sine / root;
    const g = product / root;
    sine = 2 * (sine + f * g);
    root += g;
    last = mean;
    mean += k;
  }
  return ((Math.PI / 2) * (sine + cosine * mean)) / (mean * (mean + root));
}
