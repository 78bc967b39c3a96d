/**
 * Nodes and weights of n-point Gauss–Legendre quadrature on [−1, 1], by Newton's method on Pₙ.
 *
 * @source Abramowitz & Stegun 1964, 25.4.29 and 22.7.10 (recurrence)
 */
export function gaussLegendre(n: number): {readonly nodes: Float64Array; readonly weights: Float64Array} {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 6; step++) {
      // quadratic from an error below 1e-2: six steps reach rounding
      let p = 1;
      let before = 0;
      for (let k = 1; k <= n; k++) {
        const next = ((2 * k - 1) * x * p - (k - 1) * before) / k;
        before = p;
        p = next;
      }
      slope = (n * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return {nodes, weights};
}
