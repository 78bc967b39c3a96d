/**
 * A rectangular grid of 8-node elements whose neighbours may be whole, sliding or parted along each shared edge.
 * Unknowns follow from merging the elements' own copies, so every corner where interfaces meet comes out right.
 *
 * Node order in an element: corners 0 (x₀,z₀) 1 (x₁,z₀) 2 (x₁,z₁) 3 (x₀,z₁), midsides 4 top 5 right 6 bottom 7 left.
 * Unknown order: 3·node + component, components 0 U (along x), 1 V (along y), 2 W (down).
 */
import {ln} from "../numeric/index.ts";
export type Contact = "whole" | "sliding" | "parted";

export interface GridRules {
  readonly x: Float64Array; // column lines, ascending [m]
  readonly z: Float64Array; // row lines, ascending downward [m]
  present(column: number, row: number): boolean;
  /** Between (column − 1, row) and (column, row): whole or parted. */
  acrossColumn(column: number, row: number): Contact;
  /** Between (column, row − 1) and (column, row): whole; sliding (W shared); parted. */
  acrossRow(column: number, row: number): Contact;
  /** Whether a component is held at zero on the far right (x last) or the bottom (z last). */
  held(side: "right" | "bottom", component: 0 | 1 | 2): boolean;
}

export interface GridElement {
  readonly column: number;
  readonly row: number;
  readonly unknowns: Int32Array; // 24; −1 where held
}

export interface Grid {
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly elements: readonly GridElement[];
  readonly unknownCount: number;
  at(column: number, row: number): GridElement | null;
}

/** Nodes of an element's sides, in ascending coordinate. */
export const SIDE = {top: [0, 4, 1], right: [1, 5, 2], bottom: [3, 6, 2], left: [0, 7, 3]} as const;

export function buildGrid(rules: GridRules): Grid {
  const columns = rules.x.length - 1;
  const rows = rules.z.length - 1;
  const index = new Int32Array(columns * rows).fill(-1);
  const places: {column: number; row: number}[] = [];
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row < rows; row++) {
      if (!rules.present(column, row)) continue;
      index[column * rows + row] = places.length;
      places.push({column, row});
    }
  }
  const of = (column: number, row: number): number =>
    column < 0 || row < 0 || column >= columns || row >= rows ? -1 : index[column * rows + row];

  const parent = Int32Array.from({length: places.length * 24}, (_, k) => k);
  const find = (k: number): number => {
    while (parent[k] !== k) {
      parent[k] = parent[parent[k]];
      k = parent[k];
    }
    return k;
  };
  const merge = (
    e1: number,
    side1: readonly number[],
    e2: number,
    side2: readonly number[],
    components: readonly number[],
  ) => {
    side1.forEach((node, k) => {
      for (const c of components) parent[find(e1 * 24 + 3 * node + c)] = find(e2 * 24 + 3 * side2[k] + c);
    });
  };
  places.forEach(({column, row}, e) => {
    const left = of(column - 1, row);
    if (left >= 0 && rules.acrossColumn(column, row) === "whole") merge(left, SIDE.right, e, SIDE.left, [0, 1, 2]);
    const above = of(column, row - 1);
    if (above >= 0) {
      const contact = rules.acrossRow(column, row);
      if (contact !== "parted") merge(above, SIDE.bottom, e, SIDE.top, contact === "whole" ? [0, 1, 2] : [2]);
    }
  });

  const number = new Int32Array(parent.length).fill(-2);
  const hold = (e: number, side: readonly number[], where: "right" | "bottom") => {
    for (const c of [0, 1, 2] as const) {
      if (rules.held(where, c)) for (const node of side) number[find(e * 24 + 3 * node + c)] = -1;
    }
  };
  places.forEach(({column, row}, e) => {
    if (column === columns - 1) hold(e, SIDE.right, "right");
    if (row === rows - 1) hold(e, SIDE.bottom, "bottom");
  });
  let unknownCount = 0;
  const elements = places.map(({column, row}, e): GridElement => {
    const unknowns = new Int32Array(24);
    for (let k = 0; k < 24; k++) {
      const representative = find(e * 24 + k);
      if (number[representative] === -2) number[representative] = unknownCount++;
      unknowns[k] = number[representative];
    }
    return {column, row, unknowns};
  });
  return {
    x: rules.x,
    z: rules.z,
    elements,
    unknownCount,
    at: (column, row) => {
      const e = of(column, row);
      return e < 0 ? null : elements[e];
    },
  };
}

/** A place where small elements are wanted: `size` there, growing by `growth` from one element to the next. */
export interface Refinement {
  readonly at: number; // [m]
  readonly size: number; // [m]
  readonly growth: number; // > 1
}

/**
 * Grid lines through all `breaks`, with sizes following the refinements and never above `largest`.
 * Between breaks the lines share out ∫dx/h evenly, so neighbouring sizes differ by about the growth asked for.
 */
export function gradedLines(
  breaks: readonly number[],
  refinements: readonly Refinement[],
  largest: (x: number) => number,
): Float64Array {
  const sorted = [...breaks].sort((p, q) => p - q).filter((p, k, all) => k === 0 || p - all[k - 1] > 1e-9);
  const sizeAt = (x: number): number =>
    refinements.reduce((h, r) => Math.min(h, r.size + ln(r.growth) * Math.abs(x - r.at)), largest(x));
  const lines: number[] = [sorted[0]];
  for (let k = 1; k < sorted.length; k++) {
    const [from, to] = [sorted[k - 1], sorted[k]];
    // ∫dx/h by the trapezoidal rule on a grid that is itself fine where h is small
    const xs: number[] = [from];
    const total: number[] = [0];
    for (let x = from; x < to; ) {
      const step = Math.min(0.1 * Math.min(sizeAt(x), sizeAt(Math.min(to, x + 0.1 * sizeAt(x)))), to - x);
      const next = to - x - step < 1e-3 * step ? to : x + step;
      total.push(total[total.length - 1] + 0.5 * (next - x) * (1 / sizeAt(x) + 1 / sizeAt(next)));
      xs.push(next);
      x = next;
    }
    const sum = total[total.length - 1];
    const pieces = Math.max(1, Math.ceil(sum - 0.05));
    for (let p = 1, i = 0; p < pieces; p++) {
      const target = (sum * p) / pieces;
      while (total[i + 1] < target) i++;
      lines.push(xs[i] + ((xs[i + 1] - xs[i]) * (target - total[i])) / (total[i + 1] - total[i]));
    }
    lines.push(to);
  }
  return Float64Array.from(lines);
}
