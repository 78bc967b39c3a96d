/** Meshes and inverse transforms common to the cases, through the engine's public parts. */

import {solve} from "../../src/engine/numeric/index.ts";
import {
  condense,
  type DirectSolution,
  inverseWeights,
  type LineModel,
  lame,
  lineModel,
  type Stiffnesses,
  type StrainCase,
  solveDirect,
  type Wavenumbers,
  wheelLoads,
} from "../../src/engine/response/index.ts";
import {
  buildGrid,
  gradedLines,
  type InterfaceSpring,
  type Layer,
  type LayerRole,
  type LineNode,
  type Mesh,
  type Section,
  SIDE,
} from "../../src/engine/section/index.ts";

export function layer(role: LayerRole, modulus: number, poisson: number, thickness: number, expansion = 1e-5): Layer {
  const growth = {coefficient: 1, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0};
  const thermal = {expansion, conductivity: 1, density: 2000, heatCapacity: 900};
  const relaxed = modulus;
  const moduli = {
    modulus: [{temperature: 20, modulus}],
    relaxationModulus: relaxed,
    seasonalRelaxationModulus: relaxed,
  };
  const material = {name: role, ...moduli, masterCurve: null, poisson, ...thermal, growth, fatigue: null, source: ""};
  return {name: role, role, material, thickness};
}

/** A jointed slab alone on springs, or whatever else `change` says. */
export function bareSlab(slab: Layer, spacing: number, support: number, change: Partial<Section> = {}): Section {
  return {
    layers: [slab],
    joint: {
      spacing,
      width: 0,
      unbondedStrip: 0,
      transfer: {kind: "spring", stiffness: 0},
      facesTouch: false,
      cutDepth: 0,
    },
    slabFriction: 0,
    base: {kind: "springs", stiffness: support},
    crackInterlock: 0,
    shearWeight: 1,
    ...change,
  };
}

export interface WholeMesh {
  readonly x: Float64Array; // column lines [m]
  readonly z: Float64Array; // row lines [m]
  readonly springs: boolean; // on springs instead of a rigid base
  readonly farEnd: "held" | "free";
  readonly reach: number; // [m]
}

/** A mesh without any joint: all nodes of x = 0 are on the path; those on springs are kept at the bottom as well. */
export function wholeMesh({x, z, springs, farEnd, reach}: WholeMesh): Mesh {
  const grid = buildGrid({
    x,
    z,
    present: () => true,
    acrossColumn: () => "whole",
    acrossRow: () => "whole",
    held: (side, component) =>
      side === "right" ? component === 1 || (component === 0 && farEnd === "held") : !springs,
  });
  const path: LineNode[] = [];
  const last = z.length - 2;
  const three = (k: number, node: number, column: number): LineNode["unknowns"] => {
    const u = grid.at(column, k)!.unknowns;
    return [u[3 * node], u[3 * node + 1], u[3 * node + 2]];
  };
  for (let row = 0; row <= last; row++) {
    const dz = z[row + 1] - z[row];
    SIDE.left.forEach((node, k) => {
      if (row > 0 && k === 0) return;
      if (row === last && k === 2 && !springs) return; // held
      path.push({z: z[row] + (k * dz) / 2, unknowns: three(row, node, 0), share: 0}); // shares serve springs only
    });
  }
  const base: InterfaceSpring[] = [];
  const surface = [];
  for (let column = 0; column < x.length - 1; column++) {
    const {unknowns} = grid.at(column, last)!;
    const length = x[column + 1] - x[column];
    const bottom = Int32Array.from(SIDE.bottom, node => unknowns[3 * node + 2]);
    if (springs) base.push({column, row: last, kind: "base", layer: 0, components: [2], unknowns: bottom, length});
    if (x[column] >= reach) continue;
    for (const [k, node] of SIDE.top.entries()) {
      if (column > 0 && k === 0) continue;
      surface.push({x: x[column] + (k * length) / 2, unknown: grid.at(column, 0)!.unknowns[3 * node + 2]});
    }
  }
  return {
    grid,
    layerOfRow: new Int32Array(z.length - 1),
    springs: base,
    path,
    pathLayers: new Int32Array(z.length - 1),
    face: [],
    cut: [],
    below: [],
    surface,
    pathBottom: z[z.length - 1],
  };
}

/** Lines from 0, `first` long and growing by `growth` each, over `most` at most, through `breaks`. */
export function lines(breaks: readonly number[], first: number, growth: number, most = Infinity): Float64Array {
  return gradedLines([0, ...breaks], [{at: 0, size: first, growth}], () => most);
}

export interface Elastic {
  readonly modulus: number; // [Pa]
  readonly poisson: number;
  readonly support: number; // k [Pa/m]; 0 on a rigid base
}

export interface Wheel {
  readonly x: number; // centre, ≥ 0 [m]
  readonly length: number; // [m]
  readonly width: number; // [m]
  readonly pressure: number; // [Pa]
}

/** One wheel on a whole mesh, transformed to the offsets y: tractions on x = 0, deflections. */
export function solveWhole(mesh: Mesh, elastic: Elastic, wheel: Wheel, waves: Wavenumbers, y: readonly number[]) {
  const model = lineModel(mesh);
  const stiff = stiffOf(elastic);
  const parts = ["symmetric", "antisymmetric"] as const;
  const loads = parts.map(part => wheelLoads(mesh, wheel.length, [wheel.x], part));
  const solutions = parts.map((): DirectSolution[] => []);
  for (const beta of waves.beta) {
    const S = condense(model, stiff, beta);
    parts.forEach((part, k) => {
      const request = {part, tied: () => true, transfer: 0, interlock: 0, contact: []};
      solutions[k].push(solveDirect(model, S, request, loads[k]));
    });
  }
  const strips = [{centre: 0, width: wheel.width, pressure: wheel.pressure}];
  const {even, odd} = inverseWeights(waves, Float64Array.from(y), strips);
  const K = waves.beta.length;
  const at = (i: number, part: 0 | 1, w: Float64Array, value: (s: DirectSolution) => number): number =>
    solutions[part].reduce((sum, s, k) => sum + w[i * K + k] * value(s), 0);
  const tractions = (i: number, component: 0 | 1 | 2): Float64Array =>
    recover(
      model,
      Float64Array.from(model.path, (_, n) =>
        at(i, component === 0 ? 0 : 1, component === 1 ? odd : even, s => s.force[3 * n + component]),
      ),
    );
  return {
    model,
    /** σx, τxy, τxz at the path's nodes for y number i. */
    tractions,
    /** W of path node n (the symmetric part: the antisymmetric one has none on x = 0). */
    pathDeflection: (i: number, n: number) => at(i, 0, even, s => s.displacement[model.path[n].W]),
    surfaceDeflection: (i: number, n: number) =>
      at(i, 0, even, s => s.displacement[model.surface[n]]) + at(i, 1, even, s => s.displacement[model.surface[n]]),
  };
}

/**
 * Tractions at the nodes whose consistent nodal forces are those given: ∫NᵢNⱼ·σⱼ = Fᵢ, quadratic along the line. A held
 * last node has no force of its own: the traction there is left at zero.
 */
export function recover(model: LineModel, force: Float64Array): Float64Array {
  const n = force.length;
  const M = new Float64Array(n * n);
  const mass = [
    [4, 2, -1],
    [2, 16, 2],
    [-1, 2, 4],
  ];
  const {z} = model.mesh.grid;
  for (let row = 0; row < z.length - 1; row++) {
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const [p, q] = [2 * row + i, 2 * row + j];
        if (p < n && q < n) M[p * n + q] += ((z[row + 1] - z[row]) * mass[i][j]) / 30;
      }
    }
  }
  const sigma = force.slice();
  solve(M, n, sigma, 1);
  return sigma;
}

/** Mean of a traction, quadratic in each row, over whole rows. */
export function meanBetween(
  path: LineModel["path"],
  values: Float64Array,
  from: number,
  to: number,
  weight: (z: number) => number = () => 1,
): number {
  let sum = 0;
  for (let k = 0; k + 2 < path.length; k += 2) {
    if (path[k].z < from - 1e-9 || path[k + 2].z > to + 1e-9) continue;
    [1, 4, 1].forEach((w, j) => {
      sum += ((path[k + 2].z - path[k].z) * w * values[k + j] * weight(path[k + j].z)) / 6;
    });
  }
  return sum / (to - from);
}

/** Stiffnesses of a slab on springs, with further layers under it. */
export function stiffOf(
  slab: {readonly modulus: number; readonly poisson: number; readonly support: number},
  ...under: readonly Layer[]
): Stiffnesses {
  const below = under.map(({material}) => lame(material.modulus[0].modulus, material.poisson));
  return {lame: [lame(slab.modulus, slab.poisson), ...below], bonds: [], transfer: 0, base: slab.support};
}

/** Plane strain (β = 0) on any mesh, all surface loads and strain cases at once. */
export function planeStrain(
  mesh: Mesh,
  stiff: Stiffnesses,
  cases: readonly StrainCase[] = [],
): {readonly model: LineModel; readonly S: Float64Array} {
  const model = lineModel(mesh, cases.length);
  return {model, S: condense(model, stiff, 0, cases)};
}
