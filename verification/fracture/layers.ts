/** Tips near and on an interface: order of the singularity, cracks in a layer on a half-plane. */
import type {verificationTable} from "../table.ts";
import {
  type Component,
  corner,
  extrapolate,
  growing,
  halve,
  MODE,
  type Plane,
  plane,
  solve,
  tractions,
} from "./plane.ts";
import {BURIED_CRACK, EDGE_TIPS, INTERFACE_EXPONENT, SURFACE_CRACK} from "./values.ts";

type Table = ReturnType<typeof verificationTable>;

const MODES = ["U", "W"] as const;
const RATIO = 2; // of neighbouring elements: coarser than this, the angles around the tip are not resolved
const SMALLEST = 2 ** -27; // in crack lengths; under 1e-9 stiff slivers cost too many digits

/**
 * λ from the forces F of the midside nodes ahead, on elements that grow geometrically from the tip, e and m in elements:
 *
 *   λ > ½: F = A·q^((1−λ)e) + B·q^(−(1−λ)e), the second what the unresolved tip leaves behind:
 *          2·cosh((1−λ)·m·ln q) = (F₍e+m₎ + F₍e−m₎)/F₍e₎
 *   λ < ½: F/h = A·q^(−λe) + C, the constant stress that follows the singular term:
 *          q^(−λm) = (f₍e₎ − f₍e+m₎)/(f₍e−m₎ − f₍e₎)
 */
function exponent(force: (element: number) => number, softer: boolean): number {
  const [e, m] = softer ? [7, 3] : [10, 3];
  const step = m * Math.log(RATIO);
  if (softer) return 1 - Math.acosh((force(e + m) + force(e - m)) / (2 * force(e))) / step;
  const mean = (k: number): number => force(k) / RATIO ** k;
  return -Math.log((mean(e) - mean(e + m)) / (mean(e - m) - mean(e))) / step;
}

export function interfaceExponents({compare, heading}: Table): void {
  heading(`Tip on an interface: exponent λ of the stresses r^−λ, from forces at 10⁻⁷ to 10⁻⁵ of the crack's length`);
  const sizes = Array.from({length: 28}, (_, k) => RATIO ** k * SMALLEST); // up to 1
  const x = Float64Array.from([0, ...sizes]);
  const z = Float64Array.from([...sizes.map(s => -s).reverse(), 0, ...sizes]);
  for (const [ratio, fifth, third] of INTERFACE_EXPONENT) {
    for (const [poisson, expected] of [
      [0.2, fifth],
      [0.35, third],
    ]) {
      const layers = [
        {bottom: 0, modulus: 1, poisson},
        {bottom: 1, modulus: ratio, poisson},
      ];
      const p = plane({x, z, layers, held: {right: [], bottom: [0, 1, 2]}});
      const tip = p.model.path.findIndex(n => n.z === 0);
      for (const component of MODES) {
        // Loaded far from the tip, so that nothing but the singularity's own terms is near it.
        const loads = tractions(p, component, depth => (depth < -0.6 ? 1 : 0));
        const solved = solve(p, component, loads, node => node >= tip);
        compare({
          name: `modulus ahead ${ratio} of the cracked, ν = ${poisson}, mode ${MODE[component]}: λ`,
          source: "Zak & Williams 1963; He & Hutchinson 1989; Williams determinant",
          standing: "derived",
          unit: "–",
          expected,
          computed: exponent(e => solved.force(tip + 2 * e + 1), ratio < 1),
          tolerance: 5e-3,
        });
      }
    }
  }
}

const POISSON = 0.35;
const FAR = 1000; // edge of the half-plane, in thicknesses of the layer: a stiff layer spreads its bending far

function layerOnHalfPlane(ratio: number, x: Float64Array, z: Float64Array): Plane[] {
  const layers = [
    {bottom: 1, modulus: 1, poisson: POISSON},
    {bottom: Infinity, modulus: ratio, poisson: POISSON},
  ];
  const held = {right: [], bottom: [0, 1, 2]};
  return [plane({x, z, layers, held}), plane({x: halve(x), z: halve(z), layers, held})];
}

export function buriedCracks({compare, heading}: Table): void {
  heading("Crack of length 0.2·W in a layer on a half-plane, d from it: K/(p√(0.1πW)), 8 and 16 elements over d");
  for (const [ratio, d, ...expected] of BURIED_CRACK) {
    const [near, far] = [1 - d, 0.8 - d];
    const size = Math.min(d, 0.1) / 8;
    const middle = near - 0.1;
    const z = Float64Array.from([
      ...growing(far - 0.02, 0, 0.01, 1.3).reverse(),
      far - 0.01,
      far,
      far + 0.01,
      ...growing(far + 0.02, middle, 0.01, 1.2),
      ...growing(near - 2 * size, middle, size, 1.3)
        .reverse()
        .slice(1),
      near - size,
      near,
      ...Array.from({length: Math.round(d / size)}, (_, k) => near + (k + 1) * size),
      ...growing(1, FAR, size, 1.7).slice(1),
    ]);
    const pair = layerOnHalfPlane(ratio, Float64Array.from(growing(0, FAR, size / 2, 1.6)), z);
    MODES.forEach((component, m) => {
      const results = pair.map(p => {
        const [a, b] = [corner(p, far), corner(p, near)];
        const solved = solve(
          p,
          component,
          tractions(p, component, () => 1),
          n => n <= a || n >= b,
        );
        const K = (node: number, direction: 1 | -1) => solved.intensities({node, direction})[MODE[component]];
        return [K(b, 1), K(a, -1)].map(k => k / Math.sqrt(0.1 * Math.PI));
      });
      ["near", "far"].forEach((tip, t) => {
        compare({
          name: `half-plane ${ratio} of the layer, d = ${d}·W, mode ${MODE[component]}, ${tip} tip`,
          source: "dislocation integral equation",
          standing: "derived",
          unit: "–",
          expected: expected[2 * m + t],
          computed: extrapolate(results[0][t], results[1][t]),
          tolerance: 2e-3,
        });
      });
    });
  }
}

export function surfaceCracks({compare, heading}: Table): void {
  heading("Crack from the free face of a layer W towards a half-plane: K/(p√(πa)), 40 and 80 rows over W");
  const z = Float64Array.from([...Array.from({length: 40}, (_, k) => k / 40), ...growing(1, FAR, 1 / 40, 1.6)]);
  const x = Float64Array.from(growing(0, FAR, 1 / 80, 1.6));
  for (const {ratio, ...reference} of SURFACE_CRACK) {
    const pair = layerOnHalfPlane(ratio, x, z);
    const component: Component = "I" in reference ? "U" : "W";
    const expected = "I" in reference ? reference.I : reference.II;
    EDGE_TIPS.forEach((a, k) => {
      const results = pair.map(p => {
        const tip = corner(p, a);
        const solved = solve(
          p,
          component,
          tractions(p, component, () => 1),
          node => node >= tip,
        );
        return solved.intensities({node: tip, direction: 1})[MODE[component]] / Math.sqrt(Math.PI * a);
      });
      compare({
        name: `half-plane ${ratio} of the layer, mode ${MODE[component]}, a/W = ${a}`,
        source: "dislocation integral equation",
        standing: "derived",
        unit: "–",
        expected: expected[k],
        computed: extrapolate(results[0], results[1]),
        tolerance: a > 0.85 ? 0.01 : 3e-3, // four coarse elements are left between the last tip and the interface
      });
    });
  }
}
