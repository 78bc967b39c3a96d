/**
 * Everything but the line x = 0 eliminated: the dense stiffness, for one wavenumber, of the nodes on the joint plane, of
 * the joint's face and of the surface where wheels stand. Both symmetry parts and every crack state are served by it.
 * Theory: docs/theory/response.md.
 */
import {type Kernel, type Plan, planElimination, runElimination, threadKernel} from "../numeric/index.ts";
import type {InterfaceSpring, LineNode, Mesh} from "../section/index.ts";
import {elementStiffness, initialStrainLoad, type Lame, sideSpring} from "./element.ts";

export interface LineModel {
  readonly mesh: Mesh;
  readonly plan: Plan;
  readonly kernel: Kernel;
  readonly element: typeof elementStiffness; // another one may be put in its place, to be compared
  /** Place of each group's unknowns among the kept ones; −1 where held, or where another place of the path has them. */
  readonly path: readonly NodePlaces[];
  readonly face: readonly NodePlaces[];
  readonly cut: readonly NodePlaces[];
  readonly below: readonly NodePlaces[];
  readonly surface: Int32Array; // W of the surface nodes
  readonly loads: Int32Array; // places of the initial-strain load cases
  readonly size: number; // kept unknowns and load cases together
}

export interface NodePlaces {
  readonly z: number; // [m]
  readonly share: number; // length of the line that belongs to the node [m]
  readonly U: number;
  readonly V: number;
  readonly W: number;
}

/** Where a node of the path has a component, its W at an interface that is not fully bonded being its neighbour's. */
export function placeOf(path: LineModel["path"], node: number, component: "U" | "V" | "W"): number {
  const own = path[node][component];
  if (own >= 0 || component !== "W") return own;
  return [path[node - 1], path[node + 1]].find(n => n && n.z === path[node].z && n.W >= 0)?.W ?? -1;
}

/** An initial strain over whole layers, for the thermal unit cases (β = 0). */
export interface StrainCase {
  /** Strain (εx, εy, εz) at depth z in the layer, linear in z [–]; null where the layer takes none. */
  strain(layer: number, z: number): readonly [number, number, number] | null;
}

export interface Stiffnesses {
  readonly lame: readonly Lame[]; // by layer
  readonly bonds: readonly number[]; // by layer, to the one below; used where it is not full bond [Pa/m]
  readonly transfer: number; // q, on the neighbouring joints [Pa/m]
  readonly base: number; // vertical [Pa/m]
  readonly baseShear?: number; // horizontal [Pa/m]
}

/**
 * @param cases  number of initial-strain load cases that `condense` will be given
 * @param kernel does the linear algebra; its memory serves one computation at a time
 */
export function lineModel(mesh: Mesh, cases = 0, kernel: Kernel = threadKernel()): LineModel {
  const {grid, springs} = mesh;
  const caseUnknowns = Int32Array.from({length: cases}, (_, k) => grid.unknownCount + k);
  const elements = [
    ...grid.elements.map(e => ({
      ...e,
      unknowns: cases ? Int32Array.from([...e.unknowns, ...caseUnknowns]) : e.unknowns,
    })),
    ...springs.map(({column, row, unknowns}) => ({column, row, unknowns})),
  ];
  const place = new Map<number, number>();
  const keep = (unknown: number): number => {
    if (unknown < 0) return -1;
    const known = place.get(unknown);
    if (known !== undefined) return known;
    place.set(unknown, place.size);
    return place.size - 1;
  };
  const nodes = (list: readonly LineNode[]): NodePlaces[] =>
    list.map(({z, share, unknowns: [U, V, W]}) => ({z, share, U: keep(U), V: keep(V), W: keep(W)}));
  const groups = {path: nodes(mesh.path), face: nodes(mesh.face), cut: nodes(mesh.cut), below: nodes(mesh.below)};
  const surface = Int32Array.from(mesh.surface, s => keep(s.unknown));
  const loads = caseUnknowns.map(keep);
  const plan = planElimination(elements, grid.unknownCount + cases, Int32Array.from(place.keys()));
  return {mesh, plan, kernel, element: elementStiffness, ...groups, surface, loads, size: place.size};
}

/**
 * @param beta   wavenumber β [1/m]; 0 is plane strain
 * @param cases  as many as the model was made for; only with β = 0
 * @param S      overwritten and returned
 * @param onFront see `runElimination`
 * @returns symmetric matrix of order model.size, row-major [N/m per m]; the columns of load cases hold minus the loads
 */
export function condense(
  model: LineModel,
  stiff: Stiffnesses,
  beta: number,
  cases: readonly StrainCase[] = [],
  S: Float64Array = new Float64Array(model.size ** 2),
  onFront?: (front: number, at: number) => void,
): Float64Array {
  const {grid, layerOfRow, springs} = model.mesh;
  const body = new Float64Array(24 * 24);
  const load = new Float64Array(24);
  const n = 24 + cases.length;
  const matrix = (k: number, out: Float64Array): void => {
    if (k >= grid.elements.length) {
      fillSpring(springs[k - grid.elements.length], stiff, out);
      return;
    }
    const {column, row} = grid.elements[k];
    const dx = grid.x[column + 1] - grid.x[column];
    const dz = grid.z[row + 1] - grid.z[row];
    const layer = layerOfRow[row];
    if (!cases.length) {
      model.element(dx, dz, stiff.lame[layer], beta, out);
      return;
    }
    model.element(dx, dz, stiff.lame[layer], beta, body);
    out.fill(0, 0, n * n);
    for (let i = 0; i < 24; i++) for (let j = 0; j < 24; j++) out[i * n + j] = body[24 * i + j];
    cases.forEach((c, q) => {
      const top = c.strain(layer, grid.z[row]);
      const bottom = c.strain(layer, grid.z[row + 1]);
      if (!top || !bottom) return;
      const middle = top.map((t, i) => (t + bottom[i]) / 2) as [number, number, number];
      const change = top.map((t, i) => bottom[i] - t) as [number, number, number];
      initialStrainLoad(dx, dz, stiff.lame[layer], {middle, change}, load);
      for (let i = 0; i < 24; i++) out[(24 + q) * n + i] = -load[i];
    });
  };
  return runElimination(model.plan, model.kernel, matrix, S, onFront);
}

function fillSpring(spring: InterfaceSpring, stiff: Stiffnesses, out: Float64Array): void {
  const stiffness = {
    bond: stiff.bonds[spring.layer],
    "load transfer": stiff.transfer,
    base: stiff.base,
    "base shear": stiff.baseShear ?? 0,
  }[spring.kind];
  sideSpring(stiffness, spring.length, spring.components.length, spring.unknowns.length, out);
}
