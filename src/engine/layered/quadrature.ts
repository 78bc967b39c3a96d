/** Sums over wavenumbers for many rings and several stacks at once. Theory: docs/theory/layered.md. */
import {besselJ01} from "./bessel.ts";
import {AMPLITUDES, FIELDS, fieldAmplitudes, type Stack, solveWavenumber, workLength} from "./spectrum.ts";

/** Where a response is wanted: at a distance from the axis of a load of some radius, at a depth, in a layer. */
export interface Ring {
  readonly radius: number; // of the load [m]
  readonly distance: number; // from its axis [m]
  readonly depth: number; // [m]
  readonly layer: number;
  readonly top: number; // depth of the layer's top [m]
}

/**
 * Integrals of a ring under unit pressure: 2G·u, ∫2Gm·U J₀, which are all that horizontal strains need; then 2G·w, σz, τrz,
 * ∫P J₀ [m, –, m, –, –, –].
 */
export const ALL = 6;
export const HORIZONTAL = 2;
/** How many of them, from the first. */
export type Integrals = typeof ALL | typeof HORIZONTAL;

/**
 * Integrands fall at least as e^{−m·d}, with d the depth, or 2h₁ − depth in the first layer once the half-space part
 * is taken out. Cut at m·d = 40: e⁻⁴⁰ = 4e-18, which leaves room for polynomial factors.
 */
export const CUT = 40;

/** Wavenumbers worked off at a time: their tables for all levels and stacks fit into the cache. */
const BLOCK = 64;

/** Distance over which the integrand falls by e [m]. */
export function decayLength(stack: Stack, ring: Ring): number {
  return ring.layer === 0 ? 2 * stack.thickness[0] - ring.depth : ring.depth;
}

/** Rings that differ in distance only share the field at their level. */
interface Level {
  readonly ring: Ring; // one of them
  readonly end: number; // wavenumber beyond which the field is negligible [1/m]
  readonly loading: number; // place of its radius among the radii
  readonly fields: readonly Float64Array[]; // by stack, [node][integral], load and weight included
  count: number; // nodes of the block before the end
}

/** Rings at one distance share the Bessel functions. */
interface Circle {
  readonly distance: number; // [m]
  readonly end: number; // the highest of its levels [1/m]
  readonly rings: readonly {readonly level: Level; readonly place: number}[]; // place among the rings given
}

/**
 * Integrals of all rings for stacks of the same thicknesses. What depends on the geometry alone, the Bessel functions
 * first of all, is computed once for all of them.
 *
 * @param m       wavenumbers, ascending [1/m]
 * @param weight  of the quadrature [1/m]
 * @returns       by stack, [ring][integral]
 */
export function sumsOverWavenumbers(
  stacks: readonly Stack[],
  rings: readonly Ring[],
  {m, weight}: {readonly m: Float64Array; readonly weight: Float64Array},
  integrals: Integrals,
): Float64Array[] {
  const sums = stacks.map(() => new Float64Array(integrals * rings.length));
  const {radii, levels, circles} = sorted(stacks, rings, integrals);
  const loadings = radii.map(() => new Float64Array(BLOCK));
  const bessel: BesselRow = {
    j0: new Float64Array(BLOCK),
    j1: new Float64Array(BLOCK),
    argument: new Float64Array(BLOCK),
  };
  const amplitudes = new Float64Array(BLOCK * AMPLITUDES * stacks[0].count);
  for (let from = 0; from < m.length; from += BLOCK) {
    const nodes = m.subarray(from, from + BLOCK);
    radii.forEach((radius, k) => {
      fillBessel(bessel, radius, nodes, nodes.length);
      for (let i = 0; i < nodes.length; i++) loadings[k][i] = weight[from + i] * radius * bessel.j1[i];
    });
    for (const level of levels) level.count = countBelow(nodes, level.end);
    stacks.forEach((stack, s) => {
      solveBlock(stack, nodes, amplitudes);
      for (const level of levels) {
        fillField(stack, level, nodes, amplitudes, loadings[level.loading], level.fields[s], integrals);
      }
    });
    for (const circle of circles) addCircle(circle, nodes, bessel, sums, integrals);
  }
  return sums;
}

function sorted(stacks: readonly Stack[], rings: readonly Ring[], integrals: Integrals) {
  const radii = [...new Set(rings.map(ring => ring.radius))];
  const levels = new Map<string, Level>();
  const circles = new Map<number, {level: Level; place: number}[]>();
  rings.forEach((ring, place) => {
    const key = `${ring.radius}|${ring.layer}|${ring.depth}`;
    const level = levels.get(key) ?? {
      ring,
      end: CUT / decayLength(stacks[0], ring),
      loading: radii.indexOf(ring.radius),
      fields: stacks.map(() => new Float64Array(BLOCK * integrals)),
      count: 0,
    };
    levels.set(key, level);
    const own = circles.get(ring.distance) ?? [];
    circles.set(ring.distance, own);
    own.push({level, place});
  });
  return {
    radii,
    levels: [...levels.values()],
    circles: Array.from(
      circles,
      ([distance, own]): Circle => ({
        distance,
        end: own.reduce((end, {level}) => Math.max(end, level.end), 0),
        rings: own,
      }),
    ),
  };
}

/** J₀(mr) and J₁(mr) at the nodes of a block. */
interface BesselRow {
  readonly j0: Float64Array;
  readonly j1: Float64Array;
  readonly argument: Float64Array; // scratch
}

function fillBessel({j0, j1, argument}: BesselRow, distance: number, nodes: Float64Array, count: number): void {
  for (let i = 0; i < count; i++) argument[i] = nodes[i] * distance;
  besselJ01(argument, 0, count, j0, j1);
}

function countBelow(nodes: Float64Array, end: number): number {
  let count = 0;
  while (count < nodes.length && nodes[count] <= end) count++;
  return count;
}

/** Amplitudes [node][layer][amplitude]. */
function solveBlock(stack: Stack, nodes: Float64Array, amplitudes: Float64Array): void {
  const work = new Float64Array(workLength(stack.count));
  for (let i = 0; i < nodes.length; i++) {
    solveWavenumber(stack, nodes[i], amplitudes, i * AMPLITUDES * stack.count, work);
  }
}

/** What J₀(mr) or J₁(mr) is multiplied by in each integral. */
function fillField(
  stack: Stack,
  {ring, count}: Level,
  nodes: Float64Array,
  amplitudes: Float64Array,
  loading: Float64Array,
  out: Float64Array,
  integrals: Integrals,
): void {
  const {layer} = ring;
  const above = ring.depth - ring.top;
  const below = stack.thickness[layer] - above;
  const field = new Float64Array(FIELDS); // 2Gm·W, 2Gm·U, S, T, P
  for (let i = 0; i < count; i++) {
    const m = nodes[i];
    fieldAmplitudes(
      stack.poisson[layer],
      m,
      above,
      below,
      amplitudes,
      (i * stack.count + layer) * AMPLITUDES,
      field,
      0,
    );
    const k = i * integrals;
    out[k] = (loading[i] * field[1]) / m;
    out[k + 1] = loading[i] * field[1];
    if (integrals === HORIZONTAL) continue;
    out[k + 2] = (loading[i] * field[0]) / m;
    out[k + 3] = loading[i] * field[2];
    out[k + 4] = loading[i] * field[3];
    out[k + 5] = loading[i] * field[4];
  }
}

/** Adds what the nodes of a block give to the integrals of all rings at one distance. */
function addCircle(
  {distance, end, rings}: Circle,
  nodes: Float64Array,
  bessel: BesselRow,
  sums: readonly Float64Array[],
  integrals: Integrals,
): void {
  fillBessel(bessel, distance, nodes, countBelow(nodes, end));
  for (const {level, place} of rings) {
    for (let s = 0; s < sums.length; s++) {
      if (integrals === ALL) addAll(level.count, level.fields[s], bessel, sums[s], ALL * place);
      else addHorizontal(level.count, level.fields[s], bessel, sums[s], HORIZONTAL * place);
    }
  }
}

function addHorizontal(count: number, field: Float64Array, {j0, j1}: BesselRow, sums: Float64Array, at: number): void {
  let u = 0;
  let inPlane = 0;
  for (let i = 0; i < count; i++) {
    u += j1[i] * field[2 * i];
    inPlane += j0[i] * field[2 * i + 1];
  }
  sums[at] += u;
  sums[at + 1] += inPlane;
}

function addAll(count: number, field: Float64Array, {j0, j1}: BesselRow, sums: Float64Array, at: number): void {
  let u = 0;
  let inPlane = 0;
  let w = 0;
  let vertical = 0;
  let shear = 0;
  let radial = 0;
  for (let i = 0, k = 0; i < count; i++, k += ALL) {
    const c0 = j0[i];
    const c1 = j1[i];
    u += c1 * field[k];
    inPlane += c0 * field[k + 1];
    w += c0 * field[k + 2];
    vertical += c0 * field[k + 3];
    shear += c1 * field[k + 4];
    radial += c0 * field[k + 5];
  }
  sums[at] += u;
  sums[at + 1] += inPlane;
  sums[at + 2] += w;
  sums[at + 3] += vertical;
  sums[at + 4] += shear;
  sums[at + 5] += radial;
}
