/**
 * Back-substitution after a multifrontal elimination: from the kept unknowns to those inside. Only the fronts above the
 * elements asked for are kept and worked through. Theory: docs/theory/numeric.md.
 */
import type {Kernel} from "./kernel.ts";
import type {Plan} from "./multifrontal.ts";
import {PANEL, packedRow} from "./packed.ts";

/** Columns of the factor, of the fronts on the way to some elements. */
export interface Factor {
  readonly plan: Plan;
  readonly wanted: Uint8Array; // by front: 1 where an element asked for is in it or below it
  readonly first: Float64Array; // by front, where in `values` its columns begin
  /** Column by column of the unknowns eliminated: the reciprocal of the diagonal, then the rows below it. */
  readonly values: Float64Array;
}

/**
 * An empty factor, with what fills it while `runElimination` runs.
 *
 * @param isWanted  whether the inside of an element will be asked for
 * @param kernel    that of the elimination
 */
export function factorOf(
  plan: Plan,
  kernel: Kernel,
  isWanted: (element: number) => boolean,
): {readonly factor: Factor; readonly onFront: (front: number, at: number) => void} {
  const fronts = plan.order.length;
  const wanted = new Uint8Array(fronts);
  const first = new Float64Array(fronts + 1);
  const done: number[] = [];
  for (let k = 0; k < fronts; k++) {
    for (let e = plan.firstElement[k]; e < plan.firstElement[k + 1]; e++) if (isWanted(plan.elements[e])) wanted[k] = 1;
    for (let c = 0; c < plan.children[k]; c++) if (wanted[done.pop()!]) wanted[k] = 1;
    done.push(k);
    const [n, m] = [plan.order[k], plan.eliminated[k]];
    first[k + 1] = first[k] + (wanted[k] ? m * n - (m * (m - 1)) / 2 : 0);
  }
  const values = new Float64Array(first[fronts]);
  const onFront = (k: number, at: number): void => {
    if (!wanted[k]) return;
    const {doubles: M} = kernel;
    let to = first[k];
    for (let j = 0; j < plan.eliminated[k]; j++)
      for (let i = j; i < plan.order[k]; i++) values[to++] = M[at + packedRow(i) + PANEL * j];
  };
  return {factor: {plan, wanted, first, values}, onFront};
}

/** Right-hand sides that are worked off together. */
const TOGETHER = 4;

/**
 * The unknowns inside, nothing loading them: x₁ = −L₁₁⁻ᵀ·L₂₁ᵀ·x₂, front by front from the root down.
 *
 * @param kept   row-major `count` × plan.kept.length: the kept unknowns of each right-hand side
 * @param visit  told of each element asked for: value `i` of unknown `u` for right-hand side `r` is X[at(u, r)]; not at held unknowns,
 *               where the map is −1
 */
export function backSubstitute(
  {plan, wanted, first, values}: Factor,
  kept: Float64Array,
  count: number,
  visit: (element: number, inside: Inside) => void,
): void {
  const {order, eliminated, children, maps, passedOn} = plan;
  const blocks = Math.ceil(count / TOGETHER);
  const fronts = order.length;
  const size = plan.kept.length;
  const below = childrenOf(plan);
  const held: (Float64Array | null)[] = Array.from({length: fronts}, () => null);
  const root = fronts - 1;
  for (let k = root; k >= 0; k--) {
    if (!wanted[k]) continue;
    const n = order[k];
    const m = eliminated[k];
    const X = held[k] ?? new Float64Array(blocks * n * TOGETHER);
    if (k === root) {
      for (let r = 0; r < count; r++) {
        const at = Math.floor(r / TOGETHER) * n * TOGETHER + (r % TOGETHER);
        for (let i = m; i < n; i++) X[at + i * TOGETHER] = kept[r * size + i - m];
      }
    }
    for (let b = 0; b < blocks; b++) substitute(values, first[k], n, m, X, b * n * TOGETHER);
    held[k] = null;
    for (const child of below[k]) {
      if (!wanted[child]) continue;
      const [own, from] = [order[child], eliminated[child]];
      const Y = new Float64Array(blocks * own * TOGETHER);
      for (let b = 0; b < blocks; b++) {
        for (let i = from, map = passedOn[child]; i < own; i++, map++) {
          const to = (b * own + i) * TOGETHER;
          const at = (b * n + maps[map]) * TOGETHER;
          for (let r = 0; r < TOGETHER; r++) Y[to + r] = X[at + r];
        }
      }
      held[child] = Y;
    }
    if (children[k]) continue;
    for (let e = plan.firstElement[k]; e < plan.firstElement[k + 1]; e++) {
      visit(plan.elements[e], {X, order: n, places: maps.subarray(plan.elementMaps[e], plan.elementMaps[e + 1])});
    }
  }
}

/** Values inside one element, good until the next is told. */
export interface Inside {
  readonly X: Float64Array;
  readonly order: number;
  readonly places: Int32Array; // by unknown of the element; −1 where held at zero
}

/** Where in X an unknown's value for right-hand side r stands; −1 where held. */
export function insideAt({order, places}: Inside, unknown: number, r: number): number {
  const place = places[unknown];
  return place < 0 ? -1 : (Math.floor(r / TOGETHER) * order + place) * TOGETHER + (r % TOGETHER);
}

function childrenOf(plan: Plan): number[][] {
  const done: number[] = [];
  return Array.from(plan.children, (count, k) => {
    const own = count ? done.splice(-count) : [];
    done.push(k);
    return own;
  });
}

/** One front and four right-hand sides: rows m … n − 1 at X are known, those before are overwritten. */
function substitute(L: Float64Array, first: number, n: number, m: number, X: Float64Array, x: number): void {
  let column = first + m * n - (m * (m - 1)) / 2;
  for (let j = m - 1; j >= 0; j--) {
    column -= n - j;
    let c0 = 0;
    let c1 = 0;
    let c2 = 0;
    let c3 = 0;
    let l = (column + 1) | 0; // whole numbers for the compiler
    for (let at = (x + (j + 1) * TOGETHER) | 0, end = (x + n * TOGETHER) | 0; at < end; at = (at + TOGETHER) | 0) {
      const value = L[l];
      l = (l + 1) | 0;
      c0 += value * X[at];
      c1 += value * X[at + 1];
      c2 += value * X[at + 2];
      c3 += value * X[at + 3];
    }
    const diagonal = -L[column];
    const at = x + j * TOGETHER;
    X[at] = diagonal * c0;
    X[at + 1] = diagonal * c1;
    X[at + 2] = diagonal * c2;
    X[at + 3] = diagonal * c3;
  }
}
