/** Overlay and soft interlayer on a rigid base that parts or steps at x = 0. Lengths in mm, moduli in MPa. */
import type {verificationTable} from "../table.ts";
import {
  type Component,
  corner,
  extrapolate,
  growing,
  halve,
  MODE,
  moved,
  type Plane,
  plane,
  type Solved,
  solve,
} from "./plane.ts";
import {OVERLAY} from "./values.ts";

type Table = ReturnType<typeof verificationTable>;

const THICKNESS = 100;
const INTERLAYER = 12;
const MODULUS = 4000;
const POISSON = 0.35;
const INTERLAYER_POISSON = 0.45;
const ROW = 2.5;
const OPENING = 0.5; // Δ
const STEP = 0.1; // δ
const FOURIER = "Fourier integrals of the Airy stress function";

/**
 * The base is where displacements are counted from: its half x > 0 is held, and the line x = 0 is moved by −Δ/2 (opening) or
 * −δ/2 (step). Small elements at the base's edge, where the displacement jumps, and at the overlay's underside.
 */
function overlay(interlayerModulus: number, length: number, halved: boolean): Plane {
  const interlayer = [
    ...growing(THICKNESS, THICKNESS + INTERLAYER / 2, 0.2, 1.7),
    ...growing(THICKNESS + INTERLAYER, THICKNESS + INTERLAYER / 2, 0.1, 1.7)
      .reverse()
      .slice(1),
  ];
  const near = THICKNESS - ROW;
  const underside = growing(THICKNESS, near, 0.2, 1.7).reverse().slice(1);
  const z = Float64Array.from([
    ...Array.from({length: near / ROW + 1}, (_, k) => k * ROW),
    ...underside.slice(0, -1),
    ...interlayer,
  ]);
  const distances = OVERLAY.underside.map(([x]) => x);
  const x = Float64Array.from([
    ...growing(0, distances[0], 0.1, 1.6),
    ...distances.slice(1).flatMap((to, k) => between(distances[k], to)),
    ...growing(250, length, 100, 1.6).slice(1),
  ]);
  const layers = [
    {bottom: THICKNESS, modulus: MODULUS, poisson: POISSON},
    {bottom: THICKNESS + INTERLAYER, modulus: interlayerModulus, poisson: INTERLAYER_POISSON},
  ];
  const held = {right: [], bottom: [0, 1, 2]};
  const probes = distances.map(d => [d, THICKNESS] as const);
  return plane({x: halved ? halve(x) : x, z: halved ? halve(z) : z, layers, held, probes});
}

function between(from: number, to: number): number[] {
  const count = Math.max(2, Math.round(Math.log(to / from) / Math.log(1.5)));
  return Array.from({length: count}, (_, k) => from * (to / from) ** ((k + 1) / count));
}

/** Traction on the line at a depth: parabola through the three nearest element middles of the overlay. */
function traction(p: Plane, solved: Solved, depth: number): number {
  const {path} = p.model;
  const middles = path.flatMap((n, k) => (k % 2 && n.z < THICKNESS ? [{z: n.z, t: solved.force(k) / n.share}] : []));
  const three = middles.sort((a, b) => Math.abs(a.z - depth) - Math.abs(b.z - depth)).slice(0, 3);
  return three.reduce((sum, one) => {
    const others = three.filter(o => o !== one);
    return sum + others.reduce((w, o) => (w * (depth - o.z)) / (one.z - o.z), one.t);
  }, 0);
}

/** Force over the overlay's depth; the node on its underside is shared with the interlayer by E'h. */
function overlayForce(p: Plane, solved: Solved): number {
  const underside = corner(p, THICKNESS);
  let sum = 0;
  for (let k = 0; k < underside; k++) sum += solved.force(k);
  return sum + solved.force(underside) * UNDERSIDE_SHARE;
}

const UNDERSIDE_SHARE = MODULUS / (MODULUS + 120); // elements on either side are about equal

export function uncrackedOverlay({compare, heading}: Table): void {
  heading("Overlay on a soft interlayer over a base that parts (0.5 mm) or steps (0.1 mm): no crack");
  const pair = [overlay(120, 2400, false), overlay(120, 2400, true)];
  const opening = pair.map(p => solve(p, "U", moved(p, "U", -OPENING / 2), () => true));
  const stepping = pair.map(p => solve(p, "W", moved(p, "W", -STEP / 2), () => true));
  const shared = {source: FOURIER, standing: "derived", tolerance: 2e-3} as const;
  const of = (f: (p: Plane, k: number) => number): number => extrapolate(f(pair[0], 0), f(pair[1], 1));
  for (const [depth, expected] of OVERLAY.opening) {
    const computed = of((p, k) => traction(p, opening[k], depth * THICKNESS));
    compare({...shared, name: `parting: σx at depth ${depth}·h₁`, unit: "MPa", expected, computed});
  }
  const N = of((p, k) => overlayForce(p, opening[k]));
  compare({
    ...shared,
    name: "parting: force of the overlay",
    unit: "N/mm",
    expected: OVERLAY.openingForce,
    computed: N,
  });
  OVERLAY.underside.forEach(([x, expected], probe) => {
    const computed = OPENING / 2 + of((_, k) => opening[k].probe(probe));
    compare({...shared, name: `parting: u of the underside at x = ${x} mm`, unit: "mm", expected, computed});
  });
  for (const [depth, expected] of OVERLAY.stepping) {
    const computed = of((p, k) => traction(p, stepping[k], depth * THICKNESS));
    compare({...shared, name: `stepping: τxz at depth ${depth}·h₁`, unit: "MPa", expected, computed});
  }
  const V = of((p, k) => overlayForce(p, stepping[k]));
  compare({...shared, name: "stepping: shear force", unit: "N/mm", expected: OVERLAY.steppingForce, computed: V});
}

/** G of closure against the work that the base gives up: at fixed Δ, G = −½·Δ·dF/da, F the force across the whole line. */
export function crackedOverlay({compare, heading}: Table): void {
  heading("The same with a crack a from the underside up: energy release rate against energy balance");
  const pair = [overlay(120, 2400, false), overlay(120, 2400, true)];
  const cases = [
    {name: "parting", component: "U", jump: OPENING},
    {name: "stepping", component: "W", jump: STEP},
  ] as const;
  for (const {name, component, jump} of cases) {
    for (const interlayer of ["whole", "broken"] as const) {
      for (const part of [0.1, 0.3, 0.5, 0.7, 0.9]) {
        const results = pair.map(p => {
          const at = (a: number) => cracked(p, component, jump, {a, interlayer});
          const a = part * THICKNESS;
          const K = at(a).K;
          const balance = (-jump / 2) * ((at(a + ROW).force - at(a - ROW).force) / (2 * ROW));
          return {G: (K ** 2 * (1 - POISSON ** 2)) / MODULUS, balance};
        });
        compare({
          name: `${name}, interlayer ${interlayer}, a = ${part}·h₁: G`,
          source: "energy balance, difference over ±2.5 mm of a",
          standing: "derived",
          unit: "N/mm",
          expected: extrapolate(results[0].balance, results[1].balance),
          computed: extrapolate(results[0].G, results[1].G),
          tolerance: 0.01,
        });
      }
    }
  }
}

function cracked(
  p: Plane,
  component: Component,
  jump: number,
  crack: {readonly a: number; readonly interlayer: "whole" | "broken"},
): {K: number; force: number} {
  const tip = corner(p, THICKNESS - crack.a);
  const mouth = crack.interlayer === "whole" ? corner(p, THICKNESS) : Infinity;
  const tied = (node: number): boolean => node <= tip || node >= mouth;
  const solved = solve(p, component, moved(p, component, -jump / 2), tied);
  const force = p.model.path.reduce((sum, _, k) => sum + solved.force(k), 0);
  return {K: solved.intensities({node: tip, direction: -1})[MODE[component]], force};
}

/**
 * Shear-lag bar (Cox 1952): N = ½·Δ·√(E'h·G₂/t). It leaves out the gradient over the depth, so it is the limit where the
 * length √(E'h·t/G₂) over which the opening is spread is long against h.
 */
export function shearLag({compare, heading}: Table): void {
  heading("Overlay force against a shear-lag bar: the bar is the limit of a soft interlayer");
  for (const [modulus, tolerance] of [
    [120, 0.12],
    [12, 0.05],
    [1.2, 0.02],
  ]) {
    const stiffness = modulus / (2 * (1 + INTERLAYER_POISSON)) / INTERLAYER;
    const axial = (MODULUS / (1 - POISSON ** 2)) * THICKNESS;
    const spread = Math.sqrt(axial / stiffness);
    const p = overlay(modulus, 8 * spread, false);
    const solved = solve(p, "U", moved(p, "U", -OPENING / 2), () => true);
    compare({
      name: `interlayer ${modulus} MPa, opening spread over ${(spread / THICKNESS).toFixed(1)}·h₁`,
      source: "shear-lag bar in plane strain",
      standing: "derived",
      unit: "N/mm",
      expected: (OPENING / 2) * Math.sqrt(axial * stiffness),
      computed: overlayForce(p, solved),
      tolerance,
    });
  }
}
