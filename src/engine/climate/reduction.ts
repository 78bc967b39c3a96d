import {InputError} from "../errors.ts";
import type {LayerRole} from "../section/types.ts";
import {type Grid, interpolationAt} from "./grid.ts";

/** Sums over the cells, one weight a cell and quantity: value = Σ wᵢ·Tᵢ. */
export interface Reduction {
  readonly overlayMean: Float64Array; // [–]
  readonly slabMean: Float64Array; // [–]
  readonly slabGradient: Float64Array; // [1/m]
  readonly halfWayOverlay: Float64Array; // [–]
  readonly layerMean: readonly Float64Array[]; // by layer [–]
}

/**
 * Means over thickness, and the least-squares straight line over the jointed layers:
 *
 *   dT/dz = Σ Δzᵢ·(zᵢ − z̄)·Tᵢ / Σ Δzᵢ·(zᵢ − z̄)²
 *
 * The denominator is the sum over cells, not h³/12, so that a straight profile gives its slope exactly.
 *
 * @param roles  role of each layer, in the order the grid was made from
 * @throws InputError "shape" when there is no overlay or no jointed layer
 */
export function reduction(grid: Grid, roles: readonly LayerRole[]): Reduction {
  const slab = cellsOf(grid, roles, ["jointed"]);
  const overlay = cellsOf(grid, roles, ["overlay"]);
  if (slab.length === 0) throw new InputError("shape", "section.layers", roles.join(", "), "a jointed layer");
  if (overlay.length === 0) throw new InputError("shape", "section.layers", roles.join(", "), "an overlay");

  const slabMean = meanWeights(grid, slab);
  const middle = slab.reduce((sum, i) => sum + slabMean[i] * grid.centre[i], 0);
  const slabGradient = new Float64Array(grid.centre.length);
  let second = 0;
  for (const i of slab) {
    slabGradient[i] = grid.width[i] * (grid.centre[i] - middle);
    second += slabGradient[i] * (grid.centre[i] - middle);
  }
  for (const i of slab) slabGradient[i] /= second;

  const halfWayOverlay = new Float64Array(grid.centre.length);
  const upper = overlay[0];
  const lower = overlay[overlay.length - 1];
  const top = grid.centre[upper] - 0.5 * grid.width[upper];
  const bottom = grid.centre[lower] + 0.5 * grid.width[lower];
  const {cell, weight} = interpolationAt(grid, 0.5 * (top + bottom));
  halfWayOverlay[cell] = 1 - weight;
  halfWayOverlay[cell + 1] = weight;

  const overlayMean = meanWeights(grid, cellsOf(grid, roles, ["overlay", "interlayer"]));
  const layerMean = roles.map((_, j) =>
    meanWeights(
      grid,
      Array.from({length: grid.firstCell[j + 1] - grid.firstCell[j]}, (_, i) => grid.firstCell[j] + i),
    ),
  );
  return {overlayMean, slabMean, slabGradient, halfWayOverlay, layerMean};
}

function cellsOf(grid: Grid, roles: readonly LayerRole[], wanted: readonly LayerRole[]): number[] {
  const cells: number[] = [];
  roles.forEach((role, j) => {
    if (wanted.includes(role)) for (let i = grid.firstCell[j]; i < grid.firstCell[j + 1]; i++) cells.push(i);
  });
  return cells;
}

function meanWeights(grid: Grid, cells: readonly number[]): Float64Array {
  const weights = new Float64Array(grid.centre.length);
  const total = cells.reduce((sum, i) => sum + grid.width[i], 0);
  for (const i of cells) weights[i] = grid.width[i] / total;
  return weights;
}
