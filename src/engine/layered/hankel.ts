import {InputError} from "../errors.ts";
import {besselJ01} from "./bessel.ts";
import {gaussLegendre} from "./gauss.ts";
import {type Cylindrical, halfSpaceResponse} from "./halfspace.ts";
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
 * Integrands fall at least as e^{−m·d}, with d the depth, or 2h₁ − depth in the first layer once the half-space part
 * is taken out. Cut at m·d = 44: e⁻⁴⁴ = 8e-20, which leaves room for polynomial factors.
 */
const CUT = 44;
/** Smallest panel edge times total thickness: features of the spectrum are at m·H ≥ E₁/E₂ ≥ 1e-5 or so. */
const FIRST_EDGE = 1e-6;
/** Largest advance of the Bessel functions' phase m·(r + a) over a panel [rad]: with 16 nodes error about 1e-13. */
const PHASE = 9;
const COARSE = gaussLegendre(16);
const FINE = gaussLegendre(22);
const MOST_NODES = 400_000;
/** Largest accepted residual [–]. */
const TOLERANCE = 1e-8;

interface HankelResult {
  readonly values: Map<Ring, Cylindrical>;
  readonly wavenumbers: number;
  readonly residual: number;
}

/**
 * Inverse Hankel transforms for all rings, under unit pressure:
 *
 *   2G·w = ∫ a J₁(ma)·W̃ J₀(mr) dm/m,  σz = ∫ a J₁(ma)·S J₀(mr) dm,  and so on.
 *
 * Gauss–Legendre quadrature over panels that double in width from near zero until the phase limit, no panel longer
 * than three half-waves. The half-space part of the first layer, whose integrals converge slowly or not at all at the
 * surface, is added in closed form.
 *
 * The ring with most oscillations is integrated again with more nodes; the residual is the largest change of its six
 * integrals relative to the larger of 1 and their size.
 *
 * @throws InputError "convergence" when more than MOST_NODES wavenumbers are needed or the residual exceeds TOLERANCE
 */
export function integrateHankel(stack: Stack, rings: readonly Ring[]): HankelResult {
  const values = new Map<Ring, Cylindrical>();
  if (rings.length === 0) return {values, wavenumbers: 0, residual: 0};
  if (stack.count === 1 && stack.base === "half-space") {
    for (const ring of rings) values.set(ring, withHalfSpace(stack, ring, new Float64Array(6)));
    return {values, wavenumbers: 0, residual: 0};
  }
  const edges = panels(stack, rings);
  const all = quadrature(stack, rings, edges, COARSE);
  for (const ring of rings) values.set(ring, withHalfSpace(stack, ring, all.sums.get(ring)!));

  const worst = rings.reduce((a, b) => (phaseOf(stack, b) > phaseOf(stack, a) ? b : a));
  const again = quadrature(stack, [worst], edges, FINE).sums.get(worst)!;
  const once = all.sums.get(worst)!;
  const lengths = [worst.radius, worst.radius, 1, 1, 1, 1];
  let residual = 0;
  for (let k = 0; k < 6; k++) {
    const size = Math.max(1, Math.abs(again[k]) / lengths[k]);
    residual = Math.max(residual, Math.abs(once[k] - again[k]) / lengths[k] / size);
  }
  if (!(residual <= TOLERANCE)) {
    throw new InputError("convergence", "layered.residual", residual, `at most ${TOLERANCE} between two quadratures`);
  }
  return {values, wavenumbers: all.count, residual};
}

/** Distance over which the integrand falls by e [m]. */
function decayLength(stack: Stack, ring: Ring): number {
  return ring.layer === 0 ? 2 * stack.thickness[0] - ring.depth : ring.depth;
}

/** Total advance of the phase before the cut [rad]. */
function phaseOf(stack: Stack, ring: Ring): number {
  return (ring.radius + ring.distance) / decayLength(stack, ring);
}

/** Panel edges [1/m]: doubling, then of the width that the phase allows. */
function panels(stack: Stack, rings: readonly Ring[]): Float64Array {
  let thickness = 0;
  for (const h of stack.thickness) if (h < Infinity) thickness += h;
  let reach = 0;
  let shortest = Infinity;
  for (const ring of rings) {
    reach = Math.max(reach, ring.radius + ring.distance);
    shortest = Math.min(shortest, decayLength(stack, ring));
  }
  const end = CUT / shortest;
  const widest = PHASE / reach;
  const needed = COARSE.nodes.length * (end / widest);
  if (!(needed <= MOST_NODES)) {
    const need = `fewer than ${MOST_NODES}: a thicker top layer or nearer points`;
    throw new InputError("convergence", "layered.wavenumbers", Math.ceil(needed), need);
  }
  const edges = [0, FIRST_EDGE / thickness];
  while (edges[edges.length - 1] < end) {
    const edge = edges[edges.length - 1];
    edges.push(edge + Math.min(edge, widest));
  }
  return Float64Array.from(edges);
}

/** The six integrals of every ring: 2G·w, 2G·u, σz, τrz, ∫P J₀, ∫2Gm·U J₀. */
function quadrature(
  stack: Stack,
  rings: readonly Ring[],
  edges: Float64Array,
  rule: {readonly nodes: Float64Array; readonly weights: Float64Array},
): {readonly sums: Map<Ring, Float64Array>; readonly count: number} {
  const {m, weight} = nodesOf(edges, rule);
  const count = m.length;
  const amplitudes = new Float64Array(count * AMPLITUDES * stack.count);
  const work = new Float64Array(workLength(stack.count));
  for (let i = 0; i < count; i++) solveWavenumber(stack, m[i], amplitudes, i * AMPLITUDES * stack.count, work);

  const load = new Map<number, Float64Array>(); // weight·a·J₁(ma), by radius
  const fields = new Map<string, Float64Array>(); // by level
  const sums = new Map<Ring, Float64Array>();
  const bessel = besselRow(m);
  for (const {radius} of rings) if (!load.has(radius)) load.set(radius, loadingOf(radius, m, weight, bessel));
  for (const ring of [...rings].sort((a, b) => a.distance - b.distance)) {
    const level = `${ring.layer}|${ring.depth}`;
    let field = fields.get(level);
    if (!field) {
      field = fieldAt(stack, ring, m, amplitudes);
      fields.set(level, field);
    }
    bessel.reach(ring.distance, field.length / FIELDS);
    sums.set(ring, sumUp(m, load.get(ring.radius)!, field, bessel.j0, bessel.j1));
  }
  return {sums, count};
}

/** J₀(mr) and J₁(mr) at the nodes, computed only as far as asked for; rings in order of r reuse them. */
function besselRow(m: Float64Array) {
  const j0 = new Float64Array(m.length);
  const j1 = new Float64Array(m.length);
  const argument = new Float64Array(m.length);
  let r = Number.NaN;
  let filled = 0;
  const reach = (distance: number, count: number) => {
    if (distance !== r) filled = 0;
    r = distance;
    if (count <= filled) return;
    for (let i = filled; i < count; i++) argument[i] = m[i] * r;
    besselJ01(argument, filled, count, j0, j1);
    filled = count;
  };
  return {j0, j1, reach};
}

function loadingOf(
  radius: number,
  m: Float64Array,
  weight: Float64Array,
  bessel: ReturnType<typeof besselRow>,
): Float64Array {
  bessel.reach(radius, m.length);
  const loading = new Float64Array(m.length);
  for (let i = 0; i < m.length; i++) loading[i] = weight[i] * radius * bessel.j1[i];
  return loading;
}

function nodesOf(
  edges: Float64Array,
  rule: {readonly nodes: Float64Array; readonly weights: Float64Array},
): {m: Float64Array; weight: Float64Array} {
  const n = rule.nodes.length;
  const m = new Float64Array((edges.length - 1) * n);
  const weight = new Float64Array(m.length);
  for (let p = 0; p + 1 < edges.length; p++) {
    const half = (edges[p + 1] - edges[p]) / 2;
    for (let k = 0; k < n; k++) {
      m[p * n + k] = edges[p] + half * (1 + rule.nodes[k]);
      weight[p * n + k] = half * rule.weights[k];
    }
  }
  return {m, weight};
}

/** Field amplitudes at the ring's level, up to the wavenumber where they are negligible. */
function fieldAt(stack: Stack, ring: Ring, m: Float64Array, amplitudes: Float64Array): Float64Array {
  const end = CUT / decayLength(stack, ring);
  let count = 0;
  while (count < m.length && m[count] <= end) count++;
  const field = new Float64Array(count * FIELDS);
  const above = ring.depth - ring.top;
  const below = stack.thickness[ring.layer] - above;
  for (let i = 0; i < count; i++) {
    const at = (i * stack.count + ring.layer) * AMPLITUDES;
    fieldAmplitudes(stack.poisson[ring.layer], m[i], above, below, amplitudes, at, field, i * FIELDS);
  }
  return field;
}

function sumUp(
  m: Float64Array,
  loading: Float64Array,
  field: Float64Array,
  j0: Float64Array,
  j1: Float64Array,
): Float64Array {
  const count = field.length / FIELDS;
  let w = 0;
  let u = 0;
  let vertical = 0;
  let shear = 0;
  let radial = 0;
  let inPlane = 0;
  for (let i = 0; i < count; i++) {
    const at = i * FIELDS;
    const c0 = loading[i] * j0[i];
    const c1 = loading[i] * j1[i];
    w += (c0 * field[at]) / m[i];
    u += (c1 * field[at + 1]) / m[i];
    inPlane += c0 * field[at + 1];
    vertical += c0 * field[at + 2];
    shear += c1 * field[at + 3];
    radial += c0 * field[at + 4];
  }
  return Float64Array.of(w, u, vertical, shear, radial, inPlane);
}

/** σr = ∫P J₀ − 2G·u/r and σθ = ∫(P − 2Gm·U)J₀ + 2G·u/r, plus the half-space part in the first layer. */
function withHalfSpace(stack: Stack, ring: Ring, sums: Float64Array): Cylindrical {
  const [w, u, vertical, shear, radial, inPlane] = sums;
  const uOverR = ring.distance > 0 ? u / ring.distance : inPlane / 2; // J₁(mr)/r → m/2
  const layered = {w, u, vertical, shear, radial: radial - uOverR, hoop: radial - inPlane + uOverR};
  if (ring.layer > 0) return layered;
  const h = halfSpaceResponse(ring.radius, ring.distance, ring.depth, stack.poisson[0]);
  return {
    w: w + h.w,
    u: u + h.u,
    vertical: vertical + h.vertical,
    shear: shear + h.shear,
    radial: layered.radial + h.radial,
    hoop: layered.hoop + h.hoop,
  };
}
