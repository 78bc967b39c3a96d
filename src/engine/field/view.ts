/** The view's elements as cells of a picture: which there are, their nodes, and their mirror images at x < 0. */
import type {Mesh} from "../section/index.ts";
import type {FieldView} from "./mesh.ts";

/** Elements of the half model within the view. Cells are numbered row by row, [row][column]. */
export interface HalfView {
  readonly x: Float64Array; // column lines from the joint on [m]
  readonly z: Float64Array; // row lines [m]
  readonly columns: number;
  readonly rows: number;
  readonly cell: Int32Array; // by element of the mesh: its cell; −1 outside the view
  readonly nodes: Int32Array; // [cell][8], local order as in the grid; −1 where there is no element
  readonly nodeX: Float64Array; // [m]
  readonly nodeZ: Float64Array; // [m]
  /** By element of the mesh: the nodes that it is the first to have, as pairs of local number and node. */
  readonly firsts: readonly (Int32Array | null)[];
}

const LOCAL_X = [0, 2, 2, 0, 1, 2, 1, 0]; // in halves of the element
const LOCAL_Z = [0, 0, 2, 2, 0, 1, 2, 1];

export function halfView({grid}: Mesh, view: FieldView): HalfView {
  const within = (lines: Float64Array, end: number): Float64Array => lines.filter(v => v <= end + 1e-9);
  const x = within(grid.x, view.halfWidth);
  const z = within(grid.z, view.depth);
  const columns = x.length - 1;
  const rows = z.length - 1;
  const cell = new Int32Array(grid.elements.length).fill(-1);
  const nodes = new Int32Array(8 * columns * rows).fill(-1);
  const known = new Map<string, number>();
  const nodeX: number[] = [];
  const nodeZ: number[] = [];
  const firsts = grid.elements.map(({column, row, unknowns}, e): Int32Array | null => {
    if (column >= columns || row >= rows) return null;
    cell[e] = row * columns + column;
    const own: number[] = [];
    for (let k = 0; k < 8; k++) {
      const px = x[column] + (LOCAL_X[k] * (x[column + 1] - x[column])) / 2;
      const pz = z[row] + (LOCAL_Z[k] * (z[row + 1] - z[row])) / 2;
      // Two nodes at one place have unknowns of their own, but for a deflection that both share; held ones go by their place.
      const [U, V, W] = unknowns.subarray(3 * k, 3 * k + 3);
      const key = U >= 0 || V >= 0 ? `${U} ${V} ${W}` : `${px} ${pz}`;
      let node = known.get(key);
      if (node === undefined) {
        node = nodeX.length;
        known.set(key, node);
        nodeX.push(px);
        nodeZ.push(pz);
        own.push(k, node);
      }
      nodes[8 * cell[e] + k] = node;
    }
    return Int32Array.from(own);
  });
  return {
    x,
    z,
    columns,
    rows,
    cell,
    nodes,
    nodeX: Float64Array.from(nodeX),
    nodeZ: Float64Array.from(nodeZ),
    firsts,
  };
}

/** Both sides of the joint. Cells [row][column], columns from the left; the mirror image of half column k is columns − 1 − k. */
export interface WholeView {
  readonly x: Float64Array; // column lines, from −halfWidth on [m]
  readonly columns: number;
  readonly layer: Int8Array; // by cell, index into section.layers; −1 in the joint's gap
  /** Corners of the cells: those on the right first, then their mirror images. */
  readonly cornerX: Float64Array; // [m]
  readonly cornerZ: Float64Array; // [m]
  readonly corners: Int32Array; // [cell][upper left, upper right, lower right, lower left]; −1 in the gap
  readonly cornerNode: Int32Array; // by corner on the right: its node of the half view
}

export function wholeView(half: HalfView, layerOfRow: Int32Array): WholeView {
  const {columns: n, rows} = half;
  const columns = 2 * n;
  const layer = new Int8Array(columns * rows).fill(-1);
  const corners = new Int32Array(4 * columns * rows).fill(-1);
  const place = new Int32Array(half.nodeX.length).fill(-1);
  const cornerNode: number[] = [];
  for (let c = 0; c < n * rows; c++) {
    for (let k = 0; k < 4; k++) {
      const node = half.nodes[8 * c + k];
      if (node >= 0 && place[node] < 0) place[node] = cornerNode.push(node) - 1;
    }
  }
  const count = cornerNode.length;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < n; column++) {
      const from = 8 * (row * n + column);
      if (half.nodes[from] < 0) continue;
      const [right, left] = [row * columns + n + column, row * columns + n - 1 - column];
      layer[right] = layerOfRow[row];
      layer[left] = layerOfRow[row];
      for (let k = 0; k < 4; k++) {
        corners[4 * right + k] = place[half.nodes[from + k]];
        corners[4 * left + k] = count + place[half.nodes[from + (k ^ 1)]]; // left and right change places
      }
    }
  }
  const xs = cornerNode.map(node => half.nodeX[node]);
  const zs = cornerNode.map(node => half.nodeZ[node]);
  return {
    x: Float64Array.from(
      [
        ...Array.from(half.x)
          .reverse()
          .map(x => -x),
        ...half.x.subarray(1),
      ],
      x => x + 0,
    ),
    columns,
    layer,
    cornerX: Float64Array.from([...xs, ...xs.map(x => -x)]),
    cornerZ: Float64Array.from([...zs, ...zs]),
    corners,
    cornerNode: Int32Array.from(cornerNode),
  };
}
