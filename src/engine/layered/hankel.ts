import {InputError} from "../errors.ts";
import {gaussLegendre} from "./gauss.ts";
import {CUT, decayLength, type Integrals, type Ring, sumsOverWavenumbers} from "./quadrature.ts";
import type {Stack} from "./spectrum.ts";

/** Smallest panel edge times total thickness: features of the spectrum are at m·H ≥ E₁/E₂ ≥ 1e-5 or so. */
const FIRST_EDGE = 1e-6;
/** Largest advance of the Bessel functions' phase m·(r + a) over a panel [rad]: with 16 nodes error about 1e-13. */
export const PHASE = 18;
export const COARSE = gaussLegendre(16);
export const FINE = gaussLegendre(22);
export const MOST_NODES = 400_000;
/** Largest accepted residual [–]. */
export const TOLERANCE = 1e-8;

interface HankelResult {
  readonly sums: readonly Float64Array[]; // by stack, [ring][integral]
  readonly wavenumbers: number;
  readonly residual: number; // largest of all stacks [–]
}

/**
 * Inverse Hankel transforms for all rings, under unit pressure, for stacks that differ in moduli and springs only:
 *
 *   2G·w = ∫ a J₁(ma)·W̃ J₀(mr) dm/m,  σz = ∫ a J₁(ma)·S J₀(mr) dm,  and so on.
 *
 * Gauss–Legendre quadrature over panels that double in width from near zero until the phase limit, no panel longer
 * than six half-waves. The half-space part of the first layer, whose integrals converge slowly or not at all at the
 * surface, is left out.
 *
 * The ring with most oscillations is integrated again with more nodes; the residual is the largest change of its
 * integrals relative to the larger of 1 and their size.
 *
 * @throws InputError "convergence" when more than MOST_NODES wavenumbers are needed or the residual exceeds TOLERANCE
 */
export function integrateHankel(stacks: readonly Stack[], rings: readonly Ring[], integrals: Integrals): HankelResult {
  const [stack] = stacks;
  const sums = stacks.map(() => new Float64Array(integrals * rings.length));
  if (rings.length === 0 || (stack.count === 1 && stack.base === "half-space")) {
    return {sums, wavenumbers: 0, residual: 0};
  }
  let wavenumbers = 0;
  let residual = 0;
  const worst = rings.reduce((a, b) => (phaseOf(stack, b) > phaseOf(stack, a) ? b : a));
  for (const places of byReach(rings)) {
    const own = places.map(place => rings[place]);
    const edges = panels(stack, own);
    const nodes = nodesOf(edges, COARSE);
    wavenumbers += nodes.m.length;
    const found = sumsOverWavenumbers(stacks, own, nodes, integrals);
    found.forEach((sum, s) => {
      places.forEach((place, k) => {
        sums[s].set(sum.subarray(integrals * k, integrals * (k + 1)), integrals * place);
      });
    });
    const k = own.indexOf(worst);
    if (k < 0) continue;
    const again = sumsOverWavenumbers(stacks, [worst], nodesOf(edges, FINE), integrals);
    residual = Math.max(...again.map((sum, s) => difference(worst, sum, found[s].subarray(integrals * k))));
  }
  if (!(residual <= TOLERANCE)) {
    throw new InputError("convergence", "layered.residual", residual, `at most ${TOLERANCE} between two quadratures`);
  }
  return {sums, wavenumbers, residual};
}

/** Largest difference of a ring's integrals by two rules. */
function difference(ring: Ring, fine: Float64Array, coarse: Float64Array): number {
  const lengths = [ring.radius, 1, ring.radius, 1, 1, 1];
  return fine.reduce((largest, value, k) => {
    const size = Math.max(1, Math.abs(value) / lengths[k]);
    return Math.max(largest, Math.abs(coarse[k] - value) / lengths[k] / size);
  }, 0);
}

/** Total advance of the phase before the cut [rad]. */
function phaseOf(stack: Stack, ring: Ring): number {
  return (ring.radius + ring.distance) / decayLength(stack, ring);
}

/** Most groups that `byReach` makes: for each all stacks are solved anew. */
const MOST_GROUPS = 4;

/** Places of the rings in groups whose reach r + a differs by less than a factor of two: the far ones need short panels. */
function byReach(rings: readonly Ring[]): number[][] {
  const farthest = rings.reduce((most, {radius, distance}) => Math.max(most, radius + distance), 0);
  const groups = Array.from({length: MOST_GROUPS}, (): number[] => []);
  rings.forEach(({radius, distance}, place) => {
    const halvings = Math.floor(Math.log2(farthest / (radius + distance)));
    groups[Math.min(halvings, MOST_GROUPS - 1)].push(place);
  });
  return groups.filter(group => group.length > 0);
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

/** Nodes and weights of a rule on every panel [1/m]. */
export function nodesOf(
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
