/** Between the nodes of a grid. */

export interface CubicWeights {
  readonly first: number; // node
  readonly weights: readonly number[]; // of it and those after it; sum 1
}

/**
 * Weights of the cubic through the four nodes about a place (through all where there are fewer), by Lagrange:
 *
 *   wₖ = Π_{m≠k} (t − tₘ)/(tₖ − tₘ)
 *
 * Exact for cubics; the error is of fourth order in the distance of the nodes. At a node its value comes out as it is.
 *
 * @param nodes ascending, ≥ 1
 */
export function cubicWeights(nodes: readonly number[], t: number): CubicWeights {
  const size = Math.min(4, nodes.length);
  let above = nodes.findIndex(node => node > t);
  if (above < 0) above = nodes.length;
  const first = Math.min(Math.max(0, above - 2), nodes.length - size);
  const own = nodes.slice(first, first + size);
  const weights = own.map((a, k) => own.reduce((w, b, m) => (m === k ? w : (w * (t - b)) / (a - b)), 1));
  return {first, weights};
}

/**
 * Sum in both directions. A value that is not a number makes those about it none.
 *
 * @param values by row (y) and column (x)
 */
export function weighted(
  values: readonly (readonly number[])[],
  {x, y}: {readonly x: CubicWeights; readonly y: CubicWeights},
): number {
  let sum = 0;
  for (let j = 0; j < y.weights.length; j++) {
    if (y.weights[j] === 0) continue; // at a node the others have no say
    let row = 0;
    for (let i = 0; i < x.weights.length; i++)
      if (x.weights[i] !== 0) row += x.weights[i] * values[y.first + j][x.first + i];
    sum += y.weights[j] * row;
  }
  return sum;
}
