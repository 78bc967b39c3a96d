import {InputError, requirePositive} from "../errors.ts";
import {besselJ01} from "./bessel.ts";
import {halfSpaceResponse} from "./halfspace.ts";
import {COARSE, FINE, MOST_NODES, nodesOf, PHASE, TOLERANCE} from "./hankel.ts";
import {checkedStack} from "./model.ts";
import {AMPLITUDES, type Stack, solveFirstLayer, workLength} from "./spectrum.ts";
import type {ElasticBase, ElasticLayer} from "./types.ts";

/** All of a deflection bowl but the moduli. */
export interface SurfaceGeometry {
  readonly layers: readonly Omit<ElasticLayer, "modulus">[];
  readonly base: ElasticBase;
  readonly radius: number; // of the loaded circle [m]
  readonly offsets: readonly number[]; // from its centre, along the surface [m]
}

export interface SurfaceModel {
  /** Deflection of the surface at each offset under unit pressure [m/Pa], for moduli by layer [Pa]. @throws InputError "domain" */
  readonly deflections: (moduli: readonly number[]) => Float64Array;
  /** Largest difference to a finer quadrature, of the largest deflection [–]. @throws InputError "convergence" above what is accepted */
  readonly residual: (moduli: readonly number[]) => number;
  readonly wavenumbers: number; // quadrature nodes used
}

/**
 * Deflection of the surface of a layered solid, for many sets of moduli at one geometry:
 *
 *   w(r) = w∞(r) + (1/2G₁)·∫ a·J₁(ma)·J₀(mr)·W̃(m) dm/m,
 *
 * w∞ of a half-space of the first layer in closed form. All but W̃ depends on the geometry alone and is made once; of the
 * stack only the upward recursion is needed. The same numbers as those of `layeredModel`, a hundred times sooner.
 *
 * @source docs/theory/layered.md Eq. 3–6
 * @throws InputError "domain" | "shape" | "convergence" when too many wavenumbers are needed
 */
export function surfaceModel({layers, base, ...circle}: SurfaceGeometry): SurfaceModel {
  const {radius, offsets} = circle;
  requirePositive("radius", radius, "m");
  if (offsets.length === 0) throw new InputError("shape", "offsets.length", 0, "≥ 1");
  offsets.forEach((r, i) => {
    if (!(r >= 0 && r < Infinity)) throw new InputError("domain", `offsets[${i}]`, r, "finite, ≥ 0 [m]");
  });
  const stackOf = (moduli: readonly number[]): Stack =>
    checkedStack(
      layers.map((layer, j) => ({...layer, modulus: moduli[j]})),
      base,
    );
  const any = stackOf(layers.map(() => 1));
  const solid = Float64Array.from(offsets, r => halfSpaceResponse(radius, r, 0, any.poisson[0]).w);
  const homogeneous = any.count === 1 && any.base === "half-space";
  const edges = homogeneous ? new Float64Array(1) : surfacePanels(any, radius + Math.max(...offsets));
  const coarse = kernelOf(edges, COARSE, circle);
  const deflections = (moduli: readonly number[], kernel = coarse): Float64Array => {
    const stack = stackOf(moduli);
    const sums = integrate(stack, kernel);
    return sums.map((sum, k) => (solid[k] + sum) / (2 * stack.shearModulus[0]));
  };
  return {
    deflections: moduli => deflections(moduli),
    residual: moduli => {
      const fine = deflections(moduli, kernelOf(edges, FINE, circle));
      const largest = fine.reduce((most, w) => Math.max(most, Math.abs(w)), 0);
      const own = deflections(moduli);
      const residual = own.reduce((most, w, k) => Math.max(most, Math.abs(w - fine[k]) / largest), 0);
      if (!(residual <= TOLERANCE))
        throw new InputError("convergence", "surface.residual", residual, `at most ${TOLERANCE} between quadratures`);
      return residual;
    },
    wavenumbers: coarse.m.length,
  };
}

/** Amplitudes at the surface fall as e^{−2mh₁}; cut at 2mh₁ = 32, e⁻³² = 1e-14. */
const CUT = 32;
/** First panel edge times total thickness, and growth of the panels from there: deflections are smooth at small m. */
const FIRST_EDGE = 1e-4;
const GROWTH = 3;

/**
 * Panel edges [1/m], about half as many as stresses at depth need.
 *
 * @param reach  radius of the load and farthest offset [m]
 * @throws InputError "convergence"
 */
function surfacePanels(stack: Stack, reach: number): Float64Array {
  const thickness = stack.thickness.reduce((sum, h) => (h < Infinity ? sum + h : sum), 0);
  const end = CUT / (2 * stack.thickness[0]);
  const widest = PHASE / reach;
  const needed = COARSE.nodes.length * (end / widest);
  if (!(needed <= MOST_NODES)) {
    const need = `fewer than ${MOST_NODES}: a thicker top layer or nearer points`;
    throw new InputError("convergence", "surface.wavenumbers", Math.ceil(needed), need);
  }
  const edges = [0, FIRST_EDGE / thickness];
  for (let edge = edges[1]; edge < end; edges.push(edge)) edge += Math.min((GROWTH - 1) * edge, widest);
  return Float64Array.from(edges);
}

/** E·w/q of the surface of a homogeneous half-space, (1 + ν) times 2G·w/q [m]. @source docs/theory/layered.md Eq. 6 */
export function halfSpaceDeflection(radius: number, offset: number, poisson: number): number {
  return (1 + poisson) * halfSpaceResponse(radius, offset, 0, poisson).w;
}

type Circle = Pick<SurfaceGeometry, "radius" | "offsets">;

interface SurfaceKernel {
  readonly m: Float64Array; // [1/m]
  readonly factors: readonly Float64Array[]; // by offset: weight·a·J₁(ma)·J₀(mr)/m
}

function kernelOf(
  edges: Float64Array,
  rule: {readonly nodes: Float64Array; readonly weights: Float64Array},
  {radius, offsets}: Circle,
): SurfaceKernel {
  const {m, weight} = nodesOf(edges, rule);
  const count = m.length;
  const j0 = new Float64Array(count);
  const j1 = new Float64Array(count);
  besselJ01(
    m.map(x => x * radius),
    0,
    count,
    j0,
    j1,
  );
  const loading = m.map((x, i) => (weight[i] * radius * j1[i]) / x);
  const factors = offsets.map(r => {
    besselJ01(
      m.map(x => x * r),
      0,
      count,
      j0,
      j1,
    );
    return loading.map((l, i) => l * j0[i]);
  });
  return {m, factors};
}

/** ∫ of 2Gm·W at the surface, less the half-space part, by offset [m]. */
function integrate(stack: Stack, {m, factors}: SurfaceKernel): Float64Array {
  const amplitudes = new Float64Array(AMPLITUDES);
  const work = new Float64Array(workLength(stack.count));
  const nu = stack.poisson[0];
  const kappa = 3 - 4 * nu;
  const h = stack.thickness[0];
  const sums = new Float64Array(factors.length);
  for (let i = 0; i < m.length; i++) {
    solveFirstLayer(stack, m[i], amplitudes, 0, work);
    const eta = m[i] * h;
    const up = (amplitudes[2] + amplitudes[3] * (kappa + eta)) * Math.exp(-eta);
    const w = amplitudes[0] + kappa * amplitudes[1] - up;
    for (let k = 0; k < sums.length; k++) sums[k] += factors[k][i] * w;
  }
  return sums;
}
