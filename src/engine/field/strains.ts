/** Mean strains and stresses of cells, from the sums at their nodes. Theory: docs/theory/field.md. */
import type {Lame} from "../response/index.ts";
import {SIDE} from "../section/index.ts";
import {NODAL} from "./recover.ts";
import type {HalfView, WholeView} from "./view.ts";

/** Fields of every position, [position][cell], [position][corner]. Tension and elongation positive, u to the right, w down. */
export interface FieldArrays {
  readonly strainXx: Float32Array; // [–]
  readonly strainZz: Float32Array; // [–]
  readonly shearXz: Float32Array; // γ, engineering [–]
  readonly stressXx: Float32Array; // [Pa]
  readonly stressZz: Float32Array; // [Pa]
  readonly stressXz: Float32Array; // [Pa]
  readonly largestStrain: Float32Array; // largest principal strain in the plane x, z [–]
  readonly u: Float32Array; // [m]
  readonly w: Float32Array; // [m]
}

export function fieldArrays(positions: number, whole: WholeView): FieldArrays {
  const cells = (): Float32Array => new Float32Array(positions * whole.layer.length);
  const corners = (): Float32Array => new Float32Array(positions * whole.cornerX.length);
  return {
    strainXx: cells(),
    strainZz: cells(),
    shearXz: cells(),
    stressXx: cells(),
    stressZz: cells(),
    stressXz: cells(),
    largestStrain: cells(),
    u: corners(),
    w: corners(),
  };
}

export interface PositionOf {
  readonly position: number; // that is written
  readonly symmetric: number; // right-hand sides of its parts
  readonly antisymmetric: number;
  readonly side: 1 | -1; // −1: the mirror image of what was solved
}

/** Mean over a side of a quadratic, by its three nodes. */
const SIMPSON = [1 / 6, 4 / 6, 1 / 6];
/** Mean over the element of the shape functions: corners, then midsides. */
const MEAN = [-1 / 12, -1 / 12, -1 / 12, -1 / 12, 1 / 3, 1 / 3, 1 / 3, 1 / 3];

/**
 * Writes one position. Symmetric part: u(−x) = −u(x), w(−x) = w(x); antisymmetric part: the opposite.
 *
 * @param sums   [node][U, βV, W][right-hand side], `count` of these
 * @param lame   by layer
 */
export function writePosition(
  {half, whole, lame}: {readonly half: HalfView; readonly whole: WholeView; readonly lame: readonly Lame[]},
  sums: Float64Array,
  count: number,
  {position, symmetric, antisymmetric, side}: PositionOf,
  out: FieldArrays,
): void {
  const strain = [new Float64Array(4), new Float64Array(4)]; // εx, εy, εz, γxz of each part
  const {columns: n, rows, nodes} = half;
  const columns = whole.columns;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < n; column++) {
      const own = nodes.subarray(8 * (row * n + column), 8 * (row * n + column) + 8);
      if (own[0] < 0) continue;
      const dx = half.x[column + 1] - half.x[column];
      const dz = half.z[row + 1] - half.z[row];
      [symmetric, antisymmetric].forEach((r, part) => {
        meanStrain(sums, count, r, own, dx, dz, strain[part]);
      });
      for (const x of [1, -1] as const) {
        // Where the solved model is looked at: its own side or its mirror image.
        const solved = (x * side) as 1 | -1;
        const cell = row * columns + (x > 0 ? n + column : n - 1 - column);
        writeCell(strain, solved, side, lame[whole.layer[cell]], position * whole.layer.length + cell, out);
      }
    }
  }
  const corners = whole.cornerNode.length;
  whole.cornerNode.forEach((node, k) => {
    const value = (c: number, r: number): number => sums[(node * NODAL + c) * count + r];
    const [us, ua] = [value(0, symmetric), value(0, antisymmetric)];
    const [ws, wa] = [value(2, symmetric), value(2, antisymmetric)];
    for (const x of [1, -1] as const) {
      const at = position * 2 * corners + (x > 0 ? k : corners + k);
      // On the solved model's other side u = −us + ua; mirroring turns u about once more.
      const solved = x * side;
      out.u[at] = side * (solved * us + ua);
      out.w[at] = ws + solved * wa;
    }
  });
}

function meanStrain(
  sums: Float64Array,
  count: number,
  r: number,
  own: Int32Array,
  dx: number,
  dz: number,
  out: Float64Array,
): void {
  out.fill(0);
  const at = (local: number, c: number): number => sums[(own[local] * NODAL + c) * count + r];
  for (let k = 0; k < 3; k++) {
    const [left, right, top, bottom] = [SIDE.left[k], SIDE.right[k], SIDE.top[k], SIDE.bottom[k]];
    out[0] += (SIMPSON[k] * (at(right, 0) - at(left, 0))) / dx;
    out[2] += (SIMPSON[k] * (at(bottom, 2) - at(top, 2))) / dz;
    out[3] += SIMPSON[k] * ((at(bottom, 0) - at(top, 0)) / dz + (at(right, 2) - at(left, 2)) / dx);
  }
  for (let local = 0; local < 8; local++) out[1] += MEAN[local] * at(local, 1);
}

/** @param solved  side of the solved model; @param side  −1 turns γxz about, as mirroring does */
function writeCell(
  [s, a]: readonly Float64Array[],
  solved: 1 | -1,
  side: 1 | -1,
  {lambda, mu}: Lame,
  at: number,
  out: FieldArrays,
): void {
  const xx = s[0] + solved * a[0];
  const yy = s[1] + solved * a[1];
  const zz = s[2] + solved * a[2];
  const xz = side * (solved * s[3] + a[3]);
  const volume = lambda * (xx + yy + zz);
  out.strainXx[at] = xx;
  out.strainZz[at] = zz;
  out.shearXz[at] = xz;
  out.stressXx[at] = volume + 2 * mu * xx;
  out.stressZz[at] = volume + 2 * mu * zz;
  out.stressXz[at] = mu * xz;
  out.largestStrain[at] = (xx + zz) / 2 + Math.hypot((xx - zz) / 2, xz / 2);
}
