/** Slabs on springs under a square wheel: inside, at a free edge, at a joint that passes shear. */
import {
  type Condition,
  condense,
  edgeDeflections,
  inverseWeights,
  lineModel,
  solveDirect,
  stiffnesses,
  wavenumbers,
  wheelLoads,
} from "../../src/engine/response/index.ts";
import {buildMesh} from "../../src/engine/section/index.ts";
import type {Compare} from "../table.ts";
import {edge, interior, type Plate, radius} from "./kirchhoff.ts";
import {bareSlab, layer, lines, meanBetween, solveWhole, wholeMesh} from "./solve.ts";

export interface Slab {
  readonly modulus: number; // [Pa]
  readonly poisson: number;
  readonly thickness: number; // [m]
  readonly support: number; // k [Pa/m]
}

export const plateOf = ({modulus, poisson, thickness, support}: Slab): Plate => ({
  rigidity: (modulus * thickness ** 3) / (12 * (1 - poisson ** 2)),
  poisson,
  support,
});

/** Half the side of the square of equal area. */
const halfSide = (circle: number): number => (circle * Math.sqrt(Math.PI)) / 2;

/** Support that makes the radius of relative stiffness l = h/ratio. */
export function slabOf(modulus: number, poisson: number, thickness: number, ratio: number): Slab {
  const {rigidity} = plateOf({modulus, poisson, thickness, support: 1});
  return {modulus, poisson, thickness, support: rigidity / (thickness / ratio) ** 4};
}

/** Deflection at mid-depth and largest bending stress under the middle of unit load on a square. */
export function inside(slab: Slab, a: number): {deflection: number; stress: number} {
  const {thickness: h, support, modulus, poisson} = slab;
  const l = radius(plateOf(slab));
  const first = Math.min(h / 4, a / 4);
  const mesh = wholeMesh({
    x: lines([a, 14 * l], first, 1.4, l / 3),
    z: Float64Array.from([0, 0.1, 0.25, 0.5, 0.75, 0.9, 1], t => t * h),
    springs: true,
    farEnd: "held",
    reach: a + l,
  });
  const wheel = {x: 0, length: 2 * a, width: 2 * a, pressure: 1 / (4 * a * a)};
  const solved = solveWhole(mesh, {modulus, poisson, support}, wheel, wavenumbers(24, 2 * l, 40 / Math.min(h, a)), [0]);
  const sigma = solved.tractions(0, 0);
  const middle = solved.model.path.findIndex(p => Math.abs(p.z - h / 2) < 1e-9);
  // The moment's share of the stress: what a plate theory means by it.
  const moment = meanBetween(solved.model.path, sigma, 0, h, z => z - h / 2) * h;
  return {deflection: solved.pathDeflection(0, middle), stress: (6 * moment) / h ** 2};
}

/** Edge of a bare slab, the wheel's side on it: deflection of the top and bending stress along the edge, per unit load. */
export function atEdge(slab: Slab, a: number): {deflection: number; stress: number} {
  const {thickness: h, support, modulus, poisson} = slab;
  const l = radius(plateOf(slab));
  const section = bareSlab(layer("jointed", modulus, poisson, h), 12 * l, support);
  const options = {rowSize: h / 6, finest: h / 12, halved: false, tips: [], extent: {spacings: 1}, reach: 2 * a + l};
  const mesh = buildMesh(section, options);
  const model = lineModel(mesh);
  const condition: Condition = {moduli: [modulus], transfer: 0};
  const waves = wavenumbers(24, h + 2 * l, 40 / Math.min(h, a));
  const {even} = inverseWeights(waves, Float64Array.of(0), [{centre: 0, width: 2 * a, pressure: 1 / (4 * a * a)}]);
  let deflection = 0;
  let strain = 0;
  waves.beta.forEach((beta, k) => {
    const S = condense(model, stiffnesses(section, condition), beta);
    for (const part of ["symmetric", "antisymmetric"] as const) {
      const request = {part, tied: () => false, transfer: 0, interlock: 0, contact: []};
      const {displacement} = solveDirect(model, S, request, wheelLoads(mesh, 2 * a, [a], part));
      deflection += even[k] * displacement[model.surface[0]];
      strain += even[k] * beta * displacement[model.face[model.face.length - 1].V]; // εy = βV on the free bottom edge
    }
  });
  return {deflection, stress: modulus * strain}; // nothing acts on the edge across it
}

/** λ of a plate with shear. */
const shearOf = ({thickness, poisson}: Slab): number => thickness ** 2 / (5 * (1 - poisson));

export function interiorCases(compare: Compare): void {
  for (const ratio of [0.05, 0.1, 0.2]) {
    const slab = slabOf(30e9, 0.15, 0.2, ratio);
    const a = 0.2 * radius(plateOf(slab));
    const found = inside(slab, a);
    const name = `inside, h/l = ${ratio}, square of half side 0.2 l`;
    // A thin plate leaves out shear, of the order of (h/l)²; a plate with shear only what is local to the patch.
    for (const [theory, shear, tolerance] of [
      ["Kirchhoff plate", 0, 0.002 + 0.5 * ratio ** 2],
      ["plate with shear (Reissner 1945)", shearOf(slab), 0.002 + 0.25 * ratio ** 2],
    ] as const) {
      const exact = interior(plateOf(slab), a, shear);
      const shared = {source: `infinite ${theory}, double Fourier integral`, standing: "derived", tolerance} as const;
      const stress = (6 * exact.moment) / slab.thickness ** 2;
      compare({
        ...shared,
        name: `${name}: deflection`,
        unit: "m/GN",
        expected: exact.deflection * 1e9,
        computed: found.deflection * 1e9,
      });
      compare({...shared, name: `${name}: stress`, unit: "Pa/N", expected: stress, computed: found.stress});
    }
  }
}

/** E = 35 GPa, h = 250 mm, k = 50 MPa/m, ν = 0.15, 40 kN on a circle of radius 150 mm: h/l = 0.254. */
export const SLAB: Slab = {modulus: 35e9, poisson: 0.15, thickness: 0.25, support: 50e6};

export function westergaardCases(compare: Compare): void {
  const [P, a] = [40e3, 0.15];
  const middle = inside(SLAB, halfSide(a));
  const out = atEdge(SLAB, halfSide(a));
  const exact = edge(plateOf(SLAB), halfSide(a), 0);
  const exactInside = interior(plateOf(SLAB), halfSide(a), shearOf(SLAB));
  const cases = [
    ["inside: deflection", "Westergaard 1926", 0.102313, middle.deflection * P * 1e3, 0.04],
    ["inside: stress", "Westergaard 1926, with his equivalent radius b", 0.888654, (middle.stress * P) / 1e6, 0.04],
    [
      "inside: deflection",
      "plate with shear, square",
      exactInside.deflection * P * 1e3,
      middle.deflection * P * 1e3,
      0.01,
    ],
    ["edge: deflection", "Westergaard 1948", 0.312452, out.deflection * P * 1e3, 0.07],
    ["edge: stress", "Westergaard 1948", 1.712372, (out.stress * P) / 1e6, 0.08],
    ["edge: deflection", "Kirchhoff plate, square", exact.loaded * P * 1e3, out.deflection * P * 1e3, 0.05],
    [
      "edge: stress",
      "Kirchhoff plate, square",
      (exact.curvature * SLAB.modulus * SLAB.thickness * P) / 2e6,
      (out.stress * P) / 1e6,
      0.1,
    ],
  ] as const;
  for (const [name, source, expected, computed, tolerance] of cases) {
    const unit = name.endsWith("stress") ? "MPa" : "mm";
    compare({name: `${name}, 40 kN`, source, standing: "derived", unit, expected, computed, tolerance});
  }
  for (const ratio of [0.05, 0.1]) {
    const slab = slabOf(30e9, 0.15, 0.2, ratio);
    const half = 0.2 * radius(plateOf(slab));
    const plate = edge(plateOf(slab), half, 0);
    const found = atEdge(slab, half);
    const shared = {source: "semi-infinite Kirchhoff plate, square at its free edge", standing: "derived"} as const;
    const name = `free edge, h/l = ${ratio}, square of half side 0.2 l`;
    compare({
      ...shared,
      name: `${name}: deflection`,
      unit: "m/MN",
      expected: plate.loaded * 1e6,
      computed: found.deflection * 1e6,
      tolerance: 0.01,
    });
    compare({
      ...shared,
      name: `${name}: stress`,
      unit: "MPa/MN",
      expected: (plate.curvature * slab.modulus * slab.thickness) / 2,
      computed: found.stress,
      tolerance: 0.3 * ratio,
    });
  }
}

/** AGG/(kl), w_l·kl²/P, w_u·kl²/P at a/l = 0.1, ν = 0.15: an independent computation of the same plates. */
const JOINT = [
  [0.1, 0.370436, 0.029812],
  [0.5, 0.31241, 0.087838],
  [1, 0.282534, 0.117714],
  [2, 0.256691, 0.143557],
  [5, 0.232189, 0.168059],
  [10, 0.220317, 0.179931],
  [50, 0.206607, 0.193641],
  [100, 0.204015, 0.196233],
  [1000, 0.200768, 0.19948],
] as const;
const FREE = 0.400248;

export function jointCases(compare: Compare): void {
  const slab = slabOf(35e9, 0.15, 0.1, 0.05);
  const {support: k, thickness: h} = slab;
  const l = radius(plateOf(slab));
  const side = 2 * halfSide(0.1 * l);
  const section = bareSlab(layer("jointed", slab.modulus, slab.poisson, h), 16 * l, k);
  const deflections = edgeDeflections(
    section,
    [slab.modulus],
    {length: side, width: side, pressure: 1 / side ** 2},
    0.01,
  );
  const free = deflections(0);
  const unit = k * l * l;
  const shared = {standing: "derived", unit: "–"} as const;
  const source = "two semi-infinite Kirchhoff plates with a shear spring";
  compare({
    ...shared,
    name: "free edge: w·kl²/P",
    source,
    expected: FREE,
    computed: free.loaded * unit,
    tolerance: 0.01,
  });
  for (const [agg, loaded, unloaded] of JOINT) {
    const name = `AGG/(kl) = ${agg}`;
    const found = deflections((agg * k * l) / h);
    const efficiency = found.unloaded / found.loaded;
    compare({
      ...shared,
      name: `${name}: loaded side w·kl²/P`,
      source,
      expected: loaded,
      computed: found.loaded * unit,
      tolerance: 0.01,
    });
    compare({
      ...shared,
      name: `${name}: load transfer`,
      source,
      expected: unloaded / loaded,
      computed: efficiency,
      tolerance: 0.01,
      absolute: true,
    });
    compare({
      ...shared,
      name: `${name}: both sides together over the free edge`,
      source: "exact: shear only is passed on",
      expected: 1,
      computed: Number(((found.loaded + found.unloaded) / free.loaded).toFixed(9)),
      tolerance: 1e-9,
    });
    const ioannides = 1 / (1 + 10 ** ((0.214 - 0.183 * 0.1 - Math.log10(agg)) / 1.18));
    const fits = {unit: "–", standing: "memory", computed: efficiency, absolute: true} as const;
    compare({
      ...fits,
      name: `${name}: load transfer, fit`,
      source: "Ioannides & Korovesis 1990",
      expected: ioannides,
      tolerance: 0.03,
    });
    compare({
      ...fits,
      name: `${name}: load transfer, fit`,
      source: "Crovetti 1994",
      expected: 1 / (1 + 1.2 * agg ** -0.849),
      tolerance: 0.05,
    });
  }
  const own = edge(plateOf(slab), side / 2, k * l);
  compare({
    ...shared,
    name: "the two reference computations, AGG/(kl) = 1: load transfer",
    source,
    expected: 0.117714 / 0.282534,
    computed: own.unloaded / own.loaded,
    tolerance: 1e-5,
  });
}
