/**
 * Stiffness of one 8-node rectangular element for one wavenumber β of the expansion along y:
 *
 *   u = U·cos βy, v = V·sin βy, w = W·cos βy
 *   εx = U,x   εy = βV   εz = W,z   γxz = U,z + W,x   γxy = V,x − βU   γyz = V,z − βW
 *
 * isotropic with Lamé constants λ, μ. The integral over y is left out: it is common to both sides of the equations.
 * Every entry is a combination of six reference integrals (products of shape functions and their derivatives over the
 * square [−1,1]²), integrated exactly by 3 × 3 Gauss points.
 *
 * @source Wilson 1965, AIAA J. 3(12):2269–2274; Zienkiewicz & Taylor, The Finite Element Method, semi-analytical processes
 */

export interface Lame {
  readonly lambda: number; // [Pa]
  readonly mu: number; // [Pa]
}

/** @param poisson ν, 0 ≤ ν < 0.5 */
export function lame(modulus: number, poisson: number): Lame {
  return {lambda: (modulus * poisson) / ((1 + poisson) * (1 - 2 * poisson)), mu: modulus / (2 * (1 + poisson))};
}

const XI = [-1, 1, 1, -1, 0, 1, 0, -1];
const ETA = [-1, -1, 1, 1, -1, 0, 1, 0];

/** Serendipity shape functions and their derivatives at (ξ, η). */
function shapes(xi: number, eta: number): {N: number[]; dXi: number[]; dEta: number[]} {
  const N: number[] = [];
  const dXi: number[] = [];
  const dEta: number[] = [];
  for (let k = 0; k < 8; k++) {
    const a = XI[k];
    const b = ETA[k];
    if (a !== 0 && b !== 0) {
      N.push(0.25 * (1 + a * xi) * (1 + b * eta) * (a * xi + b * eta - 1));
      dXi.push(0.25 * a * (1 + b * eta) * (2 * a * xi + b * eta));
      dEta.push(0.25 * b * (1 + a * xi) * (2 * b * eta + a * xi));
    } else if (a === 0) {
      N.push(0.5 * (1 - xi * xi) * (1 + b * eta));
      dXi.push(-xi * (1 + b * eta));
      dEta.push(0.5 * b * (1 - xi * xi));
    } else {
      N.push(0.5 * (1 - eta * eta) * (1 + a * xi));
      dXi.push(0.5 * a * (1 - eta * eta));
      dEta.push(-eta * (1 + a * xi));
    }
  }
  return {N, dXi, dEta};
}

const GAUSS = [
  [-Math.sqrt(0.6), 5 / 9],
  [0, 8 / 9],
  [Math.sqrt(0.6), 5 / 9],
];

/** ∫N·N, ∫N,ξ·N,ξ, ∫N,η·N,η, ∫N,ξ·N,η, ∫N,ξ·N, ∫N,η·N over the square, 8 × 8 row-major. */
const REFERENCE = (() => {
  const make = () => new Float64Array(64);
  const R = {mass: make(), xx: make(), zz: make(), xz: make(), x0: make(), z0: make()};
  for (const [xi, wXi] of GAUSS) {
    for (const [eta, wEta] of GAUSS) {
      const {N, dXi, dEta} = shapes(xi, eta);
      const w = wXi * wEta;
      for (let i = 0; i < 8; i++) {
        for (let j = 0; j < 8; j++) {
          R.mass[8 * i + j] += w * N[i] * N[j];
          R.xx[8 * i + j] += w * dXi[i] * dXi[j];
          R.zz[8 * i + j] += w * dEta[i] * dEta[j];
          R.xz[8 * i + j] += w * dXi[i] * dEta[j];
          R.x0[8 * i + j] += w * dXi[i] * N[j];
          R.z0[8 * i + j] += w * dEta[i] * N[j];
        }
      }
    }
  }
  return R;
})();

/**
 * @param dx   length along x [m]
 * @param dz   height [m]
 * @param beta wavenumber β [1/m], ≥ 0
 * @param out  row-major 24 × 24, the lower triangle overwritten (and some entries above it) [N/m per m along y]
 */
export function elementStiffness(dx: number, dz: number, {lambda, mu}: Lame, beta: number, out: Float64Array): void {
  const m = lambda + 2 * mu;
  const area = (dx * dz) / 4;
  const rx = dz / dx;
  const rz = dx / dz;
  const b = beta;
  for (let i = 0; i < 8; i++) {
    for (let j = 0; j <= i; j++) {
      const k = 8 * i + j;
      const t = 8 * j + i;
      const mass = area * b * b * REFERENCE.mass[k];
      const xx = rx * REFERENCE.xx[k];
      const zz = rz * REFERENCE.zz[k];
      const xz = REFERENCE.xz[k]; // N,x(i)·N,z(j)
      const zx = REFERENCE.xz[t];
      const x0 = 0.5 * dz * b * REFERENCE.x0[k]; // β·N,x(i)·N(j)
      const ox = 0.5 * dz * b * REFERENCE.x0[t];
      const z0 = 0.5 * dx * b * REFERENCE.z0[k];
      const oz = 0.5 * dx * b * REFERENCE.z0[t];
      const r = 72 * i + 3 * j;
      out[r] = m * xx + mu * zz + mu * mass;
      out[r + 1] = lambda * x0 - mu * ox;
      out[r + 2] = lambda * xz + mu * zx;
      out[r + 24] = lambda * ox - mu * x0;
      out[r + 25] = mu * (xx + zz) + m * mass;
      out[r + 26] = lambda * oz - mu * z0;
      out[r + 48] = lambda * zx + mu * xz;
      out[r + 49] = lambda * z0 - mu * oz;
      out[r + 50] = m * zz + mu * xx + mu * mass;
    }
  }
}

/** Consistent stiffness of a spring over a side of 3 nodes: ∫NᵢNⱼ on length 1. */
const SIDE_MASS = [
  [4 / 30, 2 / 30, -1 / 30],
  [2 / 30, 16 / 30, 2 / 30],
  [-1 / 30, 2 / 30, 4 / 30],
] as const;

/**
 * Spring of stiffness k along a side: on the difference of two sides, or on one side against the ground.
 *
 * @param count  unknowns: components × 3 for one side, twice that for two; ordered side, node, component
 * @param out    row-major count × count, overwritten
 */
export function sideSpring(
  stiffness: number,
  length: number,
  components: number,
  count: number,
  out: Float64Array,
): void {
  const oneSide = 3 * components;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      const sign = Math.trunc(i / oneSide) === Math.trunc(j / oneSide) ? 1 : -1;
      const a = i % oneSide;
      const b = j % oneSide;
      const same = a % components === b % components;
      out[i * count + j] = same
        ? sign * stiffness * length * SIDE_MASS[Math.trunc(a / components)][Math.trunc(b / components)]
        : 0;
    }
  }
}

/**
 * Load of an initial strain with components (εx, εy, εz) at the element's top and bottom, linear between, β = 0:
 * fᵢ = ∫Bᵀ·D·ε₀.
 *
 * @param strain  εx, εy, εz at mid-height and their change from top to bottom [–]
 * @param out     24 loads, overwritten [N per m along y]
 */
export function initialStrainLoad(
  dx: number,
  dz: number,
  {lambda, mu}: Lame,
  strain: {readonly middle: readonly [number, number, number]; readonly change: readonly [number, number, number]},
  out: Float64Array,
): void {
  out.fill(0);
  for (const [xi, wXi] of GAUSS) {
    for (const [eta, wEta] of GAUSS) {
      const {dXi, dEta} = shapes(xi, eta);
      const at = strain.middle.map((e, k) => e + (strain.change[k] * eta) / 2);
      const trace = lambda * (at[0] + at[1] + at[2]);
      const w = wXi * wEta;
      for (let i = 0; i < 8; i++) {
        out[3 * i] += w * dXi[i] * (dz / 2) * (trace + 2 * mu * at[0]);
        out[3 * i + 2] += w * dEta[i] * (dx / 2) * (trace + 2 * mu * at[2]);
      }
    }
  }
}
