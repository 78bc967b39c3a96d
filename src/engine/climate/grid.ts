import {InputError, requirePositive} from "../errors.ts";

/** One homogeneous layer as conduction sees it. `Section` materials fit this shape. */
export interface ConductingLayer {
  readonly thickness: number; // [m]
  readonly conductivity: number; // k [W/(m·K)]
  readonly density: number; // ρ [kg/m³]
  readonly heatCapacity: number; // c [J/(kg·K)]
}

/** Cell width as a function of depth: s(z) = surfaceCell + growth·z. Halving both halves every cell. */
export interface Resolution {
  readonly surfaceCell: number; // width of a cell at the surface [m]
  readonly growth: number; // width gained per depth [–]
}

/** Finite volumes over the depth, per unit area of pavement. All faces between layers are faces between cells. */
export interface Grid {
  readonly centre: Float64Array; // depth of the cell centres [m]
  readonly width: Float64Array; // Δz [m]
  readonly capacity: Float64Array; // ρ·c·Δz [J/(m²·K)]
  readonly resistance: Float64Array; // of half a cell, Δz/(2k) [m²·K/W]
  readonly conductance: Float64Array; // between cells i and i + 1, one shorter than the rest [W/(m²·K)]
  readonly firstCell: Int32Array; // layer j holds cells firstCell[j] ≤ i < firstCell[j + 1]
  readonly depth: number; // of the bottom [m]
}

/** 2.5 mm at the surface, 11 mm at 150 mm, 0.6 m at 10 m. Errors of a daily wave: docs/verification/climate.md. */
export const STANDARD_RESOLUTION: Resolution = {surfaceCell: 0.0025, growth: 0.06};

/** Fewest cells in a layer: a straight line needs two. */
const CELLS_PER_LAYER = 2;

/**
 * Cuts the layers into cells. With dz/dξ = s(z) = s₀ + g·z the cells of one layer are equal steps of
 *
 *   ξ(z) = ln(1 + g·z/s₀)/g,   z(ξ) = s₀·(e^{gξ} − 1)/g
 *
 * so widths change smoothly and the scheme stays second order. Neighbouring centres are joined in series,
 * 1/G = Δzᵢ/(2kᵢ) + Δzᵢ₊₁/(2kᵢ₊₁): the harmonic mean, exact for steady flow across an interface.
 *
 * @throws InputError "shape" | "domain"
 * @source Patankar 1980, Numerical Heat Transfer and Fluid Flow, section 4.2-3; docs/theory/climate.md Eq. 2
 */
export function conductionGrid(layers: readonly ConductingLayer[], resolution = STANDARD_RESOLUTION): Grid {
  if (layers.length === 0) throw new InputError("shape", "layers.length", 0, "≥ 1");
  requirePositive("resolution.surfaceCell", resolution.surfaceCell, "m");
  requirePositive("resolution.growth", resolution.growth, "–");
  layers.forEach(requireConducting);

  const faces = [0];
  const owner: ConductingLayer[] = [];
  const firstCell = new Int32Array(layers.length + 1);
  let top = 0;
  layers.forEach((layer, j) => {
    const bottom = top + layer.thickness;
    const start = stretched(top, resolution);
    const span = stretched(bottom, resolution) - start;
    const cells = Math.max(CELLS_PER_LAYER, Math.ceil(span));
    for (let i = 1; i < cells; i++) faces.push(unstretched(start + (span * i) / cells, resolution));
    faces.push(bottom); // not through the logarithm: layers end where they were said to end
    for (let i = 0; i < cells; i++) owner.push(layer);
    firstCell[j + 1] = firstCell[j] + cells;
    top = bottom;
  });

  const width = Float64Array.from(owner, (_, i) => faces[i + 1] - faces[i]);
  const resistance = Float64Array.from(owner, (layer, i) => width[i] / (2 * layer.conductivity));
  return {
    centre: Float64Array.from(owner, (_, i) => 0.5 * (faces[i] + faces[i + 1])),
    width,
    capacity: Float64Array.from(owner, (layer, i) => layer.density * layer.heatCapacity * width[i]),
    resistance,
    conductance: Float64Array.from({length: owner.length - 1}, (_, i) => 1 / (resistance[i] + resistance[i + 1])),
    firstCell,
    depth: top,
  };
}

/**
 * Weight of cell i + 1 in the temperature at `depth` between the centres of cells i and i + 1, by thermal
 * resistance rather than distance, so that it is also right across the interface of two materials.
 *
 * @returns i and the weight w: T = (1 − w)·Tᵢ + w·Tᵢ₊₁
 * @throws InputError "domain" when the depth is not between the first and the last centre
 */
export function interpolationAt(grid: Grid, depth: number): {readonly cell: number; readonly weight: number} {
  const {centre, width, resistance} = grid;
  const last = centre.length - 1;
  if (!(depth >= centre[0] && depth <= centre[last])) {
    throw new InputError("domain", "depth", depth, `between ${centre[0]} and ${centre[last]} [m]`);
  }
  let i = 0;
  while (i < last - 1 && centre[i + 1] < depth) i++;
  const beyondFace = depth - (centre[i] + 0.5 * width[i]);
  const total = resistance[i] + resistance[i + 1];
  const side = beyondFace < 0 ? i : i + 1; // the cell the point lies in
  const fromCentre = resistance[i] + (beyondFace * 2 * resistance[side]) / width[side];
  return {cell: i, weight: fromCentre / total};
}

function requireConducting(layer: ConductingLayer, j: number): void {
  requirePositive(`layers[${j}].thickness`, layer.thickness, "m");
  requirePositive(`layers[${j}].conductivity`, layer.conductivity, "W/(m·K)");
  requirePositive(`layers[${j}].density`, layer.density, "kg/m³");
  requirePositive(`layers[${j}].heatCapacity`, layer.heatCapacity, "J/(kg·K)");
}

function stretched(z: number, {surfaceCell, growth}: Resolution): number {
  return Math.log1p((growth * z) / surfaceCell) / growth;
}

function unstretched(xi: number, {surfaceCell, growth}: Resolution): number {
  return (surfaceCell * Math.expm1(growth * xi)) / growth;
}
