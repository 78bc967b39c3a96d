/**
 * The half model as a general three-dimensional one: the grid of the section extruded along y, one crack state, the
 * symmetric part of one wheel. Brick elements of 20 nodes; y = 0 is a plane of symmetry through the wheel, and so is the
 * plane at the far end of y, too distant to matter.
 */
import {type Mesh, SIDE} from "../../src/engine/section/index.ts";

export interface Wheel {
  readonly centre: number; // [m]
  readonly length: number; // along x [m]
  readonly width: number; // along y [m]
  readonly pressure: number; // [Pa]
}

export interface Solid {
  readonly nodes: Float64Array; // x, y, z by node, z downward [m]
  /** Corners of the near side, of the far side, midsides of either, then the edges between: 20 nodes each. */
  readonly elements: Int32Array;
  readonly layerOf: Int32Array; // by element, index into section.layers
  readonly held: readonly (readonly number[])[]; // nodes at which U, V, W are zero
  readonly loads: Float64Array; // downward, by node [N]
  readonly unknownCount: number;
}

export interface SolidRequest {
  readonly lines: Float64Array; // between slices along y, from 0 [m]
  readonly tied: readonly number[]; // unknowns U of the mesh that the symmetric part holds on x = 0
  readonly wheel: Wheel;
}

/** @throws Error for what bricks with merged nodes cannot hold: sliding interfaces, springs under the base */
export function solidModel(mesh: Mesh, {lines, tied, wheel}: SolidRequest): Solid {
  const plane = planeNodes(mesh);
  const {number, nodes} = extrudedNodes(plane, lines);
  const {grid, layerOfRow} = mesh;
  const elements: number[] = [];
  const layerOf: number[] = [];
  for (let near = 0; near + 2 < number.length; near += 2) {
    grid.elements.forEach(({row}, e) => {
      const on = (line: number, from: number, to: number) =>
        plane.ofElement[e].slice(from, to).map(n => number[line][n]);
      elements.push(...on(near, 0, 4), ...on(near + 2, 0, 4), ...on(near, 4, 8), ...on(near + 2, 4, 8));
      elements.push(...on(near + 1, 0, 4));
      layerOf.push(layerOfRow[row]);
    });
  }
  const held: number[][] = [[], [], []];
  const tiedU = new Set(tied);
  number.forEach((ofLine, line) => {
    const onSymmetry = line === 0 || line === number.length - 1;
    plane.nodes.forEach(({unknowns}, n) => {
      if (ofLine[n] < 0) return;
      const isHeld = [unknowns[0] < 0 || tiedU.has(unknowns[0]), unknowns[1] < 0 || onSymmetry, unknowns[2] < 0];
      for (const c of [0, 1, 2]) if (isHeld[c]) held[c].push(ofLine[n]);
    });
  });
  const loads = new Float64Array(nodes.length / 3);
  for (const face of surfaceFaces(mesh, plane, number)) addWheel(nodes, face, wheel, loads);
  return {
    nodes,
    elements: Int32Array.from(elements),
    layerOf: Int32Array.from(layerOf),
    held,
    loads,
    unknownCount: nodes.length - held.reduce((sum, list) => sum + list.length, 0),
  };
}

interface PlaneNode {
  readonly x: number;
  readonly z: number;
  readonly corner: boolean;
  readonly unknowns: Int32Array; // U, V, W of the mesh; −1 where held
}

interface Plane {
  readonly nodes: readonly PlaneNode[];
  readonly ofElement: readonly (readonly number[])[]; // 8 each, in the grid's order
}

const MIDDLES = [
  [0.5, 0],
  [1, 0.5],
  [0.5, 1],
  [0, 0.5],
];
const PLACES = [[0, 0], [1, 0], [1, 1], [0, 1], ...MIDDLES];

/** Nodes of the grid: copies of a node that share their unknowns are one, those on either side of a parted edge are not. */
function planeNodes({grid, springs}: Mesh): Plane {
  if (springs.some(s => s.kind !== "load transfer")) throw new Error("only full bond and a rigid base can be extruded");
  const known = new Map<string, number>();
  const nodes: PlaneNode[] = [];
  const ofElement = grid.elements.map(({column, row, unknowns}) =>
    PLACES.map(([right, down], k) => {
      const own = unknowns.subarray(3 * k, 3 * k + 3);
      const x = grid.x[column] + right * (grid.x[column + 1] - grid.x[column]);
      const z = grid.z[row] + down * (grid.z[row + 1] - grid.z[row]);
      const key = own[2] >= 0 ? `${own[2]}` : `held ${x} ${z}`;
      const node = known.get(key) ?? nodes.push({x, z, corner: k < 4, unknowns: own}) - 1;
      known.set(key, node);
      if (nodes[node].unknowns[0] !== own[0]) throw new Error("a sliding interface cannot be extruded");
      return node;
    }),
  );
  return {nodes, ofElement};
}

/** Node numbers by line along y (the slices' lines and half way between) and node of the plane; −1 where there is none. */
function extrudedNodes(plane: Plane, lines: Float64Array): {number: Int32Array[]; nodes: Float64Array} {
  const nodes: number[] = [];
  const number = Array.from({length: 2 * lines.length - 1}, (_, line) => {
    const between = line % 2 === 1;
    const y = between ? (lines[(line - 1) / 2] + lines[(line + 1) / 2]) / 2 : lines[line / 2];
    return Int32Array.from(plane.nodes, ({x, z, corner}) => (between && !corner ? -1 : nodes.push(x, y, z) / 3 - 1));
  });
  return {number, nodes: Float64Array.from(nodes)};
}

/** Faces of the surface, 8 nodes each: corners round the face, then midsides. */
function surfaceFaces({grid}: Mesh, plane: Plane, number: readonly Int32Array[]): number[][] {
  const faces: number[][] = [];
  grid.elements.forEach(({row}, e) => {
    if (row > 0) return;
    const [left, middle, right] = SIDE.top.map(k => plane.ofElement[e][k]);
    for (let line = 0; line + 2 < number.length; line += 2) {
      const [near, half, far] = [number[line], number[line + 1], number[line + 2]];
      faces.push([near[left], near[right], far[right], far[left], near[middle], half[right], far[middle], half[left]]);
    }
  });
  return faces;
}

/** Consistent loads of half the pressure (the symmetric part) where the wheel and its mirror image stand on one face. */
function addWheel(nodes: Float64Array, face: readonly number[], wheel: Wheel, loads: Float64Array): void {
  const [x0, y0] = nodes.subarray(3 * face[0]);
  const [x1, y1] = nodes.subarray(3 * face[2]);
  for (const centre of [wheel.centre, -wheel.centre]) {
    const [xFrom, xTo] = [Math.max(x0, centre - wheel.length / 2), Math.min(x1, centre + wheel.length / 2)];
    const [yFrom, yTo] = [y0, Math.min(y1, wheel.width / 2)];
    if (xTo <= xFrom || yTo <= yFrom) continue;
    const share = (wheel.pressure / 2) * ((xTo - xFrom) / 2) * ((yTo - yFrom) / 2);
    const point = 1 / Math.sqrt(3); // two Gauss points a way are exact for quadratic shape functions
    for (const g of [-point, point]) {
      for (const h of [-point, point]) {
        const xi = (xFrom + xTo + g * (xTo - xFrom) - x0 - x1) / (x1 - x0);
        const eta = (yFrom + yTo + h * (yTo - yFrom) - y0 - y1) / (y1 - y0);
        faceShapes(xi, eta).forEach((N, k) => {
          loads[face[k]] += share * N;
        });
      }
    }
  }
}

/** Serendipity shape functions of 8 nodes. */
function faceShapes(xi: number, eta: number): number[] {
  const corner = (a: number, b: number): number => 0.25 * (1 + a * xi) * (1 + b * eta) * (a * xi + b * eta - 1);
  const alongX = (b: number): number => 0.5 * (1 - xi * xi) * (1 + b * eta);
  const alongY = (a: number): number => 0.5 * (1 - eta * eta) * (1 + a * xi);
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1), alongX(-1), alongY(1), alongX(1), alongY(-1)];
}
