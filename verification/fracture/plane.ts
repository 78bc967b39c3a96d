/**
 * Cracked bodies in plane strain (and anti-plane strain): layers stacked along the line x = 0 on which the crack runs.
 * Built from the engine's own grid, line model and direct solution, without a pavement around them.
 */
import {
  condense,
  energyReleaseRates,
  type LineModel,
  lame,
  lineModel,
  type Modes,
  type SurfaceLoads,
  solveDirect,
  stressIntensities,
  type Tie,
  type TipPlace,
  tipClosure,
} from "../../src/engine/response/index.ts";
import {buildGrid, type LineNode, SIDE, type SurfaceNode} from "../../src/engine/section/index.ts";

export interface PlaneLayer {
  readonly bottom: number; // z of its lower face
  readonly modulus: number;
  readonly poisson: number;
}

export interface Body {
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly layers: readonly PlaneLayer[];
  /** Components (0 U, 1 V, 2 W) held on the far right and on the bottom. */
  readonly held: {readonly right: readonly number[]; readonly bottom: readonly number[]};
  /** Points (x, z) on grid corners whose U is to be known. */
  readonly probes?: readonly (readonly [number, number])[];
}

export interface Plane {
  readonly body: Body;
  readonly model: LineModel;
  readonly S: Float64Array;
}

export function plane(body: Body): Plane {
  const {x, z, layers, held} = body;
  const grid = buildGrid({
    x,
    z,
    present: () => true,
    acrossColumn: () => "whole",
    acrossRow: () => "whole",
    held: (side, component) => held[side].includes(component),
  });
  const line: LineNode[] = [];
  for (let row = 0; row < z.length - 1; row++) {
    const dz = z[row + 1] - z[row];
    SIDE.left.forEach((node, k) => {
      const share = dz * (k === 1 ? 4 / 6 : 1 / 6);
      const last = line.pop();
      if (last && k > 0) line.push(last);
      const unknowns = [0, 1, 2].map(c => grid.at(0, row)!.unknowns[3 * node + c]) as [number, number, number];
      line.push({z: z[row] + (dz * k) / 2, unknowns, share: share + (last && k === 0 ? last.share : 0)});
    });
  }
  const path = line.filter(n => n.unknowns[0] >= 0);
  // Every kept unknown takes loads: those of the line, then the probes.
  const surface: SurfaceNode[] = path.flatMap(n => n.unknowns.map(unknown => ({x: 0, unknown})));
  for (const [px, pz] of body.probes ?? []) {
    const column = x.findIndex(v => Math.abs(v - px) < 1e-9);
    const row = z.findIndex(v => Math.abs(v - pz) < 1e-9);
    surface.push({x: px, unknown: grid.at(column, row)!.unknowns[0]});
  }
  const layerOfRow = Int32Array.from({length: z.length - 1}, (_, row) =>
    layers.findIndex(l => (z[row] + z[row + 1]) / 2 < l.bottom),
  );
  const pathLayers = layerOfRow;
  const mesh = {grid, layerOfRow, pathLayers, springs: [], path, face: [], cut: [], below: [], surface};
  const model = lineModel({...mesh, pathBottom: path[path.length - 1].z});
  const constants = layers.map(l => lame(l.modulus, l.poisson));
  const S = condense(model, {lame: constants, bonds: [], transfer: 0, base: 0}, 0);
  return {body, model, S};
}

export type Component = "U" | "V" | "W";
const PLACE = {U: 0, V: 1, W: 2} as const;
export const MODE = {U: "I", W: "II", V: "III"} as const;

/**
 * Tractions t(z) on the whole line, pulling the half x ≥ 0 along one component. Where the line is broken they load the
 * faces; where it is whole they add to what the ligament carries, as removing a remote stress would.
 */
export function tractions({model}: Plane, component: Component, t: (z: number) => number): SurfaceLoads {
  const values = new Float64Array(model.surface.length);
  model.path.forEach((node, k) => {
    values[3 * k + PLACE[component]] = t(node.z) * node.share; // Simpson: exact for t linear in an element
  });
  return {count: 1, values};
}

/** The whole line moved by one component: as loads −K·u₀, with displacements then counted from the moved place. */
export function moved({model, S}: Plane, component: Component, u0: number): SurfaceLoads {
  const load = new Float64Array(model.size);
  for (const node of model.path) {
    for (let k = 0; k < model.size; k++) load[k] -= S[k * model.size + node[component]] * u0;
  }
  return {count: 1, values: Float64Array.from(model.surface, place => load[place])};
}

/** Number of the corner node of the line at depth z. */
export function corner({model}: Plane, z: number): number {
  const node = model.path.findIndex((n, k) => k % 2 === 0 && Math.abs(n.z - z) < 1e-9);
  if (node < 0) throw new Error(`no corner node at ${z}`);
  return node;
}

export interface Solved {
  /** Of a node of the line, in the loaded component. */
  force(node: number): number;
  displacement(node: number): number;
  probe(k: number): number;
  /** Stress intensity factors at a tip, magnitudes. */
  intensities(tip: TipPlace): Modes;
}

/** One load, one crack: `tied` tells which nodes of the line are whole. Mode I for U, modes II and III for W and V. */
export function solve(
  p: Plane,
  component: Component,
  loads: SurfaceLoads,
  tied: (node: number) => boolean,
  tie: Tie | null = null,
): Solved {
  const {model, S, body} = p;
  const part = component === "U" ? ("symmetric" as const) : ("antisymmetric" as const);
  const solution = solveDirect(model, S, {part, tied, transfer: 0, interlock: 0, contact: [], tie}, loads);
  return {
    force: node => solution.force[3 * node + PLACE[component]],
    displacement: node => solution.displacement[model.path[node][component]],
    probe: k => solution.displacement[model.surface[3 * model.path.length + k]],
    intensities: tip => {
      const middle = model.path[tip.node + tip.direction].z;
      const elastic = body.layers.find(l => middle < l.bottom)!;
      return stressIntensities(energyReleaseRates(tipClosure(model, solution, 0, tip)), elastic);
    },
  };
}

/** Value at zero element size from a mesh and the one with every element halved, the error being of first order. */
export function extrapolate(coarse: number, fine: number): number {
  return 2 * fine - coarse;
}

export function halve(lines: Float64Array): Float64Array {
  return Float64Array.from({length: 2 * lines.length - 1}, (_, k) =>
    k % 2 ? (lines[(k - 1) / 2] + lines[(k + 1) / 2]) / 2 : lines[k / 2],
  );
}

/** Lines from `from` to `to` whose spacing grows from `first` by a constant ratio near `growth`. */
export function growing(from: number, to: number, first: number, growth: number): number[] {
  const way = Math.abs(to - from) / first;
  const count = Math.max(1, Math.round(Math.log(1 + way * (growth - 1)) / Math.log(growth)));
  const total = (growth ** count - 1) / (growth - 1);
  return Array.from({length: count + 1}, (_, k) => from + ((to - from) * (growth ** k - 1)) / (growth - 1) / total);
}
