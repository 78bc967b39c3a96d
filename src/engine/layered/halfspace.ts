import {cel} from "./elliptic.ts";

/** Responses to one unit pressure on a circle, in cylindrical coordinates. Displacements are multiplied by 2G. */
export interface Cylindrical {
  w: number; // 2G·w/q [m]
  u: number; // 2G·u_r/q [m]
  radial: number; // σr/q [–]
  hoop: number; // σθ/q [–]
  vertical: number; // σz/q [–]
  shear: number; // τrz/q [–]
}

/**
 * Lipschitz–Hankel integrals of the circular load, I(μ,ν;λ) = ∫₀^∞ J_μ(ma) J_ν(mr) e^{−mz} m^λ dm.
 * Those with ν = 1 and λ ≤ 0 are divided by r, so that the axis is no special case.
 */
interface CircleIntegrals {
  i100: number; // I(1,0;0) [1/m]
  i101: number; // I(1,0;1) [1/m²]
  i10m: number; // I(1,0;−1) [–]
  i110r: number; // I(1,1;0)/r [1/m²]
  i111: number; // I(1,1;1) [1/m²]
  i11mr: number; // I(1,1;−1)/r [1/m]
}

/** k² above which elliptic integrals are used; below, they would subtract near-equal numbers. */
const NEAR_EDGE = 0.5;
const TRAPEZOID_POINTS = 24; // on the half circle: error about exp(−48·arccosh(2/k² − 1)) ≤ 1e-36 at k² = 0.5

/**
 * Homogeneous half-space under a uniform vertical pressure on a circle, in closed form.
 *
 *   2G·w = a[2(1−ν)·I(1,0;−1) + z·I(1,0;0)]     2G·u = a[z·I(1,1;0) − (1−2ν)·I(1,1;−1)]
 *   σz = −a[I(1,0;0) + z·I(1,0;1)]              τrz = −a·z·I(1,1;1)
 *   σr = −a[I(1,0;0) − z·I(1,0;1)] − 2G·u/r     σθ = −2ν·a·I(1,0;0) + 2G·u/r
 *
 * @param a  radius of the circle [m], > 0
 * @param r  distance from its axis [m], ≥ 0
 * @param z  depth [m], ≥ 0
 * @source Terazawa 1916; Love 1929; docs/theory/layered.md Eq. 6
 */
export function halfSpaceResponse(a: number, r: number, z: number, poisson: number): Cylindrical {
  const {i100, i101, i10m, i110r, i111, i11mr} = circleIntegrals(a, r, z);
  const uOverR = a * (z * i110r - (1 - 2 * poisson) * i11mr);
  return {
    w: a * (2 * (1 - poisson) * i10m + z * i100),
    u: r * uOverR,
    radial: -a * (i100 - z * i101) - uOverR,
    hoop: -2 * poisson * a * i100 + uOverR,
    vertical: -a * (i100 + z * i101),
    shear: -a * z * i111,
  };
}

function circleIntegrals(a: number, r: number, z: number): CircleIntegrals {
  if (z === 0) return surfaceIntegrals(a, r);
  const k2 = (4 * a * r) / ((a + r) ** 2 + z * z);
  return k2 > NEAR_EDGE ? ellipticForm(a, r, z) : angularForm(a, r, z);
}

/**
 * Neumann's addition theorem turns each into an integral over the angle φ at the centre, with R² = a² + r² − 2ar cos φ
 * and D² = R² + z²; after one integration by parts all integrands keep their sign. The trapezoidal rule converges geometrically.
 */
function angularForm(a: number, r: number, z: number): CircleIntegrals {
  const sum = {i100: 0, i101: 0, i10m: 0, i110r: 0, i111: 0, i11mr: 0};
  let i000 = 0;
  for (let k = 0; k <= TRAPEZOID_POINTS; k++) {
    const angle = (Math.PI * k) / TRAPEZOID_POINTS;
    const weight = (k === 0 || k === TRAPEZOID_POINTS ? 0.5 : 1) / TRAPEZOID_POINTS;
    const cosine = Math.cos(angle);
    const sine2 = weight * Math.sin(angle) ** 2;
    const d2 = a * a + r * r - 2 * a * r * cosine + z * z;
    const d = Math.sqrt(d2);
    i000 += weight / d;
    sum.i100 += (weight * (a - r * cosine)) / (d * (d + z));
    sum.i101 += (weight * (a - r * cosine)) / (d * d2);
    sum.i110r += (a * sine2) / (d * d2);
    sum.i111 += (3 * z * a * r * sine2) / (d * d2 * d2);
    sum.i11mr += (a * sine2) / (d * (d + z));
  }
  sum.i10m = a * i000 - r * r * sum.i110r - z * sum.i100; // Euler's theorem: I(1,0;−1) is homogeneous of degree 0
  return sum;
}

/** The same by complete elliptic integrals of modulus k² = 4ar/ρ². @source Eason, Noble & Sneddon 1955, Phil. Trans. A 247, 529–551 */
function ellipticForm(a: number, r: number, z: number): CircleIntegrals {
  const rho2 = (a + r) ** 2 + z * z;
  const rho = Math.sqrt(rho2);
  const delta2 = (a - r) ** 2 + z * z;
  const kc = Math.sqrt(delta2 / rho2);
  const K = cel(kc, 1, 1, 1);
  const E = cel(kc, 1, 1, kc * kc);
  const i100 = edgeIntegral(a, r, z, kc, K);
  const i010 = edgeIntegral(r, a, z, kc, K);
  const i110 = ((a * a + r * r + z * z) * (K / rho) - rho * E) / (Math.PI * a * r);
  return {
    i100,
    i101: (K + ((a * a - r * r - z * z) / delta2) * E) / (Math.PI * a * rho),
    i10m: ((a * a - r * r - z * z) * K + rho2 * E) / (Math.PI * a * rho) - z * i100,
    i110r: i110 / r,
    i111: (z * (((a * a + r * r + z * z) / delta2) * E - K)) / (Math.PI * a * r * rho),
    i11mr: (a * i010 + r * i100 - z * i110) / (2 * r),
  };
}

/** I(1,0;0) with the third-kind integral; at r = a the mean of both sides. */
function edgeIntegral(a: number, r: number, z: number, kc: number, K: number): number {
  const inside = (1 + Math.sign(a - r)) / (2 * a);
  const ratio = (a - r) / (a + r);
  const third = ratio === 0 ? 0 : ratio * cel(kc, ratio * ratio, 1, 1);
  return inside - (z / (Math.PI * a * Math.hypot(a + r, z))) * (K + third);
}

/** Limit z = 0: the pressure steps at r = a, where the mean is taken. i101 and i111 only ever appear times z. */
function surfaceIntegrals(a: number, r: number): CircleIntegrals {
  const rho = a + r;
  const kc = Math.abs(a - r) / rho;
  const first = kc === 0 ? 0 : (a * a - r * r) * cel(kc, 1, 1, 1); // (a² − r²)·K → 0 at the edge
  const second = kc === 0 ? 1 : cel(kc, 1, 1, kc * kc);
  return {
    i100: (1 + Math.sign(a - r)) / (2 * a),
    i101: 0,
    i10m: (first + rho * rho * second) / (Math.PI * a * rho),
    i110r: 0,
    i111: 0,
    i11mr: r <= a ? 1 / (2 * a) : a / (2 * r * r),
  };
}
