import {InputError, requirePositive} from "../errors.ts";
import type {Grid} from "./grid.ts";
import {conductionModes, type Modes} from "./modes.ts";

/**
 * Transient one-dimensional conduction, bottom insulated, surface joined to an effective temperature θ through a
 * film coefficient h:  q = h·(θ − T_surface).  h = Infinity prescribes the surface temperature, h = 0 insulates it.
 *
 * In time TR-BDF2 with γ = 2 − √2, one trapezoidal and one backward-difference stage per step:
 *
 *   C·(T_γ − T_n)  = a·[F(T_γ) + F(T_n)],                             a = γΔt/2 = (1 − √2/2)·Δt
 *   C·T_{n+1}      = C·[T_γ − (1 − γ)²·T_n]/[γ(2 − γ)] + a·F(T_{n+1})
 *
 * with F the net heat flow into a cell. Second order, and L-stable: unlike Crank–Nicolson it does not ring with
 * millimetre cells and steps of an hour (Fourier number of several hundred).
 *
 * The state is the amplitudes z of the body's modes with a nominal conductance Ū to the outside. Only the surface cell
 * feels the weather: with U = 1/(R₀ + 1/h) and p a mode's shape there
 *
 *   dz/dt = −λ·z + p·f,   f = U·(θ − T₀) + Ū·T₀,   T₀ = Σ p·z
 *
 * so the only unknown of a stage is T₀, and all cells of a step are one pass over the modes.
 *
 * @source Bank et al. 1985, IEEE Trans. CAD 4, 436-451; Hosea & Shampine 1996, Appl. Numer. Math. 20, 21-37;
 *   docs/theory/climate.md Eq. 3-5
 */
export interface ConductingBody {
  readonly grid: Grid;
  readonly step: number; // Δt [s]
  readonly reference: number; // temperatures are counted from here [°C]
  readonly modes: Modes;
  readonly stepping: Stepping;
  readonly amplitude: Float64Array; // z of each mode; advanced by `finishStep`
  firstCell: number; // T₀ of these [°C]
  stageCell: number; // T₀ at t + γΔt; written by `startStep` [°C]
  stageFlow: number; // a·(f_n + f_γ); written by `startStep` [J/m²]
  endKnown: number; // T₀ − reference at the end without flow there; written by `startStep` [K]
}

/** Constants of a step, one a mode; flows are a·(f_n + f_γ) of the stage and a·f_{n+1} of the end. */
interface Stepping {
  readonly keep: Float64Array; // of z_n in z_{n+1}
  readonly stage: Float64Array; // of the stage's flow in z_{n+1}
  readonly end: Float64Array; // of the end's flow in z_{n+1}, and of the stage's in z_γ
  readonly toStage: Float64Array; // of z_n in T₀ at the stage
  readonly toEnd: Float64Array; // of z_n in T₀ at the end
  readonly own: number; // of either flow in T₀ at its own time [m²·K/J]
  readonly carried: number; // of the stage's flow in T₀ at the end [m²·K/J]
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

/**
 * Ū [W/(m²·K)]: a usual film. Any value gives the same steps; this one makes the slowest modes those of the body in its
 * weather, which `settle` makes use of.
 */
const NOMINAL = 20;

/** @throws InputError "domain" unless the step is finite and > 0 and the temperature is finite */
export function conductingBody(grid: Grid, step: number, temperature: number): ConductingBody {
  requirePositive("step", step, "s");
  if (!Number.isFinite(temperature)) throw new InputError("domain", "temperature", temperature, "finite [°C]");
  const modes = conductionModes(grid, NOMINAL);
  return {
    grid,
    step,
    reference: temperature,
    modes,
    stepping: steppingOf(modes, step),
    amplitude: new Float64Array(grid.centre.length),
    firstCell: temperature,
    stageCell: temperature,
    stageFlow: 0,
    endKnown: 0,
  };
}

function steppingOf({rate, shape}: Modes, step: number): Stepping {
  const n = rate.length;
  const a = STAGE_WEIGHT * step;
  const first = rate.map((_, k) => shape[k * n]);
  const fade = rate.map(r => 1 / (1 + a * r));
  const keep = rate.map((r, k) => (BDF_NEW * (1 - a * r) * fade[k] - BDF_OLD) * fade[k]);
  const end = first.map((p, k) => p * fade[k]);
  const stage = end.map((e, k) => BDF_NEW * e * fade[k]);
  return {
    keep,
    stage,
    end,
    toStage: first.map((p, k) => p * (1 - a * rate[k]) * fade[k]),
    toEnd: first.map((p, k) => p * keep[k]),
    own: dot(first, end),
    carried: dot(first, stage),
  };
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < x.length; k++) sum += x[k] * y[k];
  return sum;
}

/** Series of film and upper half cell: q = U·(θ − T₀) [W/(m²·K)]. Right for h = 0 and h = Infinity. */
function surfaceConductance(grid: Grid, film: number): number {
  return 1 / (grid.resistance[0] + 1 / film);
}

/**
 * Trapezoidal stage. `surface` holds θ, h at the start of the step and θ, h at its stage, t + γΔt [°C, W/(m²·K)].
 * Writes `stageCell`, and `stageFlow` and `endKnown` for `finishStep`.
 */
export function startStep(body: ConductingBody, surface: Float64Array): void {
  const {grid, reference, amplitude: z, stepping} = body;
  const {toStage, toEnd, own, carried} = stepping;
  const a = STAGE_WEIGHT * body.step;
  const before = surfaceConductance(grid, surface[1]);
  const after = surfaceConductance(grid, surface[3]);
  let known = 0; // T₀ at the stage without flow
  let endKnown = 0;
  for (let k = 0; k < z.length; k++) {
    known += toStage[k] * z[k];
    endKnown += toEnd[k] * z[k];
  }
  const flowBefore = before * (surface[0] - reference) - (before - NOMINAL) * (body.firstCell - reference);
  const excess = after - NOMINAL;
  const flow = a * (flowBefore + after * (surface[2] - reference) - excess * known);
  body.stageFlow = flow / (1 + a * excess * own); // own < 1/(a·Ū), so never zero
  body.stageCell = reference + known + own * body.stageFlow;
  body.endKnown = endKnown + carried * body.stageFlow;
}

/**
 * Backward-difference stage: `amplitude` and `firstCell` at the end of the step. `surface` holds θ, h there
 * [°C, W/(m²·K)].
 */
export function finishStep(body: ConductingBody, surface: Float64Array): void {
  const {grid, reference, amplitude: z, stageFlow, endKnown} = body;
  const {keep, stage, end, own} = body.stepping;
  const a = STAGE_WEIGHT * body.step;
  const after = surfaceConductance(grid, surface[1]);
  const excess = after - NOMINAL;
  const flow = (a * (after * (surface[0] - reference) - excess * endKnown)) / (1 + a * excess * own);
  for (let k = 0; k < z.length; k++) z[k] = keep[k] * z[k] + stage[k] * stageFlow + end[k] * flow;
  body.firstCell = reference + endKnown + own * flow;
}

/** Temperatures of all cells [°C]. */
export function temperaturesOf({grid, reference, modes, amplitude}: ConductingBody): Float64Array {
  const n = amplitude.length;
  return grid.centre.map((_, i) => {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += modes.shape[k * n + i] * amplitude[k];
    return reference + sum;
  });
}

/** Sets the temperatures of all cells [°C]. */
export function setTemperatures(body: ConductingBody, temperature: Float64Array): void {
  const {grid, reference, modes, amplitude} = body;
  const n = amplitude.length;
  for (let k = 0; k < n; k++) {
    amplitude[k] = 0;
    for (let i = 0; i < n; i++)
      amplitude[k] += modes.shape[k * n + i] * grid.capacity[i] * (temperature[i] - reference);
  }
  body.firstCell = temperature[0];
}

/**
 * Moves the state to about where it would stand if the period just computed had been repeated for ever. What a mode lacks of
 * being periodic shrinks by e^{−λP} in each: the rest of that series is added at once.
 *
 * @param start   amplitudes at the start of the period
 * @param period  P [s]
 */
export function settle(body: ConductingBody, start: Float64Array, period: number): void {
  const {amplitude: z, modes} = body;
  const n = z.length;
  let first = body.reference;
  for (let k = 0; k < n; k++) {
    z[k] += (z[k] - start[k]) / Math.expm1(modes.rate[k] * period);
    first += modes.shape[k * n] * z[k];
  }
  body.firstCell = first;
}

/** Temperature of the surface itself, half a cell above the first centre [°C]. */
export function surfaceTemperature(grid: Grid, firstCell: number, effective: number, film: number): number {
  return firstCell + surfaceFlux(grid, firstCell, effective, film) * grid.resistance[0];
}

/** Heat flow into the pavement [W/m²]. */
export function surfaceFlux(grid: Grid, firstCell: number, effective: number, film: number): number {
  return surfaceConductance(grid, film) * (effective - firstCell);
}
