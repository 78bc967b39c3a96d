import type {SymmetricTensor} from "./types.ts";

/** Largest principal value in the horizontal plane. */
export function largestHorizontal(e: Pick<SymmetricTensor, "xx" | "yy" | "xy">): number {
  return (e.xx + e.yy) / 2 + Math.hypot((e.xx - e.yy) / 2, e.xy);
}

/**
 * Largest principal value, from the trigonometric solution of the characteristic cubic.
 *
 *   λ₁ = m + 2√p·cos φ,  m = tr(e)/3,  6p = tr((e − m)²),  2p^{3/2}·cos 3φ = det(e − m),  0 ≤ φ ≤ π/3
 *
 * @source Smith 1961, doi:10.1145/355578.366316
 */
export function largestPrincipal(e: SymmetricTensor): number {
  const m = (e.xx + e.yy + e.zz) / 3;
  const x = e.xx - m;
  const y = e.yy - m;
  const z = e.zz - m;
  const p = (x * x + y * y + z * z + 2 * (e.xy * e.xy + e.xz * e.xz + e.yz * e.yz)) / 6;
  if (p === 0) return m;
  const half = (x * (y * z - e.yz * e.yz) - e.xy * (e.xy * z - e.yz * e.xz) + e.xz * (e.xy * e.yz - y * e.xz)) / 2;
  const cosine = half / (p * Math.sqrt(p)); // within ±1 but for rounding, at which the root is double and the bound exact
  const angle = Math.acos(Math.min(1, Math.max(-1, cosine))) / 3;
  return m + 2 * Math.sqrt(p) * Math.cos(angle);
}
