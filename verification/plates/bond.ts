/** Layers bonded, sprung and free on each other, against the layered solution: a wheel on an uncut section. */
import {type ElasticLayer, layeredModel} from "../../src/engine/layered/index.ts";
import {
  condense,
  inverseWeights,
  lineModel,
  solveDirect,
  stiffnesses,
  wavenumbers,
  wheelLoads,
} from "../../src/engine/response/index.ts";
import {buildMesh, type Layer, type Section} from "../../src/engine/section/index.ts";
import type {Compare} from "../table.ts";
import {layer} from "./solve.ts";

const SIDE = 0.2; // of the square under unit pressure [m]
const OFFSETS = [0.15, 0.3]; // y, beside the wheel: under it the circles below are not the square [m]
const TOP = 0.06; // thickness of the upper course [m]

/** Two courses and soil; the cut is in the lowest 20 mm of the soil, on the rigid base, where nothing happens. */
function uncut(bonds: readonly [number, number]): Section {
  const courses: Layer[] = [
    {...layer("overlay", 5e9, 0.35, TOP), bondBelow: bonds[0]},
    {...layer("overlay", 9e9, 0.2, 0.15), bondBelow: bonds[1]},
    layer("overlay", 9e7, 0.4, 1.23),
    layer("jointed", 9e7, 0.4, 0.02),
  ];
  return {
    layers: courses,
    joint: {
      spacing: 4,
      width: 0,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0,
    },
    slabFriction: Infinity,
    base: {kind: "rigid"},
    crackInterlock: 0,
    shearWeight: 1,
  };
}

interface Found {
  readonly deflection: readonly number[]; // by offset [m]
  readonly moment: number; // of the upper course across x = 0 at the first offset, about its middle [N]
  readonly force: number; // the same, axial [N/m]
}

/** Deflection of the surface and stress resultants of the upper course; of these only the bonds that leave it a node of its own. */
function elements(section: Section): Found {
  const mesh = buildMesh(section, {
    rowSize: 0.01,
    finest: 0.01,
    halved: false,
    tips: [],
    reach: SIDE,
    extent: {spacings: 1.5},
  });
  const model = lineModel(mesh);
  const waves = wavenumbers(20, 1.5, 100);
  const strip = {centre: 0, width: SIDE, pressure: 1};
  const {even} = inverseWeights(waves, Float64Array.from(OFFSETS), [strip]);
  const moduli = section.layers.map(l => l.material.modulus[0].modulus);
  const deflection = OFFSETS.map(() => 0);
  let [moment, force] = [0, 0];
  const last = model.path.findLastIndex(n => n.z < TOP + 1e-9 && n.U >= 0 && n.W < 0) - 2; // the upper of the two nodes
  waves.beta.forEach((beta, k) => {
    const S = condense(model, stiffnesses(section, {moduli, transfer: 0}), beta);
    const request = {part: "symmetric", tied: () => true, transfer: 0, interlock: 0, contact: []} as const;
    const solved = solveDirect(model, S, request, wheelLoads(mesh, SIDE, [0], "symmetric"));
    OFFSETS.forEach((_, i) => {
      deflection[i] += even[i * waves.beta.length + k] * solved.displacement[model.surface[0]];
    });
    for (let n = 0; n <= last; n++) {
      force += even[k] * solved.force[3 * n];
      moment += even[k] * solved.force[3 * n] * (model.path[n].z - TOP / 2);
    }
  });
  return {deflection, moment, force};
}

/** The same by Hankel integrals, the square made of 6 × 6 circles, stresses integrated by five Gauss points. */
function layered(section: Section): Found {
  const layers = section.layers.map(
    ({material, thickness, bondBelow}): ElasticLayer => ({
      modulus: material.modulus[0].modulus,
      poisson: material.poisson,
      thickness,
      shearSpringBelow: bondBelow ?? Infinity,
    }),
  );
  const n = 6;
  const cell = SIDE / n;
  const loads = Array.from({length: n * n}, (_, k) => ({
    x: ((k % n) + 0.5) * cell - SIDE / 2,
    y: (Math.floor(k / n) + 0.5) * cell - SIDE / 2,
    radius: cell / Math.sqrt(Math.PI),
    pressure: 1,
  }));
  const depths = GAUSS.map(([t]) => (TOP * (1 + t)) / 2);
  const points = [...OFFSETS.map(y => ({x: 0, y, z: 0})), ...depths.map(z => ({x: 0, y: OFFSETS[0], z, layer: 0}))];
  const {points: found} = layeredModel(layers, {kind: "rigid"}).respond(loads, points);
  const stress = found.slice(OFFSETS.length).map(p => p.stress.xx);
  const sum = (lever: (z: number) => number): number =>
    GAUSS.reduce((total, [, w], k) => total + (w * TOP * stress[k] * lever(depths[k])) / 2, 0);
  return {
    deflection: found.slice(0, OFFSETS.length).map(p => p.displacement.z),
    moment: sum(z => z - TOP / 2),
    force: sum(() => 1),
  };
}

const GAUSS = [
  [0, 128 / 225],
  ...[-1, 1].flatMap(s => [
    [(s / 3) * Math.sqrt(5 - 2 * Math.sqrt(10 / 7)), (322 + 13 * Math.sqrt(70)) / 900],
    [(s / 3) * Math.sqrt(5 + 2 * Math.sqrt(10 / 7)), (322 - 13 * Math.sqrt(70)) / 900],
  ]),
] as const;

export function bondCases(compare: Compare): void {
  const cases: readonly (readonly [string, readonly [number, number]])[] = [
    ["full bond", [Infinity, Infinity]],
    ["upper interface 10 MPa/mm", [1e10, Infinity]],
    ["upper interface free", [0, Infinity]],
    ["upper interface free, lower 1 MPa/mm", [0, 1e9]],
    ["both free", [0, 0]],
  ];
  for (const [name, bonds] of cases) {
    const section = uncut(bonds);
    const [found, exact] = [elements(section), layered(section)];
    const shared = {source: "layered solution, shear springs at its interfaces", standing: "derived"} as const;
    OFFSETS.forEach((y, i) => {
      compare({
        ...shared,
        name: `${name}: deflection at y = ${y} m`,
        unit: "m/GPa",
        expected: exact.deflection[i] * 1e9,
        computed: found.deflection[i] * 1e9,
        tolerance: 0.002,
      });
    });
    if (bonds[0] === Infinity) continue; // the courses share a node there, and its force
    const upper = {...shared, expected: exact.moment, computed: found.moment, tolerance: 0.01};
    compare({...upper, name: `${name}: moment of the upper course`, unit: "N/Pa"});
    const axial = {expected: exact.force, computed: found.force, tolerance: bonds[0] > 0 ? 0.01 : 0.03};
    compare({...upper, ...axial, name: `${name}: axial force of the upper course`, unit: "m"});
  }
}
