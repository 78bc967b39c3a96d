import {tridiagonalModes} from "../numeric/index.ts";
import type {Grid} from "./grid.ts";

/** Profiles that conduction only makes fade, each at a rate of its own: any profile is a sum of them. */
export interface Modes {
  readonly rate: Float64Array; // λ of each mode [1/s]
  readonly shape: Float64Array; // [mode][cell], Σ over cells of capacity·shape² = 1 [K per amplitude]
}

/**
 * Modes of C·dT/dt = −K·T, with K the conductances between cells and one from the surface cell to the outside at 0.
 * With T = C^{−1/2}·y they are the eigenvectors of the symmetric tridiagonal C^{−1/2}·K·C^{−1/2}.
 *
 * @param outside  conductance from the surface cell to the outside [W/(m²·K)], > 0
 */
export function conductionModes(grid: Grid, outside: number): Modes {
  const {capacity, conductance} = grid;
  const n = capacity.length;
  // From the bottom up: cells deep down are large and slow, and small entries come first.
  const diagonal = new Float64Array(n);
  const beside = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const i = n - 1 - k;
    const above = i > 0 ? conductance[i - 1] : outside;
    const below = i < n - 1 ? conductance[i] : 0;
    diagonal[k] = (above + below) / capacity[i];
    if (i > 0) beside[k] = -above / Math.sqrt(capacity[i] * capacity[i - 1]);
  }
  const vectors = tridiagonalModes(diagonal, beside);
  const shape = new Float64Array(n * n);
  for (let mode = 0; mode < n; mode++) {
    for (let i = 0; i < n; i++) shape[mode * n + i] = vectors[mode * n + n - 1 - i] / Math.sqrt(capacity[i]);
  }
  return {rate: diagonal, shape};
}
