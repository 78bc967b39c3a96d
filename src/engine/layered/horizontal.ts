import {halfSpaceResponse} from "./halfspace.ts";
import {integrateHankel} from "./hankel.ts";
import {checkedStack, layoutOf} from "./model.ts";
import {largestHorizontal} from "./principal.ts";
import {HORIZONTAL, type Ring} from "./quadrature.ts";
import type {Stack} from "./spectrum.ts";
import type {CircularLoad, ElasticBase, ElasticLayer, FieldPoint} from "./types.ts";

/** One stack with several sets of moduli, such as one at several temperatures. */
export interface ElasticSets {
  readonly layers: readonly Omit<ElasticLayer, "modulus">[];
  readonly base: ElasticBase;
  readonly moduli: readonly (readonly number[])[]; // by set, then by layer [Pa]
}

/**
 * Largest principal strain in the horizontal plane at every point, by set: what `largestHorizontal` gives of the strains of
 * `layeredModel`, much faster. All sets share what depends on the geometry alone, and of the six integrals two are needed:
 *
 *   εθ = u/r,  εr = ∂u/∂r = [∫ a J₁(ma)·2Gm·Ũ J₀(mr) dm]/2G − u/r.
 *
 * @throws InputError "domain" | "shape" | "convergence"
 */
export function horizontalStrains(
  {layers, base, moduli}: ElasticSets,
  loads: readonly CircularLoad[],
  points: readonly FieldPoint[],
): Float64Array[] {
  const stacks = moduli.map(set =>
    checkedStack(
      layers.map((layer, j) => ({...layer, modulus: set[j]})),
      base,
    ),
  );
  if (stacks.length === 0) return [];
  const {layers: layerOf, rings, pairs} = layoutOf(stacks[0], loads, points);
  const solid = rings.map(ring => halfSpacePart(stacks[0], ring));
  const {sums} = integrateHankel(stacks, rings, HORIZONTAL);
  return stacks.map((stack, s) =>
    Float64Array.from(points, (point, i) => {
      let xx = 0; // strains times 2G
      let yy = 0;
      let xy = 0;
      loads.forEach(({x, y, pressure}, n) => {
        const k = pairs[i * loads.length + n];
        const {distance} = rings[k];
        const u = sums[s][HORIZONTAL * k];
        const inPlane = sums[s][HORIZONTAL * k + 1];
        const ownHoop = distance > 0 ? u / distance : inPlane / 2; // J₁(mr)/r → m/2
        const hoop = pressure * (ownHoop + solid[k].hoop);
        const radial = pressure * (inPlane - ownHoop + solid[k].radial);
        const cosine = distance > 0 ? (point.x - x) / distance : 1;
        const sine = distance > 0 ? (point.y - y) / distance : 0;
        xx += radial * cosine * cosine + hoop * sine * sine;
        yy += radial * sine * sine + hoop * cosine * cosine;
        xy += (radial - hoop) * cosine * sine;
      });
      return largestHorizontal({xx, yy, xy}) / (2 * stack.shearModulus[layerOf[i]]);
    }),
  );
}

/** 2G times the horizontal strains of the half-space part, which only the first layer has [–]. */
function halfSpacePart(stack: Stack, {layer, radius, distance, depth}: Ring): {radial: number; hoop: number} {
  if (layer > 0) return {radial: 0, hoop: 0};
  const nu = stack.poisson[0];
  const {radial, hoop, vertical} = halfSpaceResponse(radius, distance, depth, nu);
  const mean = (nu / (1 + nu)) * (radial + hoop + vertical); // Hooke's law: 2Gε = σ − ν/(1+ν)·tr σ
  return {radial: radial - mean, hoop: hoop - mean};
}
