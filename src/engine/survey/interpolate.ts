/** Between the nodes of a grid. */

/**
 * Weights of the cubic through the four nodes about a place (through all where there are fewer), by Lagrange:
 *
 *   wₖ = Π_{m≠k} (t − tₘ)/(tₖ − tₘ)
 *
 * Exact for cubics; the error is of fourth order in the distance of the nodes. At a node its value comes out as it is.
 *
 * @param nodes ascending, ≥ 1
 */
export function cubicWeights(
  nodes: readonly number[],
  t: number,
): {readonly first: number; readonly weights: number[]} {
  const size = Math.min(4, nodes.length);
  let above = nodes.findIndex(node => node > t);
  if (above < 0) above = nodes.length;
  const first = Math.min(Math.max(0, above - 2), nodes.length - size);
  const own = nodes.slice(first, first + size);
  const weights = own.map((a, k) => own.reduce((w, b, m) => (m === k ? w : (w * (t - b)) / (a - b)), 1));
  return {first, weights};
}

export interface NodeGrid {
  readonly x: readonly number[]; // ascending, of any unit
  readonly y: readonly number[];
  readonly values: readonly (readonly number[])[]; // by row (y) and column (x)
}

/** Cubic in both directions. A value that is not a number makes those about it none. */
export function interpolated({x, y, values}: NodeGrid, at: {readonly x: number; readonly y: number}): number {
  const [wx, wy] = [cubicWeights(x, at.x), cubicWeights(y, at.y)];
  let sum = 0;
  for (let j = 0; j < wy.weights.length; j++) {
    if (wy.weights[j] === 0) continue; // at a node the others have no say
    let row = 0;
    for (let i = 0; i < wx.weights.length; i++)
      if (wx.weights[i] !== 0) row += wx.weights[i] * values[wy.first + j][wx.first + i];
    sum += wy.weights[j] * row;
  }
  return sum;
}
