/** What a search ended with. */
export interface Minimum {
  readonly at: Float64Array;
  readonly value: number;
  readonly evaluations: number;
  readonly converged: boolean;
}

/**
 * The simplex of Nelder and Mead, for a handful of variables and functions without derivatives. Deterministic.
 *
 * @param start      first vertex
 * @param step       of the other vertices, by variable
 * @param tolerance  spread of the function's values over the simplex at which the search ends
 * @source Nelder & Mead 1965, doi:10.1093/comjnl/7.4.308
 */
export function minimize(
  f: (x: Float64Array) => number,
  start: Float64Array,
  step: Float64Array,
  {tolerance = 1e-8, limit = 2000}: {readonly tolerance?: number; readonly limit?: number} = {},
): Minimum {
  const n = start.length;
  let evaluations = 0;
  const vertex = (at: Float64Array) => {
    evaluations++;
    const value = f(at);
    return {at, value: Number.isNaN(value) ? Infinity : value};
  };
  const simplex = [vertex(start.slice())];
  for (let k = 0; k < n; k++) simplex.push(vertex(start.map((x, i) => (i === k ? x + step[k] : x))));
  const order = (): void => void simplex.sort((p, q) => p.value - q.value);
  order();
  const spread = (): number => simplex[n].value - simplex[0].value;
  while (evaluations < limit && !(spread() <= tolerance)) {
    const worst = simplex[n];
    const centre = start.map((_, i) => simplex.slice(0, n).reduce((sum, v) => sum + v.at[i], 0) / n);
    const along = (t: number) => vertex(centre.map((c, i) => c + t * (worst.at[i] - c)));
    const reflected = along(-1);
    if (reflected.value < simplex[0].value) {
      const further = along(-2);
      simplex[n] = further.value < reflected.value ? further : reflected;
    } else if (reflected.value < simplex[n - 1].value) simplex[n] = reflected;
    else {
      const nearer = reflected.value < worst.value ? along(-0.5) : along(0.5);
      if (nearer.value < Math.min(worst.value, reflected.value)) simplex[n] = nearer;
      else {
        const best = simplex[0].at;
        for (let k = 1; k <= n; k++) simplex[k] = vertex(simplex[k].at.map((x, i) => (x + best[i]) / 2));
      }
    }
    order();
  }
  return {at: simplex[0].at, value: simplex[0].value, evaluations, converged: spread() <= tolerance};
}
