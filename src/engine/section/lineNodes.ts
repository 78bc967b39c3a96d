/** The nodes on the line x = 0 and on the joint's face, in the groups that the response treats differently. */
import {type Grid, SIDE} from "./grid.ts";

/** A node with the part of the line's length that belongs to it (Simpson weights); of the path only the overlay counts. */
export interface LineNode {
  readonly z: number; // [m]
  readonly unknowns: readonly [number, number, number]; // U, V, W; −1 where held or the neighbouring place has it
  readonly share: number; // [m]
}

export interface LinePlaces {
  readonly half: number;
  readonly pathBottom: number;
  readonly slabBottom: number;
  readonly cutBottom: number;
  readonly jointed: (row: number) => boolean;
  readonly interlayer: (row: number) => boolean;
  readonly layerOfRow: Int32Array;
}

/** See Mesh. */
export interface LineNodes {
  readonly path: readonly LineNode[];
  readonly pathLayers: Int32Array;
  readonly face: readonly LineNode[];
  readonly cut: readonly LineNode[];
  readonly below: readonly LineNode[];
}

export function lineNodes(grid: Grid, places: LinePlaces): LineNodes {
  const nodes = new Map<number, {z: number; unknowns: [number, number, number]; share: number}>();
  const faceColumn = places.half > 0 ? grid.x.findIndex(x => Math.abs(x - places.half) < 1e-9) : 0;
  const order: number[] = [];
  for (let row = 0; row < grid.z.length - 1; row++) {
    const element = grid.at(places.jointed(row) ? faceColumn : 0, row)!;
    const dz = grid.z[row + 1] - grid.z[row];
    // The node between two groups has its share in the upper one only: what lies below is not part of that face.
    const onward = row === 0 || places.jointed(row) === places.jointed(row - 1);
    SIDE.left.forEach((node, k) => {
      const unknowns = [0, 1, 2].map(c => element.unknowns[3 * node + c]) as [number, number, number];
      // U and V decide whether a node is new: across a sliding interface two nodes share their W.
      const key = unknowns[0] >= 0 ? unknowns[0] : -1 - row * 3 - k;
      // On the path springs are those of crack faces in the overlay: a soft interlayer's faces do not interlock.
      const share = places.interlayer(row) ? 0 : dz * (k === 1 ? 4 / 6 : 1 / 6);
      const known = nodes.get(key);
      if (known) known.share += onward ? share : 0;
      else {
        nodes.set(key, {z: grid.z[row] + (dz * k) / 2, unknowns, share});
        order.push(key);
      }
    });
  }
  const path: LineNode[] = [];
  const face: LineNode[] = [];
  const cut: LineNode[] = [];
  const below: LineNode[] = [];
  let inFace = places.pathBottom === 0; // a bare jointed layer has no path
  for (const key of order) {
    const node = nodes.get(key)!;
    const tolerance = 1e-9;
    if (node.z < places.pathBottom - tolerance) path.push(node);
    else if (node.z < places.pathBottom + tolerance) {
      // The first node at this depth ends the path; a second one (wide or sliding joint) starts the face.
      if (inFace) face.push(node);
      else path.push(node);
      inFace = true;
    } else if (node.z < places.slabBottom - tolerance) face.push(node);
    else if (node.z < places.slabBottom + tolerance)
      (face.some(n => Math.abs(n.z - places.slabBottom) < tolerance) ? cut : face).push(node);
    else if (node.z < places.cutBottom + tolerance) cut.push(node);
    else below.push(node);
  }
  const rows = grid.z.findIndex(z => Math.abs(z - places.pathBottom) < 1e-9);
  return {...withSharedDeflections(path, places.layerOfRow.subarray(0, rows)), face, cut, below};
}

/** Between the two nodes of an interface that is not fully bonded comes a place for the W that they share. */
function withSharedDeflections(
  nodes: readonly LineNode[],
  layers: Int32Array,
): {path: LineNode[]; pathLayers: Int32Array} {
  const path: LineNode[] = [];
  const pathLayers: number[] = [];
  let element = 0;
  nodes.forEach((node, k) => {
    const before = nodes[k - 1];
    if (before && node.z - before.z < 1e-9) {
      const {z, share, unknowns} = path.pop()!;
      path.push({z, share, unknowns: [unknowns[0], unknowns[1], -1]});
      path.push({z, share: share + node.share, unknowns: [-1, -1, unknowns[2]]});
      path.push({z, share: node.share, unknowns: [node.unknowns[0], node.unknowns[1], -1]});
      pathLayers.push(-1);
    } else path.push(node);
    if (path.length % 2 === 1 && path.length > 1 && path.at(-2)!.z < node.z - 1e-9) pathLayers.push(layers[element++]);
  });
  return {path, pathLayers: Int32Array.from(pathLayers)};
}
