import {InputError, requirePositive} from "../errors.ts";
import type {Grid} from "./grid.ts";

/**
 * Transient one-dimensional conduction, bottom insulated, surface joined to an effective temperature θ through a
 * film coefficient h:  q = h·(θ − T_surface).  h = Infinity prescribes the surface temperature, h = 0 insulates it.
 *
 * In time TR-BDF2 with γ = 2 − √2, one trapezoidal and one backward-difference stage per step:
 *
 *   C·(T_γ − T_n)  = a·[F(T_γ) + F(T_n)],                             a = γΔt/2 = (1 − √2/2)·Δt
 *   C·T_{n+1}      = C·[T_γ − (1 − γ)²·T_n]/[γ(2 − γ)] + a·F(T_{n+1})
 *
 * with F the net heat flow into a cell. Both stages have the same matrix, which is eliminated from the bottom upwards
 * so that the surface, whose film coefficient changes every hour, is the last unknown: all other pivots are computed
 * once. Second order, and L-stable: unlike Crank–Nicolson it does not ring with millimetre cells and steps of an
 * hour (Fourier number of several hundred).
 *
 * @source Bank et al. 1985, IEEE Trans. CAD 4, 436-451; Hosea & Shampine 1996, Appl. Numer. Math. 20, 21-37;
 *   docs/theory/climate.md Eq. 3-5
 */
export interface ConductingBody {
  readonly grid: Grid;
  readonly step: number; // Δt [s]
  readonly temperature: Float64Array; // cell means [°C]; the state, advanced by `finishStep`
  readonly intermediate: Float64Array; // cell means at t + γΔt [°C]; written by `startStep`
  readonly elimination: Elimination;
}

interface Elimination {
  readonly coupling: Float64Array; // a·G between cells i − 1 and i, entry 0 unused [J/(m²·K)]
  readonly ratio: Float64Array; // coupling over pivot, entry 0 unused [–]
  readonly inversePivot: Float64Array; // entry 0 unused [m²·K/J]
  readonly surfacePivot: number; // of cell 0 without the film [J/(m²·K)]
  readonly right: Float64Array; // scratch
}

/** Part of the step after which the first stage stands. */
export const STAGE = 2 - Math.SQRT2;
const STAGE_WEIGHT = STAGE / 2; // a/Δt, the same in both stages
const BDF_NEW = 1 / (STAGE * (2 - STAGE));
const BDF_OLD = ((1 - STAGE) * (1 - STAGE)) / (STAGE * (2 - STAGE));

/**
 * Heat taken up over one step is Δt·Σ wᵢ·qᵢ with the surface flux at its start, at its stage and at its end:
 * what the two stages amount to when written as one Runge–Kutta step.
 */
export const FLUX_WEIGHTS = [Math.SQRT2 / 4, Math.SQRT2 / 4, STAGE_WEIGHT] as const;

/** @throws InputError "domain" unless the step is finite and > 0 and the temperature is finite */
export function conductingBody(grid: Grid, step: number, temperature: number): ConductingBody {
  requirePositive("step", step, "s");
  if (!Number.isFinite(temperature)) throw new InputError("domain", "temperature", temperature, "finite [°C]");
  const n = grid.centre.length;
  const a = STAGE_WEIGHT * step;
  const coupling = new Float64Array(n);
  const ratio = new Float64Array(n);
  const inversePivot = new Float64Array(n);
  let carried = 0; // what eliminating the cell below takes off this pivot
  for (let i = n - 1; i > 0; i--) {
    coupling[i] = a * grid.conductance[i - 1];
    const below = i < n - 1 ? coupling[i + 1] : 0;
    const pivot = grid.capacity[i] + coupling[i] + below - carried; // > capacity: carried < below
    inversePivot[i] = 1 / pivot;
    ratio[i] = coupling[i] / pivot;
    carried = coupling[i] * ratio[i];
  }
  const surfacePivot = grid.capacity[0] + coupling[1] - carried;
  return {
    grid,
    step,
    temperature: new Float64Array(n).fill(temperature),
    intermediate: new Float64Array(n).fill(temperature),
    elimination: {coupling, ratio, inversePivot, surfacePivot, right: new Float64Array(n)},
  };
}

/** Series of film and upper half cell: q = U·(θ − T₀) [W/(m²·K)]. Right for h = 0 and h = Infinity. */
function surfaceConductance(grid: Grid, film: number): number {
  return 1 / (grid.resistance[0] + 1 / film);
}

/**
 * Trapezoidal stage: `intermediate` from `temperature`. `surface` holds θ, h at the start of the step and θ, h at its
 * stage, t + γΔt [°C, W/(m²·K)]. Overwrites `intermediate` and the scratch.
 */
export function startStep(body: ConductingBody, surface: Float64Array): void {
  const {grid, temperature: T, intermediate, elimination} = body;
  const {coupling, right} = elimination;
  const {capacity} = grid;
  const n = T.length;
  const a = STAGE_WEIGHT * body.step;
  const before = a * surfaceConductance(grid, surface[1]);
  const after = a * surfaceConductance(grid, surface[3]);
  let inflow = before * (surface[0] - T[0]); // from above, times a
  for (let i = 0; i < n - 1; i++) {
    const outflow = coupling[i + 1] * (T[i] - T[i + 1]);
    right[i] = capacity[i] * T[i] + inflow - outflow;
    inflow = outflow;
  }
  right[n - 1] = capacity[n - 1] * T[n - 1] + inflow;
  right[0] += after * surface[2];
  solve(elimination, after, intermediate);
}

/**
 * Backward-difference stage: `temperature` at the end of the step. `surface` holds θ, h there [°C, W/(m²·K)].
 * Overwrites `temperature` and the scratch.
 */
export function finishStep(body: ConductingBody, surface: Float64Array): void {
  const {grid, temperature: T, intermediate, elimination} = body;
  const {right} = elimination;
  const {capacity} = grid;
  const n = T.length;
  const after = STAGE_WEIGHT * body.step * surfaceConductance(grid, surface[1]);
  for (let i = 0; i < n; i++) right[i] = capacity[i] * (BDF_NEW * intermediate[i] - BDF_OLD * T[i]);
  right[0] += after * surface[0];
  solve(elimination, after, T);
}

function solve(elimination: Elimination, film: number, T: Float64Array): void {
  const {ratio, inversePivot, right} = elimination;
  const n = T.length;
  for (let i = n - 1; i > 0; i--) right[i - 1] += ratio[i] * right[i];
  let above = right[0] / (elimination.surfacePivot + film);
  T[0] = above;
  for (let i = 1; i < n; i++) {
    above = right[i] * inversePivot[i] + ratio[i] * above;
    T[i] = above;
  }
}

/** Temperature of the surface itself, half a cell above the first centre [°C]. */
export function surfaceTemperature(grid: Grid, firstCell: number, effective: number, film: number): number {
  return firstCell + surfaceFlux(grid, firstCell, effective, film) * grid.resistance[0];
}

/** Heat flow into the pavement [W/m²]. */
export function surfaceFlux(grid: Grid, firstCell: number, effective: number, film: number): number {
  return surfaceConductance(grid, film) * (effective - firstCell);
}
