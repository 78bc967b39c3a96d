/**
 * One elimination as a file: elements with their matrices, the tree of fronts, right-hand sides, and the result that our
 * own code gets. Programs in other languages read it (openblas/system.h tells the layout).
 */
import {elementStiffness, sideSpring} from "../src/engine/response/element.ts";
import {condense, type LineModel, type Stiffnesses, wheelLoads} from "../src/engine/response/index.ts";

export interface SystemElement {
  readonly column: number; // of the grid
  readonly unknowns: Int32Array; // −1 where held at zero
  readonly matrix: Float64Array; // row-major, the lower triangle
}

/** A front of the tree; maps ascend for children, and say −1 for unknowns held at zero for elements. */
export interface SystemFront {
  readonly order: number;
  readonly count: number; // eliminated here: the first of them
  readonly childMaps: readonly Int32Array[]; // where what the child passes on stands in this front
  readonly elements: readonly {readonly element: number; readonly map: Int32Array}[];
}

export interface System {
  readonly unknownCount: number;
  readonly elements: readonly SystemElement[];
  readonly fronts: readonly SystemFront[]; // children before their parents, in the order of a depth-first walk
  readonly kept: Int32Array; // unknowns never eliminated, in the order of the result
  readonly lineCount: number; // the first of them: the joint plane and the faces; the rest is surface only
  readonly loads: {readonly unknowns: Int32Array; readonly count: number; readonly values: Float64Array};
  readonly result: Float64Array; // Schur complement on `kept`, row-major
}

const WHEEL_LENGTH = 0.2; // [m]
const WHEEL_POSITIONS = 20;

/** @param beta wavenumber β [1/m] */
export function systemOf(model: LineModel, stiff: Stiffnesses, beta: number): System {
  const {kept, fronts} = treeOf(model);
  const line = new Set([model.path, model.face, model.cut, model.below].flat().flatMap(n => [n.U, n.V, n.W]));
  line.delete(-1);
  return {
    unknownCount: model.mesh.grid.unknownCount,
    elements: elementsOf(model, stiff, beta),
    fronts,
    kept,
    lineCount: line.size,
    loads: loadsOf(model),
    result: condense(model, stiff, beta),
  };
}

/** All that is known here of how an elimination plan is stored. */
function treeOf({plan}: LineModel): Pick<System, "kept" | "fronts"> {
  const {order, eliminated, children, passedOn, firstElement, elementMaps, maps} = plan;
  const done: number[] = [];
  const fronts = Array.from(order, (n, k): SystemFront => {
    const own = done.splice(done.length - children[k]);
    done.push(k);
    return {
      order: n,
      count: eliminated[k],
      childMaps: own.map(c => maps.subarray(passedOn[c], passedOn[c] + order[c] - eliminated[c])),
      elements: Array.from({length: firstElement[k + 1] - firstElement[k]}, (_, e) => {
        const entry = firstElement[k] + e;
        return {element: plan.elements[entry], map: maps.subarray(elementMaps[entry], elementMaps[entry + 1])};
      }),
    };
  });
  return {kept: plan.kept, fronts};
}

/** Two operations for each multiply–add on the lower triangle, the pivot's own column included. */
export function flopsOf({fronts}: System): number {
  let flops = 0;
  for (const {order, count} of fronts) for (let k = 0; k < count; k++) flops += (order - k) * (order - k + 1);
  return flops;
}

/** All that is known here of how element matrices are made; in the order that the plan numbers them: elements, springs. */
export function elementsOf({mesh}: LineModel, stiff: Stiffnesses, beta: number): SystemElement[] {
  const {grid, layerOfRow, springs} = mesh;
  const bodies = grid.elements.map(({column, row, unknowns}) => {
    const matrix = new Float64Array(24 * 24);
    const dx = grid.x[column + 1] - grid.x[column];
    const dz = grid.z[row + 1] - grid.z[row];
    elementStiffness(dx, dz, stiff.lame[layerOfRow[row]], beta, matrix);
    return {column, unknowns, matrix};
  });
  const along = {"load transfer": stiff.transfer, base: stiff.base, "base shear": stiff.baseShear ?? 0};
  const sides = springs.map(({column, kind, layer, components, unknowns, length}) => {
    const matrix = new Float64Array(unknowns.length ** 2);
    sideSpring(kind === "bond" ? stiff.bonds[layer] : along[kind], length, components.length, unknowns.length, matrix);
    return {column, unknowns, matrix};
  });
  return [...bodies, ...sides];
}

/** Wheels at even steps over the reach of the mesh, the symmetric half of each, then the antisymmetric halves. */
function loadsOf({mesh}: LineModel): System["loads"] {
  const last = mesh.surface[mesh.surface.length - 1].x - WHEEL_LENGTH / 2;
  const centres = Array.from({length: WHEEL_POSITIONS}, (_, k) => (k * last) / (WHEEL_POSITIONS - 1));
  const values = (["symmetric", "antisymmetric"] as const).flatMap(part => [
    ...wheelLoads(mesh, WHEEL_LENGTH, centres, part).values,
  ]);
  return {
    unknowns: Int32Array.from(mesh.surface, s => s.unknown),
    count: 2 * WHEEL_POSITIONS,
    values: Float64Array.from(values),
  };
}

/** Header and integers as 32 bit, padded to 8 bytes, then 64-bit numbers; byte order of the machine. */
export function encodeSystem(system: System): Uint8Array {
  const {unknownCount, elements, fronts, kept, lineCount, loads, result} = system;
  const integers: number[] = [...kept, ...loads.unknowns];
  for (const {column, unknowns} of elements) integers.push(column, unknowns.length, ...unknowns);
  for (const {order, count, childMaps, elements: own} of fronts) {
    integers.push(order, count, childMaps.length, own.length);
    for (const map of childMaps) integers.push(map.length, ...map);
    for (const {element, map} of own) integers.push(element, ...map);
  }
  const header = [
    unknownCount,
    elements.length,
    fronts.length,
    kept.length,
    lineCount,
    loads.unknowns.length,
    loads.count,
    integers.length,
  ];
  const start = 4 * (header.length + integers.length + (integers.length % 2));
  const doubles = [...elements.map(e => e.matrix), loads.values, result];
  const bytes = new ArrayBuffer(start + 8 * doubles.reduce((sum, d) => sum + d.length, 0));
  new Int32Array(bytes, 0, header.length + integers.length).set([...header, ...integers]);
  let offset = start;
  for (const values of doubles) {
    new Float64Array(bytes, offset, values.length).set(values);
    offset += 8 * values.length;
  }
  return new Uint8Array(bytes);
}
