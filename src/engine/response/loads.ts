/** Wheels as loads on the surface nodes, and the inverse transform along y. */
import {InputError} from "../errors.ts";
import type {Mesh} from "../section/index.ts";

/** Loads on the surface nodes, one row a load case: `count` × model.surface.length, row-major [N per m along y]. */
export interface SurfaceLoads {
  readonly count: number;
  readonly values: Float64Array;
}

/**
 * Consistent loads of a unit pressure over |x − centre| < length/2, split into its symmetric or antisymmetric half:
 * ½·(p(x) ± p(−x)) on x > 0. Exact for the quadratic surface nodes wherever the patch ends.
 *
 * @param centres  wheel positions, ≥ 0 [m]
 * @throws InputError "domain" when a patch leaves the meshed reach, or stands over an open joint without an overlay
 */
export function wheelLoads(
  mesh: Mesh,
  length: number,
  centres: ArrayLike<number>,
  part: "symmetric" | "antisymmetric",
): SurfaceLoads {
  const {surface} = mesh;
  const count = centres.length;
  const values = new Float64Array(count * surface.length);
  const begin = surface[0].x;
  const end = surface[surface.length - 1].x;
  for (let r = 0; r < count; r++) {
    const from = centres[r] - length / 2;
    const to = centres[r] + length / 2;
    if (!(to <= end) || (from < begin - 1e-9 && begin > 0)) {
      throw new InputError("domain", `centres[${r}]`, centres[r], `a patch within ${begin} to ${end} [m]`);
    }
    const row = values.subarray(r * surface.length, (r + 1) * surface.length);
    addPressure(surface, from, to, 0.5, row);
    addPressure(surface, -to, -from, part === "symmetric" ? 0.5 : -0.5, row);
  }
  return {count, values};
}

/**
 * Adds the consistent loads of a uniform pressure on quadratic elements, exact wherever it ends.
 *
 * @param surface  two corners and the middle between them, element by element; neighbours share a corner
 * @param row      load of each node, added to [N per m along y]
 */
export function addPressure(
  surface: readonly {readonly x: number}[],
  from: number,
  to: number,
  pressure: number,
  row: Float64Array,
): void {
  for (let k = 0; k + 2 < surface.length; k += 2) {
    const x0 = surface[k].x;
    const x1 = surface[k + 2].x;
    const s = Math.max(from, x0);
    const e = Math.min(to, x1);
    if (e <= s) continue;
    for (const g of [-1, 1]) {
      // Two Gauss points integrate a quadratic exactly.
      const t = (2 * ((s + e) / 2 + (g * (e - s)) / (2 * Math.sqrt(3)) - x0)) / (x1 - x0) - 1;
      const w = (pressure * (e - s)) / 2;
      row[k] += w * 0.5 * t * (t - 1);
      row[k + 1] += w * (1 - t * t);
      row[k + 2] += w * 0.5 * t * (t + 1);
    }
  }
}

export interface Wavenumbers {
  readonly beta: Float64Array; // [1/m]
  readonly scale: number; // H, length of the mapping [m]
  readonly last: number; // where the integral over β ends [1/m]
}

/**
 * Chebyshev roots in s = asinh(βH) on (0, asinh(β_last·H)): dense where the response of a plate changes, sparse towards
 * short waves. The response without its load factor is smooth in s and is interpolated there.
 */
export function wavenumbers(count: number, scale: number, last: number): Wavenumbers {
  const top = Math.asinh(last * scale);
  const beta = Float64Array.from(
    {length: count},
    (_, k) => Math.sinh((top / 2) * (1 - Math.cos((Math.PI * (k + 0.5)) / count))) / scale,
  );
  return {beta, scale, last};
}

/** One wheel's place across the lane: a uniform pressure over |y − centre| < width/2. */
export interface Strip {
  readonly centre: number; // [m]
  readonly width: number; // [m]
  readonly pressure: number; // [Pa]
}

const GAUSS_4 = [
  [-0.8611363115940526, 0.3478548451374538],
  [-0.3399810435848563, 0.6521451548625461],
  [0.3399810435848563, 0.6521451548625461],
  [0.8611363115940526, 0.3478548451374538],
];

/**
 * Weights of the inverse transform: f(y) = Σₖ weights[y·K + k]·r(βₖ), with r the response to unit pressure cos βy and
 *
 *   f(y) = (1/π)·∫₀^∞ r(β)·[2p·sin(βb)/β]·cos β(y − y_wheel) dβ,   b = width/2   (sin for the odd components),
 *
 * r interpolated through its values at the wavenumbers (barycentric, in s), the integral by Gauss points in panels short
 * enough for the fastest oscillation.
 *
 * @param y  lateral offsets [m]
 * @returns row-major y.length × K, for the even (U, W, σx, τxz) and odd (V, τxy) components
 */
export function inverseWeights(
  w: Wavenumbers,
  y: Float64Array,
  strips: readonly Strip[],
): {even: Float64Array; odd: Float64Array} {
  const K = w.beta.length;
  const even = new Float64Array(y.length * K);
  const odd = new Float64Array(y.length * K);
  const reach = strips.reduce(
    (most, s) => Math.max(most, s.width / 2 + Math.max(...y.map(v => Math.abs(v - s.centre)))),
    0.1,
  );
  const top = Math.asinh(w.last * w.scale);
  const basisAt = lagrangeBasis(w);
  let s0 = 0;
  while (s0 < top * (1 - 1e-12)) {
    // A panel spans at most a radian and a half of the oscillation, and a tenth of a mapped unit.
    const b0 = Math.sinh(s0) / w.scale;
    const s1 = Math.min(s0 + 0.1, Math.asinh((b0 + 1.5 / reach) * w.scale), top);
    const b1 = Math.sinh(s1) / w.scale;
    for (const [g, weight] of GAUSS_4) {
      const beta = (b0 + b1) / 2 + (g * (b1 - b0)) / 2;
      const basis = basisAt(beta);
      const dBeta = (weight * (b1 - b0)) / 2 / Math.PI;
      // Σ factor·cos β(y − centre), and with sin, from the strips' sums once for all offsets.
      let cosines = 0;
      let sines = 0;
      for (const strip of strips) {
        const factor = (2 * strip.pressure * Math.sin((beta * strip.width) / 2)) / beta;
        cosines += factor * Math.cos(beta * strip.centre);
        sines += factor * Math.sin(beta * strip.centre);
      }
      for (let i = 0; i < y.length; i++) {
        const cos = Math.cos(beta * y[i]);
        const sin = Math.sin(beta * y[i]);
        const c = dBeta * (cosines * cos + sines * sin);
        const s = dBeta * (cosines * sin - sines * cos);
        for (let k = 0; k < K; k++) {
          even[i * K + k] += c * basis[k];
          odd[i * K + k] += s * basis[k];
        }
      }
    }
    s0 = s1;
  }
  return {even, odd};
}

/**
 * Interpolation through values at the wavenumbers, barycentric in s = asinh(βH): the returned function gives the weight of
 * each value at β, in an array that the next call overwrites.
 *
 * @source Berrut & Trefethen 2004, doi:10.1137/S0036144502417715; weights of Chebyshev roots
 */
export function lagrangeBasis(w: Wavenumbers): (beta: number) => Float64Array {
  const K = w.beta.length;
  const nodes = Float64Array.from(w.beta, b => Math.asinh(b * w.scale));
  const signs = Float64Array.from(w.beta, (_, k) => (k % 2 ? -1 : 1) * Math.sin((Math.PI * (k + 0.5)) / K));
  const out = new Float64Array(K);
  return beta => {
    const s = Math.asinh(beta * w.scale);
    let sum = 0;
    for (let k = 0; k < K; k++) {
      const d = s - nodes[k];
      if (d === 0) {
        out.fill(0);
        out[k] = 1;
        return out;
      }
      out[k] = signs[k] / d;
      sum += out[k];
    }
    for (let k = 0; k < K; k++) out[k] /= sum;
    return out;
  };
}
