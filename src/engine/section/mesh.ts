import {InputError} from "../errors.ts";
import {ln} from "../numeric/index.ts";
import {bondBelow} from "./bond.ts";
import {buildGrid, type Grid, type GridElement, gradedLines, type Refinement, SIDE} from "./grid.ts";
import {type LineNode, lineNodes} from "./lineNodes.ts";
import type {Layer, LayerRole, Section} from "./types.ts";

/**
 * Mesh of the half model x ≥ 0: the section cut at the joint plane, out to a far boundary that holds U and V.
 * Theory: docs/theory/section.md.
 */
export interface Mesh {
  readonly grid: Grid;
  readonly layerOfRow: Int32Array; // index into section.layers
  readonly springs: readonly InterfaceSpring[];
  /**
   * Nodes on x = 0 where a crack can run, from the surface down; corners at even places. An interface that is not fully bonded
   * takes three places, all at its depth, as an element without length: the upper layer's node, the W that both
   * layers share, the lower layer's node.
   */
  readonly path: readonly LineNode[];
  readonly pathLayers: Int32Array; // by element of the path, index into section.layers; −1 for one without length
  readonly face: readonly LineNode[]; // nodes on the face of the jointed layers that are not on the path, down
  readonly cut: readonly LineNode[]; // nodes on x = 0 in the cut part of the foundation, down; the last one is whole
  readonly below: readonly LineNode[]; // nodes on x = 0 underneath
  readonly surface: readonly SurfaceNode[]; // nodes of the surface within reach of a wheel
  readonly pathBottom: number; // depth of the path's lower end [m]
}

export interface SurfaceNode {
  readonly x: number; // [m]
  readonly unknown: number; // W
}

/** A spring along one side of an element: between two elements, or to the ground. */
export interface InterfaceSpring {
  readonly column: number;
  readonly row: number;
  readonly kind: "bond" | "load transfer" | "base" | "base shear";
  readonly layer: number; // that the first element is in
  readonly components: readonly (0 | 1 | 2)[];
  readonly unknowns: Int32Array; // [side of the first element (3 nodes × components), the same of the second]; −1 where held
  readonly length: number; // [m]
}

export interface MeshOptions {
  /** Row size in the overlay away from singular points [m]. */
  readonly rowSize: number;
  /** Smallest size at the joint's top corner and in the first column [m]. */
  readonly finest: number;
  /** Smallest column on either side of the first neighbouring joint, where the field is singular too [m]; default: no less than elsewhere. */
  readonly neighbour?: number;
  /**
   * Where the model ends: a number of joint spacings beyond x = 0, or mid-slab for the thermal cases. A beam of one spacing's
   * length, cut in its middle, has a free end instead.
   */
  readonly extent: {readonly spacings: number} | "mid-slab" | "free end";
  /** How far from the joint a wheel may stand [m]; no surface nodes are kept for 0. */
  readonly reach: number;
  /** Depths that must be row lines: where crack tips will stand [m]. */
  readonly tips: readonly number[];
  /** Places that must be column lines [m]; left out: none but those of the section. */
  readonly columns?: readonly number[];
  /**
   * Halve elements: the finer mesh of an extrapolated pair, with the coarse lines in it. `near joints` leaves the columns
   * between a joint and the middle of the slab as they are: nothing is singular there, and their error is of higher order.
   * `twice` halves the halves again, to tell the error of the others.
   */
  readonly halved: boolean | "near joints" | "twice";
}

// Of the coarse mesh; the halved one grows by their square roots.
const COLUMN_GROWTH = 2.5;
const ROW_GROWTH_IN_PATH = 4;
const ROW_GROWTH_BELOW = 6;
// A slab away from where anything is asked for, singular fields need few elements, if small ones: the best of a dozen tried.
const COLUMN_GROWTH_AT_NEIGHBOUR = 30;

const NEAR_JOINT = 0.1; // or the depth of the crack path, whichever is more [m]

export function isPath(role: LayerRole): boolean {
  return role === "overlay" || role === "interlayer";
}

/** Depth of each interface, from the surface (0) to the bottom [m]. */
export function interfaceDepths(layers: readonly Layer[]): Float64Array {
  const z = new Float64Array(layers.length + 1);
  layers.forEach((layer, k) => {
    z[k + 1] = z[k] + layer.thickness;
  });
  return z;
}

/** Thickness of all layers of one role together [m]; 0 when there is none. */
export function thicknessOf(layers: readonly Layer[], role: LayerRole): number {
  return layers.reduce((sum, l) => sum + (l.role === role ? l.thickness : 0), 0);
}

/** @throws InputError "domain" when roles are out of order, no layer is jointed, a bond is out of place, or the cut leaves the model */
export function buildMesh(section: Section, options: MeshOptions): Mesh {
  const {layers, joint} = section;
  requireOrder(layers);
  const depths = interfaceDepths(layers);
  const firstJointed = layers.findIndex(l => l.role === "jointed");
  const afterJointed = firstJointed + layers.filter(l => l.role === "jointed").length;
  const pathBottom = depths[firstJointed];
  const slabBottom = depths[afterJointed];
  const bottom = depths[layers.length];
  const foundation = bottom - slabBottom;
  if (foundation > 0 && joint.cutDepth > foundation + 1e-9) {
    throw new InputError("domain", "joint.cutDepth", joint.cutDepth, `≤ ${foundation}, the foundation [m]`);
  }
  const cutBottom = Math.min(slabBottom + joint.cutDepth, bottom); // without foundation layers there is nothing to cut
  const half = joint.width / 2;

  const softTops = [...depths].filter((_, k) => layers[k]?.role === "interlayer" && layers[k - 1]?.role === "overlay");
  const coarseRows = rowLines({depths, firstJointed, slabBottom, cutBottom, softTops}, options);
  const coarseColumns = columnLines(section, options, half);
  const near = Math.max(NEAR_JOINT, pathBottom);
  const smooth = (from: number, to: number): boolean => from > near - 1e-9 && to < joint.spacing / 2 + 1e-9;
  const {halved} = options;
  const all = (lines: Float64Array): Float64Array => halve(lines, () => false);
  const twice = (lines: Float64Array): Float64Array => (halved === "twice" ? all(all(lines)) : all(lines));
  const z = halved ? twice(coarseRows) : coarseRows;
  const x = halved === "near joints" ? halve(coarseColumns, smooth) : halved ? twice(coarseColumns) : coarseColumns;
  const layerOfRow = Int32Array.from({length: z.length - 1}, (_, row) => {
    const middle = (z[row] + z[row + 1]) / 2;
    return depths.findIndex((d, k) => k > 0 && middle < d) - 1;
  });
  const jointed = (row: number): boolean => layers[layerOfRow[row]].role === "jointed";
  const interlayer = (row: number): boolean => layers[layerOfRow[row]].role === "interlayer";
  const isCut = (row: number): boolean =>
    jointed(row) || (layerOfRow[row] >= afterJointed && z[row + 1] <= cutBottom + 1e-9);
  const neighbours = x.map((_, k) => (k > 0 && k < x.length - 1 && isMultiple(x[k], joint.spacing) ? 1 : 0));
  const strip = Math.max(joint.unbondedStrip, 0);
  const bonds = layers.map((_, k) => bondBelow(section, k));
  const free = options.extent === "free end";
  const rigid = section.base.kind === "rigid";

  const grid = buildGrid({
    x,
    z,
    present: (column, row) => !(jointed(row) && x[column + 1] <= half + 1e-9),
    acrossColumn: (column, row) => (neighbours[column] && isCut(row) ? "parted" : "whole"),
    acrossRow: (column, row) => {
      if (layerOfRow[row] === layerOfRow[row - 1]) return "whole";
      if (bonds[layerOfRow[row - 1]] < Infinity) return "sliding";
      return layerOfRow[row] === firstJointed && x[column + 1] <= strip + 1e-9 ? "sliding" : "whole";
    },
    held: (side, component) => (side === "right" ? component === 1 || (component === 0 && !free) : rigid),
  });

  return {
    grid,
    layerOfRow,
    springs: interfaceSprings(grid, section, {layerOfRow, firstJointed, strip, bonds, neighbours, jointed}),
    ...lineNodes(grid, {half, pathBottom, slabBottom, cutBottom, jointed, interlayer, layerOfRow}),
    surface: surfaceNodes(grid, options.reach),
    pathBottom,
  };
}

function requireOrder(layers: readonly Layer[]): void {
  const rank: Record<LayerRole, number> = {overlay: 0, interlayer: 1, jointed: 2, foundation: 3};
  layers.forEach((layer, k) => {
    if (k > 0 && rank[layer.role] < rank[layers[k - 1].role]) {
      throw new InputError(
        "domain",
        `layers[${k}].role`,
        layer.role,
        "overlay, interlayer, jointed, foundation from the top down",
      );
    }
  });
  if (!layers.some(l => l.role === "jointed"))
    throw new InputError("domain", "layers", "no jointed layer", "at least one");
}

/** A line in the middle of each interval but those to be left whole. */
function halve(lines: Float64Array, whole: (from: number, to: number) => boolean): Float64Array {
  const out = [lines[0]];
  for (let k = 1; k < lines.length; k++) {
    const [from, to] = [lines[k - 1], lines[k]];
    if (!whole(from, to)) out.push((from + to) / 2);
    out.push(to);
  }
  return Float64Array.from(out);
}

function isMultiple(x: number, spacing: number): boolean {
  const k = Math.round(x / spacing);
  return k > 0 && Math.abs(x - k * spacing) < 1e-9;
}

interface RowPlaces {
  readonly depths: Float64Array; // of the interfaces
  readonly firstJointed: number;
  readonly slabBottom: number;
  readonly cutBottom: number;
  readonly softTops: readonly number[]; // where an overlay lies on an interlayer
}

function rowLines(
  {depths, firstJointed, slabBottom, cutBottom, softTops}: RowPlaces,
  options: MeshOptions,
): Float64Array {
  const {rowSize, finest} = options;
  const pathBottom = depths[firstJointed];
  const refinements: Refinement[] = [{at: pathBottom, size: finest, growth: ROW_GROWTH_BELOW}];
  // Tips on interfaces above have singularities of their own. That of a crack restarted above a soft interlayer, whose
  // lower tip is held on the interface, converges slowly.
  for (const z of softTops) refinements.push({at: z, size: Math.max(finest, rowSize / 30), growth: ROW_GROWTH_IN_PATH});
  for (let k = 1; k < firstJointed; k++)
    refinements.push({at: depths[k], size: Math.max(finest, rowSize / 8), growth: ROW_GROWTH_IN_PATH});
  const largest = (z: number): number =>
    z < pathBottom ? Math.min(rowSize, finest + ln(ROW_GROWTH_IN_PATH) * (pathBottom - z)) : Infinity;
  return gradedLines([...depths, slabBottom, cutBottom, ...options.tips], refinements, largest);
}

function columnLines(section: Section, options: MeshOptions, half: number): Float64Array {
  const {spacing, unbondedStrip} = section.joint;
  const far = spacing * (typeof options.extent === "object" ? options.extent.spacings : 0.5);
  const breaks = [0, far, ...(options.columns ?? []).filter(x => x > 0 && x < far)];
  if (half > 0) breaks.push(half);
  if (unbondedStrip > half) breaks.push(unbondedStrip);
  for (let k = 1; k * spacing < far - 1e-9; k++) breaks.push(k * spacing);
  const first = half > 0 ? Math.max(options.finest, options.rowSize / 50) : options.finest;
  const refinements: Refinement[] = [{at: 0, size: first, growth: COLUMN_GROWTH}];
  if (half > 0) refinements.push({at: half, size: first, growth: COLUMN_GROWTH});
  if (unbondedStrip > half) refinements.push({at: unbondedStrip, size: options.rowSize / 4, growth: COLUMN_GROWTH});
  if (options.neighbour !== undefined)
    refinements.push({at: spacing, size: options.neighbour, growth: COLUMN_GROWTH_AT_NEIGHBOUR});
  // Wheels stand on the first metre or two: keep elements there to about a tyre's length, and never longer than a third of a slab.
  return gradedLines(breaks, refinements, x => Math.min(0.1 + 0.4 * Math.max(0, x - 0.5), spacing / 3));
}

interface SpringPlaces {
  readonly layerOfRow: Int32Array;
  readonly firstJointed: number;
  readonly strip: number; // without bond above the first jointed layer [m]
  readonly bonds: readonly number[]; // by layer, below it [Pa/m]
  readonly neighbours: ArrayLike<number>;
  readonly jointed: (row: number) => boolean;
}

function interfaceSprings(grid: Grid, section: Section, places: SpringPlaces): InterfaceSpring[] {
  const springs: InterfaceSpring[] = [];
  const {layerOfRow, firstJointed, strip, bonds, neighbours, jointed} = places;
  const lastRow = grid.z.length - 2;
  for (const e of grid.elements) {
    const {column, row} = e;
    const above = grid.at(column, row - 1);
    const left = grid.at(column - 1, row);
    const dx = grid.x[column + 1] - grid.x[column];
    const dz = grid.z[row + 1] - grid.z[row];
    const layer = layerOfRow[row];
    const upper = row > 0 ? layerOfRow[row - 1] : layer;
    const slips = layer === firstJointed && grid.x[column + 1] <= strip + 1e-9;
    if (above && upper !== layer && bonds[upper] > 0 && bonds[upper] < Infinity && !slips) {
      const unknowns = pair(above, SIDE.bottom, e, SIDE.top, [0, 1]);
      springs.push({column, row, kind: "bond", layer: upper, components: [0, 1], unknowns, length: dx});
    }
    if (left && neighbours[column] && jointed(row)) {
      const unknowns = pair(left, SIDE.right, e, SIDE.left, [2]);
      springs.push({column, row, kind: "load transfer", layer, components: [2], unknowns, length: dz});
    }
    if (row === lastRow && section.base.kind === "springs") {
      const unknowns = pair(e, SIDE.bottom, null, SIDE.top, [2]);
      springs.push({column, row, kind: "base", layer, components: [2], unknowns, length: dx});
      if (section.base.shear) {
        const along = pair(e, SIDE.bottom, null, SIDE.top, [0]);
        springs.push({column, row, kind: "base shear", layer, components: [0], unknowns: along, length: dx});
      }
    }
  }
  return springs;
}

/** Unknowns of both sides of a spring; −1 where the sides have one and the same, as at the upper end of a joint under a bonded layer: no spring acts there. */
function pair(
  first: GridElement,
  side1: readonly number[],
  second: GridElement | null,
  side2: readonly number[],
  components: readonly number[],
): Int32Array {
  const one = side1.flatMap(node => components.map(c => first.unknowns[3 * node + c]));
  const two = second ? side2.flatMap(node => components.map(c => second.unknowns[3 * node + c])) : [];
  const apart = (own: number, other: number | undefined): number => (own === other ? -1 : own);
  return Int32Array.from([...one.map((u, k) => apart(u, two[k])), ...two.map((u, k) => apart(u, one[k]))]);
}

function surfaceNodes(grid: Grid, reach: number): SurfaceNode[] {
  const nodes: SurfaceNode[] = [];
  for (let column = 0; column < grid.x.length - 1 && grid.x[column] < reach; column++) {
    const element = grid.at(column, 0);
    if (!element) continue;
    const dx = grid.x[column + 1] - grid.x[column];
    SIDE.top.forEach((node, k) => {
      if (nodes.length && k === 0) return;
      nodes.push({x: grid.x[column] + (dx * k) / 2, unknown: element.unknowns[3 * node + 2]});
    });
  }
  return nodes;
}
