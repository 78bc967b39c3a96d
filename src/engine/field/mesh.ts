/** The mesh of the picture: even in the view, finer towards the joint and the tips, as coarse as the engine's elsewhere. */
import {type LineModel, lineModel, modelledSlabs} from "../response/index.ts";
import {buildMesh, interfaceDepths, isPath, type Section, thicknessOf} from "../section/index.ts";

/** What is looked at: |x| ≤ halfWidth, 0 ≤ z ≤ depth. */
export interface FieldView {
  readonly halfWidth: number; // [m]
  readonly depth: number; // [m]
}

export type FieldSize = "usual" | "fine";

/** Longest elements in the view [m], those in the overlay in parts of its thickness, and the smallest at the joint's corner [m]. */
const SIZES = {
  usual: {column: 0.02, slab: 0.03, foundation: 0.05, overlayPart: 1 / 8, overlay: 0.012, finest: 5e-4},
  fine: {column: 0.01, slab: 0.015, foundation: 0.025, overlayPart: 1 / 16, overlay: 0.006, finest: 2.5e-4},
} as const;

/** Lines nearer to another one than this part of the step give way to it [–]. */
const NEAR = 0.4;

export interface FieldMeshRequest {
  readonly view: FieldView;
  readonly size: FieldSize;
  readonly reach: number; // farthest edge of a wheel [m]
  readonly tips: readonly number[]; // depths that must be row lines [m]
}

/** The model, and the view as it became: its edges are lines of the mesh. */
export function fieldModel(
  section: Section,
  {view, size, reach, tips}: FieldMeshRequest,
): {readonly model: LineModel; readonly view: FieldView} {
  const {column, overlay, overlayPart, finest} = SIZES[size];
  const rows = rowLines(section, view.depth, size);
  const columns = columnLines(section, view.halfWidth, column);
  const mesh = buildMesh(section, {
    rowSize: Math.min(overlay, overlayPart * thicknessOf(section.layers, "overlay")),
    finest,
    halved: false,
    tips: [...tips, ...rows, ...rowsUnder(section, rows[rows.length - 1], size)],
    columns,
    reach,
    extent: {spacings: modelledSlabs(section.joint.spacing)},
  });
  return {
    model: lineModel(mesh),
    view: {halfWidth: columns[columns.length - 1], depth: rows[rows.length - 1]},
  };
}

/** Rows of the layers below the crack path, from one fixed depth to the next, the last at the view's lower edge. */
function rowLines(section: Section, depth: number, size: FieldSize): number[] {
  const {layers, joint} = section;
  const depths = interfaceDepths(layers);
  const pathBottom = depths[layers.filter(l => isPath(l.role)).length];
  const slabBottom = depths[layers.filter(l => l.role !== "foundation").length];
  const bottom = depths[layers.length];
  const {slab, foundation} = SIZES[size];
  const cut = Math.min(slabBottom + joint.cutDepth, bottom);
  const fixed = [...depths, cut].sort((p, q) => p - q).filter((z, k, all) => k === 0 || z - all[k - 1] > 1e-9);
  const lowest = Math.max(depth, pathBottom);
  const end = fixed.find(z => Math.abs(z - lowest) < NEAR * slab) ?? Math.min(lowest, bottom);
  const stops = [...fixed.filter(z => z >= pathBottom - 1e-9 && z < end - 1e-9), end];
  const rows: number[] = [stops[0]];
  for (let k = 1; k < stops.length; k++) {
    const [from, to] = [stops[k - 1], stops[k]];
    const step = from < slabBottom - 1e-9 ? slab : foundation;
    const pieces = Math.max(1, Math.ceil((to - from) / step - NEAR));
    for (let p = 1; p <= pieces; p++) rows.push(from + ((to - from) * p) / pieces);
  }
  return rows;
}

/** Rows under the view, each twice as high as the one above. */
function rowsUnder(section: Section, end: number, size: FieldSize): number[] {
  const bottom = interfaceDepths(section.layers)[section.layers.length];
  const rows: number[] = [];
  for (let height = 2 * SIZES[size].foundation, z = end + height; z < bottom - NEAR * height; z += height) {
    rows.push(z);
    height *= 2;
  }
  return rows;
}

function columnLines({joint}: Section, halfWidth: number, step: number): number[] {
  const {width, unbondedStrip, spacing} = joint;
  const pieces = Math.max(1, Math.round(halfWidth / step));
  const others = [width / 2, unbondedStrip, Math.round(halfWidth / spacing) * spacing].filter(x => x > 0);
  const lines = Array.from({length: pieces}, (_, k) => ((k + 1) * halfWidth) / pieces);
  return lines.filter((x, k) => k === pieces - 1 || others.every(o => Math.abs(o - x) > NEAR * step));
}
