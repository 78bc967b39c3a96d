/** Closed forms in plane strain: a column under uniform pressure, and a beam whose forces follow from statics alone. */
import {
  addInside,
  condenseOpen,
  type FieldArrays,
  fieldArrays,
  type HalfView,
  halfView,
  NODAL,
  wholeView,
  writePosition,
} from "../../src/engine/field/index.ts";
import {type LineModel, lineModel, type Stiffnesses, solveDirect, wheelLoads} from "../../src/engine/response/index.ts";
import type {Mesh} from "../../src/engine/section/index.ts";
import {lines, stiffOf, wholeMesh} from "../plates/solve.ts";
import type {Compare} from "../table.ts";

export interface PlaneCase {
  readonly mesh: Mesh;
  readonly stiff: Stiffnesses;
  readonly wheel: {readonly x: number; readonly length: number}; // under unit pressure [m]
  readonly tied: boolean; // the crack path
  readonly transfer: number; // q [Pa/m]
}

/** β = 0, the view being the whole model. */
export function planeField({mesh, stiff, wheel, tied, transfer}: PlaneCase) {
  const {x, z} = mesh.grid;
  const model: LineModel = lineModel(mesh);
  const half: HalfView = halfView(mesh, {halfWidth: x[x.length - 1], depth: z[z.length - 1]});
  const whole = wholeView(half, mesh.layerOfRow);
  const wave = condenseOpen(model, half, stiff, 0);
  const kept = new Float64Array(2 * model.size);
  (["symmetric", "antisymmetric"] as const).forEach((part, k) => {
    if (k === 1 && wheel.x === 0) return; // no such part
    const loads = wheelLoads(mesh, wheel.length, [wheel.x], part);
    const request = {part, tied: () => tied, transfer, interlock: 0, contact: []};
    kept.set(solveDirect(model, wave.S, request, loads).displacement, k * model.size);
  });
  const sums = new Float64Array(half.nodeX.length * NODAL * 2);
  addInside(wave, half, kept, 2, sums);
  const out: FieldArrays = fieldArrays(1, whole);
  writePosition({half, whole, lame: stiff.lame}, sums, 2, {position: 0, symmetric: 0, antisymmetric: 1, side: 1}, out);
  return {...out, x: whole.x, z: half.z, layer: whole.layer};
}

const MODULUS = 1e10;
const POISSON = 0.25;
/** Fields are told in single precision, 6·10⁻⁸ of a value. */
const SINGLE = 1e-5;

export function uniform(compare: Compare): void {
  const mesh = wholeMesh({
    x: lines([0.5], 0.02, 1.5),
    z: lines([0.3], 0.02, 1.5),
    springs: true,
    farEnd: "free",
    reach: 1,
  });
  const stiff = stiffOf({modulus: MODULUS, poisson: POISSON, support: 1e9});
  const field = planeField({mesh, stiff, wheel: {x: 0, length: 1}, tied: true, transfer: 0});
  const expected = {
    stressZz: -1,
    stressXx: 0,
    stressXz: 0,
    strainZz: -(1 - POISSON ** 2) / MODULUS,
    strainXx: (POISSON * (1 + POISSON)) / MODULUS,
    shearXz: 0,
  };
  for (const [name, value] of Object.entries(expected) as [keyof typeof expected, number][]) {
    const scale = name.startsWith("stress") ? 1 : MODULUS;
    const worst = field[name].reduce((most, v) => (Math.abs(v - value) > Math.abs(most - value) ? v : most), value);
    compare({
      name: `column under uniform pressure 1: ${name}, the cell farthest from it${scale > 1 ? ", times E" : ""}`,
      source: "Hooke's law in plane strain, free sides",
      standing: "derived",
      unit: "–",
      expected: value * scale,
      computed: Math.abs(worst * scale) < 1e-9 ? 0 : worst * scale, // rounding differs from machine to machine
      tolerance: SINGLE,
      absolute: true,
    });
  }
}

const HEIGHT = 0.2; // [m]
const HALF = 1; // half of the beam's length [m]
const PATCH = 0.1; // length under unit pressure, in the middle [m]
/** So soft that the reaction is alike all along: k·L⁴/(E′I) is 10⁻³, and so is its unevenness, times a number below 1/50. */
const SUPPORT = 7e3; // [Pa/m]

export function beam(compare: Compare): void {
  const mesh = wholeMesh({
    x: lines([PATCH / 2, HALF], 0.02, 1, 0.02),
    z: lines([HEIGHT], 0.02, 1, 0.02),
    springs: true,
    farEnd: "free",
    reach: 1,
  });
  const stiff = stiffOf({modulus: MODULUS, poisson: POISSON, support: SUPPORT});
  const field = planeField({mesh, stiff, wheel: {x: 0, length: PATCH}, tied: true, transfer: 0});
  const reaction = PATCH / (2 * HALF);
  const columns = field.x.length - 1;
  const inertia = HEIGHT ** 3 / 12;
  for (const at of [-0.6, 0.41, 0.5]) {
    const column = field.x.findLastIndex(v => v <= at);
    const [x0, x1] = [field.x[column], field.x[column + 1]];
    // Beyond the patch: moment of the reaction outside, and shear, means over the column.
    const far = HALF - Math.abs((x0 + x1) / 2);
    const moment = (reaction * (far ** 2 + (x1 - x0) ** 2 / 12)) / 2;
    const shear = -Math.sign(at) * reaction * far;
    for (const row of [0, 2, 5, 9]) {
      const [z0, z1] = [field.z[row], field.z[row + 1]];
      const lever = (z0 + z1) / 2 - HEIGHT / 2;
      const cell = row * columns + column;
      const where = `free beam on an even reaction, x = ${at} m, z = ${((z0 + z1) / 2).toFixed(2)} m`;
      const cube = lever ** 3 + (lever * (z1 - z0) ** 2) / 4; // mean over the cell
      const own = (2 / 3) * cube - (2 / 5) * (HEIGHT / 2) ** 2 * lever; // of an even load, beyond beam theory
      const source = "statics; Timoshenko & Goodier, Theory of Elasticity, beam under an even load (from memory)";
      const shared = {source, standing: "derived", unit: "–", absolute: true} as const;
      const edge = (moment * HEIGHT) / 2 / inertia;
      compare({
        ...shared,
        name: `${where}: σxx by unit pressure`,
        expected: (moment * lever - (reaction * own) / 2) / inertia,
        computed: field.stressXx[cell],
        tolerance: 3e-4 * edge, // the patch is a height and a half away, and the reaction uneven by some 10⁻⁵
      });
      const square = lever ** 2 + (z1 - z0) ** 2 / 12; // mean over the cell
      compare({
        ...shared,
        name: `${where}: τxz by unit pressure`,
        expected: (shear * (HEIGHT ** 2 / 4 - square)) / (2 * inertia),
        computed: field.stressXz[cell],
        tolerance: (0.001 * Math.abs(1.5 * shear)) / HEIGHT,
      });
    }
  }
}
