/** Plane strain, β = 0: beams on springs, and slabs that temperature moves. */
import {type StrainCase, solveDirect, wheelLoads} from "../../src/engine/response/index.ts";
import {buildMesh} from "../../src/engine/section/index.ts";
import type {Compare} from "../table.ts";
import {integral} from "./kirchhoff.ts";
import type {Slab} from "./slabs.ts";
import {bareSlab, layer, lines, meanBetween, planeStrain, recover, stiffOf, wholeMesh} from "./solve.ts";

const NONE = {count: 0, values: new Float64Array(0)};
const HALF = 0.01; // half length of the patch that stands for a line load [m]
const rows = (h: number): Float64Array => Float64Array.from([0, 0.1, 0.25, 0.5, 0.75, 0.9, 1], t => t * h);

/** Plane strain: E′ for E. */
const bending = ({modulus, poisson, thickness}: Slab): number => (modulus * thickness ** 3) / (12 * (1 - poisson ** 2));

/** β = (k/4E′I)^¼ of Hetényi [1/m]. */
const characteristic = (slab: Slab): number => (slab.support / (4 * bending(slab))) ** 0.25;

/** Slab with βh = `ratio`. */
function beam(poisson: number, ratio: number): Slab {
  const slab = {modulus: 30e9, poisson, thickness: 0.2, support: 0};
  return {...slab, support: 4 * bending(slab) * (ratio / slab.thickness) ** 4};
}

export function hetenyi(compare: Compare): void {
  const textbook: Slab = {modulus: 30e9, poisson: 0, thickness: 0.2, support: 50e6};
  for (const [name, slab, tolerance] of [
    ["E = 30 GPa, h = 200 mm, k = 50 MPa/m, ν = 0 (βh = 0.18)", textbook, 0.015],
    ["βh = 0.04, ν = 0.3", beam(0.3, 0.04), 0.002],
  ] as const) {
    const {thickness: h, support: k} = slab;
    const b = characteristic(slab);
    const P = 40e3;
    const source = "Hetényi 1946, E′ for E";
    const shared = {source, standing: "derived", tolerance} as const;

    const mesh = wholeMesh({
      x: lines([HALF, 14 / b], HALF, 1.4, 0.4 / b),
      z: rows(h),
      springs: true,
      farEnd: "held",
      reach: 0.1,
    });
    const {model, S} = planeStrain(mesh, stiffOf(slab));
    const request = {part: "symmetric", tied: () => true, transfer: 0, interlock: 0, contact: []} as const;
    const load = wheelLoads(mesh, 2 * HALF, [0], "symmetric");
    const solved = solveDirect(model, S, request, load);
    const sigma = recover(
      model,
      Float64Array.from(model.path, (_, n) => (solved.force[3 * n] * P) / (2 * HALF)),
    );
    const moment = meanBetween(model.path, sigma, 0, h, z => z - h / 2) * h;
    const middle = model.path.findIndex(p => Math.abs(p.z - h / 2) < 1e-9);
    const w0 = (solved.displacement[model.path[middle].W] * P) / (2 * HALF);
    const overPatch = (f: (x: number) => number): number => integral(f, 0, HALF, 2) / HALF;
    compare({
      ...shared,
      name: `infinite, ${name}: w under the load`,
      unit: "mm",
      expected: ((P * b) / (2 * k)) * 1e3,
      computed: w0 * 1e3,
    });
    compare({
      ...shared,
      name: `infinite, ${name}: moment`,
      unit: "kN·m/m",
      expected: ((P / (4 * b)) * overPatch(x => Math.exp(-b * x) * (Math.cos(b * x) - Math.sin(b * x)))) / 1e3,
      computed: moment / 1e3,
    });

    const section = bareSlab(layer("jointed", slab.modulus, slab.poisson, h), 14 / b, k);
    const places = [0, 0.5, 1, 2].map(t => t / b);
    const options = {
      rowSize: h / 6,
      finest: h / 12,
      halved: true,
      tips: [],
      extent: {spacings: 1},
      reach: 2.5 / b,
    } as const;
    const end = planeStrain(buildMesh(section, options), stiffOf(slab));
    const both = (["symmetric", "antisymmetric"] as const).map(part => {
      const loads = wheelLoads(end.model.mesh, 2 * HALF, [HALF], part);
      return solveDirect(end.model, end.S, {...request, part}, loads).displacement;
    });
    const {surface} = end.model.mesh;
    for (const at of places) {
      const n = surface.reduce((best, s, i) => (Math.abs(s.x - at) < Math.abs(surface[best].x - at) ? i : best), 0);
      const x = surface[n].x;
      // The load's centre is HALF from the end; Hetényi: end load and end moment P·HALF.
      const [c, s, e] = [Math.cos(b * x), Math.sin(b * x), Math.exp(-b * x)];
      const expected = ((2 * P * b) / k) * e * c - ((2 * P * HALF * b * b) / k) * e * (c - s);
      const computed = ((both[0][end.model.surface[n]] + both[1][end.model.surface[n]]) * P) / (2 * HALF);
      compare({
        ...shared,
        name: `end load, ${name}: w at βx = ${(b * x).toFixed(2)}`,
        unit: "mm",
        expected: expected * 1e3,
        computed: computed * 1e3,
        tolerance: tolerance * ((2 * P * b) / k) * 1e3, // of the largest
        absolute: true,
      });
    }
  }
}

const ALPHA = 1e-5;
const LONG = 15; // so that friction acts over many depths [m]
/** As the thermal unit cases have it: a slab is free to shorten along y, so in plane strain (1, 0, 1)·α. */
const mean: StrainCase = {strain: k => (k === 0 ? [ALPHA, 0, ALPHA] : null)};
const gradient = (h: number): StrainCase => ({
  strain: (k, z) => (k === 0 ? [ALPHA * (z - h / 2), 0, ALPHA * (z - h / 2)] : null),
});

export function temperature(compare: Compare): void {
  const h = 0.2;
  const slab = beam(0.2, 0.08);
  const {modulus, poisson, support} = slab;
  const L = 5;
  const open = {part: "symmetric", tied: () => false, transfer: 0, interlock: 0, contact: []} as const;
  const options = {rowSize: h / 8, finest: h / 16, halved: false, tips: [], extent: "mid-slab", reach: 0} as const;
  const concrete = layer("jointed", modulus, poisson, h, ALPHA);

  const free = planeStrain(buildMesh(bareSlab(concrete, L, support), options), stiffOf(slab), [mean]);
  const moved = solveDirect(free.model, free.S, open, NONE).displacement;
  const faces = free.model.face.map(({U}) => Number(((-2 * moved[U]) / (ALPHA * L)).toFixed(7)));
  for (const [which, computed] of [
    ["least", Math.min(...faces)],
    ["largest", Math.max(...faces)],
  ] as const) {
    const name = `free slab, +1 K: ${which} movement of the face over αL/2`;
    compare({name, source: "exact", standing: "derived", unit: "–", expected: 1, computed, tolerance: 1.5e-7});
  }

  // Friction: E′h·u″ = s·u, u′(0) = αΔT at the free end, u(L/2) = 0: u(0) = (αΔT/λ)·tanh(λL/2), λ² = s/(E′h).
  for (const lambdaL of [0.5, 2, 6]) {
    const plane = modulus / (1 - poisson ** 2);
    const s = plane * h * (lambdaL / LONG) ** 2;
    const stiffer = layer("foundation", 1e4 * modulus, 0, 0.05);
    const section = bareSlab(concrete, LONG, 0, {layers: [concrete, stiffer], slabFriction: s, base: {kind: "rigid"}});
    const {model, S} = planeStrain(buildMesh(section, options), {...stiffOf(slab, stiffer), bonds: [s, Infinity]}, [
      mean,
    ]);
    const {displacement} = solveDirect(model, S, open, NONE);
    const share = model.face.reduce((sum, n) => sum + n.share, 0);
    const end = model.face.reduce((sum, n) => sum - (n.share * displacement[n.U]) / share, 0);
    compare({
      name: `slab with friction, λL = ${lambdaL}: movement of the face over αL/2`,
      source: "shear lag, derived: tanh(λL/2)/(λL/2), λ² = s/(E′h)",
      standing: "derived",
      unit: "–",
      expected: Math.tanh(lambdaL / 2) / (lambdaL / 2),
      computed: (2 * end) / (ALPHA * LONG),
      tolerance: 0.01,
    });
  }

  // A gradient bends a long slab's end up by κ/(2β²), κ = αg: Hetényi's end moment E′Iκ. Springs hold both ways.
  const b = characteristic(slab);
  const curled = planeStrain(buildMesh(bareSlab(concrete, 20 / b, support), options), stiffOf(slab), [gradient(h)]);
  const lifted = solveDirect(curled.model, curled.S, open, NONE).displacement;
  const corner = curled.model.face[Math.floor(curled.model.face.length / 2)];
  compare({
    name: "long slab, +1 K/m: lift of its end",
    source: "Hetényi 1946: αg/(2β²)",
    standing: "derived",
    unit: "µm",
    expected: (ALPHA / (2 * b * b)) * 1e6,
    computed: -lifted[corner.W] * 1e6,
    tolerance: 0.01,
  });

  // Bradbury's slab: the middle of the slab on x = 0, its free end at L/2.
  const l = (bending(slab) / support) ** 0.25;
  for (const [ratio, C] of BRADBURY) {
    const mesh = wholeMesh({
      x: lines([(ratio * l) / 2], 0.05, 1.3, l / 4),
      z: rows(h),
      springs: true,
      farEnd: "free",
      reach: 0,
    });
    const {model, S} = planeStrain(mesh, stiffOf(slab), [gradient(h)]);
    const {force} = solveDirect(model, S, {...open, tied: () => true}, NONE);
    const sigma = recover(
      model,
      Float64Array.from(model.path, (_, n) => force[3 * n]),
    );
    const stress = (6 * meanBetween(model.path, sigma, 0, h, z => z - h / 2)) / h;
    compare({
      name: `slab of L/l = ${ratio}, gradient: stress amid over E′αΔT/2`,
      source: "Bradbury 1938, C(L/l) along x, none along y",
      standing: "derived",
      unit: "–",
      expected: -C,
      computed: stress / ((modulus / (1 - poisson ** 2)) * ALPHA * h * 0.5),
      tolerance: 0.01,
    });
  }
}

/** L/l and Bradbury's coefficient C = 1 − 2 cos λ cosh λ (tan λ + tanh λ)/(sin 2λ + sinh 2λ), λ = L/(l√8). */
const BRADBURY = [
  [3, 0.181213],
  [4, 0.438472],
  [6, 0.914139],
  [9, 1.08613],
  [12, 1.038625],
] as const;
