import {InputError} from "../errors.ts";
import {type RandomStream, randomStream} from "../statistics/index.ts";
import {JOE_KUO} from "./directionNumbers.ts";

/**
 * sobol: low-discrepancy, extensible. latin: stratified in each dimension, not extensible. random: independent,
 * extensible.
 */
export type PointKind = "sobol" | "latin" | "random";

export interface PointPlan {
  readonly dimensions: number; // ≥ 1
  readonly count: number; // ≥ 1
  readonly seed: number; // a whole number of 32 bits
  readonly skip: number; // points of the same sequence left out before the first; 0 for latin
}

/** Most dimensions for which direction numbers are at hand. */
export const MOST_SOBOL_DIMENSIONS = 128;
/** Points that 32 bits tell apart. */
const MOST_SOBOL_POINTS = 2 ** 32;
const BITS = 32;

/**
 * Points of the open unit cube, the same bits for the same seed.
 *
 * With "sobol" and "random" the first n of 2n points are the same as n points, and `skip` continues a sequence. With
 * "latin" they are not: each of its sets has as many strata as points, and a larger set is another one.
 *
 * @returns row-major count × dimensions
 * @throws InputError "domain"
 * @source Sobol: Sobol 1967; Bratley & Fox 1988, ACM Trans. Math. Softw. 14, 88-100 (from memory). Scrambling: random
 *         lower triangular matrices and a digital shift, Matoušek 1998, J. Complexity 14, 527-556 (from memory). Latin
 *         hypercube: McKay, Beckman & Conover 1979, Technometrics 21, 239-245 (from memory)
 */
export function points(kind: PointKind, plan: PointPlan): Float64Array {
  requirePlan(kind, plan);
  switch (kind) {
    case "sobol":
      return sobol(plan, scrambled(plan.dimensions, randomStream(plan.seed)));
    case "latin":
      return latin(plan);
    case "random":
      return random(plan);
  }
}

function requirePlan(kind: PointKind, {dimensions, count, seed, skip}: PointPlan): void {
  const whole = (path: string, value: number, low: number, high: number): void => {
    if (!(Number.isInteger(value) && value >= low && value <= high))
      throw new InputError("domain", path, value, `a whole number from ${low} to ${high}`);
  };
  whole("dimensions", dimensions, 1, kind === "sobol" ? MOST_SOBOL_DIMENSIONS : Number.MAX_SAFE_INTEGER);
  whole("count", count, 1, MOST_SOBOL_POINTS);
  whole("seed", seed, -(2 ** 31), 2 ** 32 - 1);
  if (kind === "latin" && skip !== 0)
    throw new InputError("domain", "skip", skip, "0: a Latin hypercube is not part of a longer one");
  whole("skip", skip, 0, MOST_SOBOL_POINTS - count);
}

/** Direction numbers of each dimension, 32 each, and what is added digit by digit to every point. */
export interface Directions {
  readonly numbers: readonly Uint32Array[];
  readonly shifts: Uint32Array;
}

/**
 * The unscrambled direction numbers: v_k = m_k·2^(32−k), continued by the recurrence of the primitive polynomial,
 *
 *   v_k = v_{k−s} ⊕ (v_{k−s} >> s) ⊕ a_1·v_{k−1} ⊕ ... ⊕ a_{s−1}·v_{k−s+1}
 */
export function bareDirections(dimensions: number): Directions {
  const rows = JOE_KUO.trim().split("\n");
  const numbers = Array.from({length: dimensions}, (_, dimension) => {
    const v = new Uint32Array(BITS);
    if (dimension === 0) return v.map((_, k) => 1 << (BITS - 1 - k));
    const [s, a, ...m] = rows[dimension - 1].split(" ").map(Number);
    for (let k = 0; k < BITS; k++) {
      if (k < s) v[k] = m[k] << (BITS - 1 - k);
      else {
        v[k] = v[k - s] ^ (v[k - s] >>> s);
        for (let i = 1; i < s; i++) if ((a >>> (s - 1 - i)) & 1) v[k] ^= v[k - i];
      }
    }
    return v;
  });
  return {numbers, shifts: new Uint32Array(dimensions)};
}

/**
 * Each dimension's digits mixed by its own random lower triangular matrix with ones on the diagonal, then shifted by
 * random digits: points stay a digital net, and each is uniform over the cube.
 */
function scrambled(dimensions: number, {uniform}: RandomStream): Directions {
  const word = (): number => Math.floor(uniform() * 2 ** BITS) >>> 0;
  const bare = bareDirections(dimensions);
  const shifts = new Uint32Array(dimensions);
  const numbers = bare.numbers.map((v, dimension) => {
    shifts[dimension] = word();
    // Row i makes digit i, counted from the leading one, of digits 0 to i.
    const rows = Uint32Array.from({length: BITS}, (_, i) => {
      const leading = 2 ** (BITS - 1 - i);
      const before = i === 0 ? 0 : word() & ~(2 ** (BITS - i) - 1);
      return before | leading;
    });
    return v.map(number => rows.reduce((sum, row, i) => sum | (parity(row & number) << (BITS - 1 - i)), 0));
  });
  return {numbers, shifts};
}

/** 1 when the number of ones among the bits is odd. */
function parity(x: number): number {
  x ^= x >>> 16;
  x ^= x >>> 8;
  x ^= x >>> 4;
  x ^= x >>> 2;
  x ^= x >>> 1;
  return x & 1;
}

/**
 * Points in Gray-code order, of which the next differs from the last by one direction number. Half a last digit is
 * added, so that no coordinate is 0.
 */
export function sobol(
  {dimensions, count, skip}: Pick<PointPlan, "dimensions" | "count" | "skip">,
  {numbers, shifts}: Directions,
): Float64Array {
  const out = new Float64Array(count * dimensions);
  const state = Uint32Array.from(shifts);
  const gray = (skip ^ (skip >>> 1)) >>> 0;
  for (let bit = 0; bit < BITS; bit++)
    if ((gray >>> bit) & 1) for (let d = 0; d < dimensions; d++) state[d] ^= numbers[d][bit];
  for (let i = 0; i < count; i++) {
    for (let d = 0; d < dimensions; d++) out[i * dimensions + d] = (state[d] + 0.5) / 2 ** BITS;
    const changed = Math.min(BITS - 1, trailingZeros(skip + i + 1));
    for (let d = 0; d < dimensions; d++) state[d] ^= numbers[d][changed];
  }
  return out;
}

function trailingZeros(n: number): number {
  const low = n >>> 0;
  return low === 0 ? BITS : 31 - Math.clz32(low & -low);
}

function latin({dimensions, count, seed}: PointPlan): Float64Array {
  const {uniform} = randomStream(seed);
  const out = new Float64Array(count * dimensions);
  const order = Uint32Array.from({length: count}, (_, i) => i);
  for (let d = 0; d < dimensions; d++) {
    for (let i = count - 1; i > 0; i--) {
      const j = Math.floor(uniform() * (i + 1));
      [order[i], order[j]] = [order[j], order[i]];
    }
    for (let i = 0; i < count; i++) out[i * dimensions + d] = within(order[i], uniform(), count);
  }
  return out;
}

/** (stratum + u)/count, kept below 1 and in its stratum where rounding would leave it. */
function within(stratum: number, u: number, count: number): number {
  const x = (stratum + u) / count;
  return x * count < stratum + 1 && x < 1 ? x : (stratum + 0.5) / count;
}

function random({dimensions, count, seed, skip}: PointPlan): Float64Array {
  const {uniform} = randomStream(seed);
  for (let k = 0; k < skip * dimensions; k++) uniform();
  return Float64Array.from({length: count * dimensions}, uniform);
}
