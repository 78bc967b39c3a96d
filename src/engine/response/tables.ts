/** What is kept of every crack state under every wheel, wavenumber by wavenumber: plain arrays, linear in the loads. */
import {InputError} from "../errors.ts";
import {contactPressures} from "./contact.ts";
import {lagrangeBasis, type Wavenumbers} from "./loads.ts";
import {TIPS} from "./sweep.ts";

/** Wheels of one patch length along x and the positions at which they are solved. */
export interface Patch {
  readonly length: number; // 2a [m]
  readonly centres: Float64Array; // ascending from 0 [m]
}

/** Nothing but numbers and arrays, so that it can be sent to another thread and summed entry by entry. */
export interface ResponseTables {
  readonly waves: Wavenumbers;
  readonly patches: readonly Patch[];
  readonly wheels: number; // positions of all patches, one patch after the other
  readonly states: number;
  readonly segments: number; // stretches of the joint's faces and of the cut that can touch
  /**
   * [wave][state][row][column], every segment open. Rows: ⟨σx⟩ at the three tips, then the segments' mean openings [m].
   * Columns: a unit pressure under each wheel, then on each segment.
   */
  readonly opening: Float64Array;
  /** [wave][state][quantity][wheel]: ⟨τxz⟩ at the three tips, then ⟨τxy⟩; by unit pressure under the wheel. */
  readonly shear: Float64Array;
}

/** What one wavenumber gives: its part of the tables. */
export interface WaveValues {
  readonly opening: Float64Array; // [state][row][column]
  readonly shear: Float64Array; // [state][quantity][wheel]
}

/** Quantities of `shear`. */
export const SHEARS = 2 * TIPS.length;

export function emptyTables(
  waves: Wavenumbers,
  patches: readonly Patch[],
  {states, segments}: {readonly states: number; readonly segments: number},
): ResponseTables {
  const wheels = patches.reduce((sum, {centres}) => sum + centres.length, 0);
  const count = waves.beta.length * states;
  return {
    waves,
    patches,
    wheels,
    states,
    segments,
    opening: new Float64Array(count * (TIPS.length + segments) * (wheels + segments)),
    shear: new Float64Array(count * SHEARS * wheels),
  };
}

/**
 * Σ weightᵢ·tablesᵢ, entry by entry.
 *
 * @param responses  of one geometry under the same wheels, at different moduli; at least one
 * @throws InputError "shape" when they are not alike
 */
export function combine(weights: readonly number[], responses: readonly ResponseTables[]): ResponseTables {
  const [first] = responses;
  if (!first || weights.length !== responses.length)
    throw new InputError(
      "shape",
      "weights.length",
      weights.length,
      `${responses.length}, one a response, at least one`,
    );
  const sum = (name: "opening" | "shear"): Float64Array => {
    const out = new Float64Array(first[name].length);
    responses.forEach(({[name]: table}, i) => {
      if (table.length !== out.length)
        throw new InputError("shape", `responses[${i}].${name}.length`, table.length, String(out.length));
      addScaled(out, weights[i], table);
    });
    return out;
  };
  return {...first, opening: sum("opening"), shear: sum("shear")};
}

/** L below, about the length of a segment [m]. */
const SEGMENT_LENGTH = 0.2;

/**
 * Adds differences found at other wavenumbers, interpolated. What a unit pressure on a segment does falls about as
 * 1/(1 + βL): it is interpolated times 1 + βL, or else the error would rule at short waves, where the segments'
 * flexibilities must stay positive definite. Table in docs/theory/response.md.
 */
export function addInterpolated(tables: ResponseTables, differences: ResponseTables): void {
  const {waves, wheels, segments, opening, shear} = tables;
  const others = differences.waves.beta;
  const basisAt = lagrangeBasis(differences.waves);
  const part = (table: Float64Array, count: number, k: number): Float64Array =>
    table.subarray((k * table.length) / count, ((k + 1) * table.length) / count);
  waves.beta.forEach((beta, k) => {
    const basis = basisAt(beta);
    const [openings, shears] = [part(opening, waves.beta.length, k), part(shear, waves.beta.length, k)];
    others.forEach((other, j) => {
      const weight = basis[j];
      if (weight === 0) return; // at one of the other wavenumbers
      const unit = (weight * (1 + other * SEGMENT_LENGTH)) / (1 + beta * SEGMENT_LENGTH);
      addScaledRows(openings, {weight, unit, wheels, segments}, part(differences.opening, others.length, j));
      addScaled(shears, weight, part(differences.shear, others.length, j));
    });
  });
}

/** out += weight·values. A loop of its own, as those below: many tables go through it and it is compiled once. */
export function addScaled(out: Float64Array, weight: number, values: Float64Array): void {
  for (let i = 0; i < out.length; i++) out[i] += weight * values[i];
}

/** The same for rows of wheels and segments, the latter with a weight of their own. */
function addScaledRows(
  out: Float64Array,
  {weight, unit, wheels, segments}: {weight: number; unit: number; wheels: number; segments: number},
  values: Float64Array,
): void {
  for (let i = 0; i < out.length; ) {
    for (const end = i + wheels; i < end; i++) out[i] += weight * values[i];
    for (const end = i + segments; i < end; i++) out[i] += unit * values[i];
  }
}

/** Largest magnitude; NaN when one of them is. */
export function magnitude(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, Math.abs(values[i]));
  return most;
}

/**
 * Tips and segments of one state with some segments closed.
 *
 * @param closed  bit s set where segment s is closed
 * @returns [wave][row][wheel]: ⟨σx⟩ at the tips; of each segment its mean opening [m] where open, its pressure [Pa] where closed
 */
export function settledOpening(tables: ResponseTables, state: number, closed: number): Float64Array {
  const {opening, waves, states, wheels, segments} = tables;
  const rows = TIPS.length + segments;
  const columns = wheels + segments;
  const count = waves.beta.length;
  const open = new Float64Array(count * rows * wheels);
  const unit = new Float64Array(count * rows * segments);
  for (let k = 0; k < count; k++) {
    for (let r = 0; r < rows; r++) {
      const from = ((k * states + state) * rows + r) * columns;
      open.set(opening.subarray(from, from + wheels), (k * rows + r) * wheels);
      unit.set(opening.subarray(from + wheels, from + columns), (k * rows + r) * segments);
    }
  }
  const out = new Float64Array(open.length);
  contactPressures({open, unit, systems: count, tips: TIPS.length, segments, loads: wheels}, closed, out);
  return out;
}
