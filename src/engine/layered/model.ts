import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import {type Cylindrical, halfSpaceResponse} from "./halfspace.ts";
import {integrateHankel} from "./hankel.ts";
import {ALL, type Ring} from "./quadrature.ts";
import type {Stack} from "./spectrum.ts";
import type {
  CircularLoad,
  ElasticBase,
  ElasticLayer,
  FieldPoint,
  LayeredModel,
  LayeredResponse,
  PointResponse,
  SymmetricTensor,
} from "./types.ts";

/** A point this close to an interface, relative to its depth, is on it [–]. */
const ON_INTERFACE = 1e-9;

/**
 * Linear elastic stack of isotropic layers, infinite in x and y, under circular vertical loads.
 *
 * @source Burmister 1943, 1945; docs/theory/layered.md
 * @throws InputError "domain" | "shape"
 */
export function layeredModel(layers: readonly ElasticLayer[], base: ElasticBase): LayeredModel {
  const stack = checkedStack(layers, base);
  return {respond: (loads, points) => superpose(stack, loads, points)};
}

export function checkedStack(layers: readonly ElasticLayer[], base: ElasticBase): Stack {
  const count = layers.length;
  if (count === 0) throw new InputError("shape", "layers.length", 0, "≥ 1");
  layers.forEach((layer, j) => {
    const at = `layers[${j}]`;
    requirePositive(`${at}.modulus`, layer.modulus, "Pa");
    if (!(layer.poisson >= 0 && layer.poisson <= 0.5)) {
      throw new InputError("domain", `${at}.poisson`, layer.poisson, "0 to 0.5 [–]");
    }
    if (j === count - 1 && base.kind === "half-space") {
      if (layer.thickness !== Infinity) {
        throw new InputError("domain", `${at}.thickness`, layer.thickness, "Infinity, being the half-space [m]");
      }
    } else {
      requirePositive(`${at}.thickness`, layer.thickness, "m");
    }
    const spring = layer.shearSpringBelow ?? Infinity;
    if (!(spring >= 0)) throw new InputError("domain", `${at}.shearSpringBelow`, spring, "≥ 0 or Infinity [Pa/m]");
  });
  if (base.kind === "springs") requirePositive("base.stiffness", base.stiffness, "Pa/m");
  return {
    count,
    shearModulus: Float64Array.from(layers, l => l.modulus / (2 * (1 + l.poisson))),
    poisson: Float64Array.from(layers, l => l.poisson),
    thickness: Float64Array.from(layers, l => l.thickness),
    interfaceStiffness: Float64Array.from(layers, l => l.shearSpringBelow ?? Infinity),
    base: base.kind,
    springStiffness: base.kind === "springs" ? base.stiffness : 0,
  };
}

/** Depth of the top of each layer [m]. */
function layerTops(stack: Stack): Float64Array {
  const tops = new Float64Array(stack.count);
  for (let j = 1; j < stack.count; j++) tops[j] = tops[j - 1] + stack.thickness[j - 1];
  return tops;
}

/** The layer that holds a point, and the point's depth snapped onto an interface it is meant to be on. */
function locate(point: FieldPoint, i: number, stack: Stack, tops: Float64Array): {layer: number; depth: number} {
  const at = `points[${i}]`;
  requireNonNegative(`${at}.z`, point.z, "m");
  if (!(Number.isFinite(point.x) && Number.isFinite(point.y))) {
    throw new InputError("domain", at, `x ${point.x}, y ${point.y}`, "finite [m]");
  }
  const slack = ON_INTERFACE * point.z;
  const bottom = (j: number) => tops[j] + stack.thickness[j];
  let layer = 0;
  if (point.layer === undefined) {
    while (layer < stack.count && point.z > bottom(layer) + slack) layer++;
    if (layer === stack.count) {
      throw new InputError("domain", `${at}.z`, point.z, `at most ${bottom(stack.count - 1)}, the lowest depth [m]`);
    }
  } else {
    layer = point.layer;
    if (!(Number.isInteger(layer) && layer >= 0 && layer < stack.count)) {
      throw new InputError("domain", `${at}.layer`, layer, `an integer from 0 to ${stack.count - 1}`);
    }
    if (point.z < tops[layer] - slack || point.z > bottom(layer) + slack) {
      throw new InputError(
        "domain",
        `${at}.z`,
        point.z,
        `within layer ${layer}, ${tops[layer]} to ${bottom(layer)} [m]`,
      );
    }
  }
  if (Math.abs(point.z - tops[layer]) <= slack) return {layer, depth: tops[layer]};
  return {layer, depth: point.z > bottom(layer) - slack ? bottom(layer) : point.z};
}

/** What loads and points amount to: each pair of them is a ring. */
export interface Layout {
  readonly layers: Int32Array; // of the points
  readonly rings: readonly Ring[];
  readonly pairs: Int32Array; // [point][load], place among the rings
}

/** Rings: one for each different (radius of load, distance, depth, layer); points and wheels in regular arrays share many. */
export function layoutOf(stack: Stack, loads: readonly CircularLoad[], points: readonly FieldPoint[]): Layout {
  loads.forEach((load, i) => {
    requirePositive(`loads[${i}].radius`, load.radius, "m");
    if (!(Number.isFinite(load.x) && Number.isFinite(load.y) && Number.isFinite(load.pressure))) {
      throw new InputError("domain", `loads[${i}]`, `${load.x}, ${load.y}, ${load.pressure}`, "finite x, y, pressure");
    }
  });
  const tops = layerTops(stack);
  const rings: Ring[] = [];
  const known = new Map<string, number>();
  const pairs = new Int32Array(points.length * loads.length);
  const layers = new Int32Array(points.length);
  points.forEach((point, i) => {
    const {layer, depth} = locate(point, i, stack, tops);
    layers[i] = layer;
    loads.forEach((load, n) => {
      const distance = Math.hypot(point.x - load.x, point.y - load.y);
      const key = `${load.radius}|${distance.toPrecision(13)}|${depth}|${layer}`;
      const ring = known.get(key) ?? rings.push({radius: load.radius, distance, depth, layer, top: tops[layer]}) - 1;
      known.set(key, ring);
      pairs[i * loads.length + n] = ring;
    });
  });
  return {layers, rings, pairs};
}

function superpose(stack: Stack, loads: readonly CircularLoad[], points: readonly FieldPoint[]): LayeredResponse {
  const {layers, rings, pairs} = layoutOf(stack, loads, points);
  const {sums, wavenumbers, residual} = integrateHankel([stack], rings, ALL);
  const values = rings.map((ring, k) => cylindrical(stack, ring, sums[0].subarray(ALL * k)));
  const sum = new Float64Array(9);
  const responses = points.map((point, i) => {
    sum.fill(0);
    loads.forEach((load, n) => {
      addRotated(sum, values[pairs[i * loads.length + n]], point.x - load.x, point.y - load.y, load.pressure);
    });
    return pointResponse(sum, stack.shearModulus[layers[i]], stack.poisson[layers[i]]);
  });
  return {points: responses, wavenumbers, residual};
}

/** σr = ∫P J₀ − 2G·u/r and σθ = ∫(P − 2Gm·U)J₀ + 2G·u/r, plus the half-space part in the first layer. */
function cylindrical(stack: Stack, ring: Ring, [u, inPlane, w, vertical, shear, radial]: Float64Array): Cylindrical {
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

function pointResponse(sum: Float64Array, G: number, nu: number): PointResponse {
  const stress = {xx: sum[3], yy: sum[4], zz: sum[5], xy: sum[6], xz: sum[7], yz: sum[8]};
  return {
    displacement: {x: sum[0] / (2 * G), y: sum[1] / (2 * G), z: sum[2] / (2 * G)},
    stress,
    strain: strainOf(stress, 2 * G * (1 + nu), nu),
  };
}

/** Adds one load's response, turned from (r, θ) to (x, y), to [u, v, w (× 2G), σxx, σyy, σzz, σxy, σxz, σyz]. */
function addRotated(sum: Float64Array, c: Cylindrical, dx: number, dy: number, pressure: number): void {
  const r = Math.hypot(dx, dy);
  const cosine = r > 0 ? dx / r : 1;
  const sine = r > 0 ? dy / r : 0;
  sum[0] += pressure * c.u * cosine;
  sum[1] += pressure * c.u * sine;
  sum[2] += pressure * c.w;
  sum[3] += pressure * (c.radial * cosine * cosine + c.hoop * sine * sine);
  sum[4] += pressure * (c.radial * sine * sine + c.hoop * cosine * cosine);
  sum[5] += pressure * c.vertical;
  sum[6] += pressure * (c.radial - c.hoop) * cosine * sine;
  sum[7] += pressure * c.shear * cosine;
  sum[8] += pressure * c.shear * sine;
}

/** Hooke's law, ε = [(1+ν)σ − ν·tr σ·1]/E. */
function strainOf(s: SymmetricTensor, E: number, nu: number): SymmetricTensor {
  const trace = s.xx + s.yy + s.zz;
  const normal = (x: number) => ((1 + nu) * x - nu * trace) / E;
  const shear = (1 + nu) / E;
  return {
    xx: normal(s.xx),
    yy: normal(s.yy),
    zz: normal(s.zz),
    xy: shear * s.xy,
    xz: shear * s.xz,
    yz: shear * s.yz,
  };
}
