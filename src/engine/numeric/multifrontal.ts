/**
 * Multifrontal elimination on a nested dissection of a rectangular grid of elements (George 1973; Duff & Reid 1983,
 * doi:10.1145/356044.356047). Unknowns marked as kept are never eliminated: what comes out is the dense Schur
 * complement on them. A plan depends only on which element touches which unknown, so one plan serves every
 * wavenumber, temperature and modulus.
 */
import {eliminate} from "./dense.ts";

/** One element (or interface) of the assembly: where it lies on the grid and which unknowns it touches. */
export interface PlanElement {
  readonly column: number;
  readonly row: number;
  readonly unknowns: Int32Array; // −1 where the unknown is held at zero
}

interface Front {
  readonly elements: readonly number[]; // assembled here: leaves only
  readonly children: readonly Front[];
  readonly unknowns: Int32Array; // those eliminated here first, then those passed on
  readonly count: number; // eliminated here
  /** For each child, where its passed-on unknowns stand in this front. */
  readonly maps: readonly Int32Array[];
  /** For each element, where its unknowns stand in this front; −1 where held. */
  readonly elementMaps: readonly Int32Array[];
}

export interface Plan {
  readonly root: Front;
  readonly kept: Int32Array; // order of the kept unknowns in the result
  readonly largestFront: number;
  readonly stackLength: number; // doubles
  readonly flops: number; // multiply–add pairs of the elimination, counted on the lower triangle
}

const LEAF_ELEMENTS = 3;

/**
 * @param kept  unknowns to keep, in the order wanted in the result
 */
export function planElimination(elements: readonly PlanElement[], unknownCount: number, kept: Int32Array): Plan {
  const touches = new Int32Array(unknownCount);
  for (const e of elements) for (const u of e.unknowns) if (u >= 0) touches[u]++;
  const isKept = new Uint8Array(unknownCount);
  for (const u of kept) isKept[u] = 1;

  let largestFront = 0;
  let flops = 0;
  const local = new Int32Array(unknownCount).fill(-1);

  // Counts of touches seen so far travel with the unknowns passed on: an unknown whose count is full is complete.
  const build = (list: number[]): {front: Front; passed: Int32Array; seen: Int32Array} => {
    const seen = new Map<number, number>();
    const children: Front[] = [];
    const passedBy: Int32Array[] = [];
    let own: number[] = [];
    if (list.length <= LEAF_ELEMENTS) {
      own = list;
      for (const e of list) for (const u of elements[e].unknowns) if (u >= 0) seen.set(u, (seen.get(u) ?? 0) + 1);
    } else {
      for (const half of bisect(elements, list)) {
        const child = build(half);
        children.push(child.front);
        passedBy.push(child.passed);
        child.passed.forEach((u, k) => seen.set(u, (seen.get(u) ?? 0) + child.seen[k]));
      }
    }
    const complete: number[] = [];
    const rest: number[] = [];
    for (const [u, n] of seen) (n === touches[u] && !isKept[u] ? complete : rest).push(u);
    const unknowns = Int32Array.from([...complete, ...rest]);
    unknowns.forEach((u, k) => {
      local[u] = k;
    });
    const maps = passedBy.map(passed => passed.map(u => local[u]));
    const elementMaps = own.map(e => elements[e].unknowns.map(u => (u < 0 ? -1 : local[u])));
    for (const u of unknowns) local[u] = -1;
    largestFront = Math.max(largestFront, unknowns.length);
    for (let k = 0; k < complete.length; k++) flops += ((unknowns.length - k) * (unknowns.length - k + 1)) / 2;
    const front = {elements: own, children, unknowns, count: complete.length, maps, elementMaps};
    const passed = unknowns.subarray(complete.length);
    return {front, passed, seen: passed.map(u => seen.get(u)!)};
  };

  const {front: root, passed} = build(elements.map((_, k) => k));
  if (passed.length !== kept.length) throw new Error(`plan keeps ${passed.length} unknowns, asked for ${kept.length}`);
  return {root, kept, largestFront, stackLength: stackNeeded(root), flops};
}

/** Halves a set of elements across its longer side, counted in grid lines. */
function bisect(elements: readonly PlanElement[], list: readonly number[]): [number[], number[]] {
  let c0 = Infinity;
  let c1 = -Infinity;
  let r0 = Infinity;
  let r1 = -Infinity;
  for (const k of list) {
    const {column, row} = elements[k];
    c0 = Math.min(c0, column);
    c1 = Math.max(c1, column);
    r0 = Math.min(r0, row);
    r1 = Math.max(r1, row);
  }
  if (c0 === c1 && r0 === r1) {
    const middle = list.length >> 1; // an element with its interfaces: any cut will do
    return [list.slice(0, middle), list.slice(middle)];
  }
  const byColumn = c1 - c0 >= r1 - r0;
  const cut = byColumn ? (c0 + c1 + 1) >> 1 : (r0 + r1 + 1) >> 1;
  const first: number[] = [];
  const second: number[] = [];
  for (const k of list) ((byColumn ? elements[k].column : elements[k].row) < cut ? first : second).push(k);
  return [first, second];
}

function stackNeeded(front: Front): number {
  let held = 0;
  let most = 0;
  for (const child of front.children) {
    most = Math.max(most, held + stackNeeded(child));
    const m = child.unknowns.length - child.count;
    held += m * m;
  }
  const m = front.unknowns.length - front.count;
  return Math.max(most, held, m * m);
}

/** Scratch of one elimination, to be reused for every wavenumber. */
export interface Workspace {
  readonly front: Float64Array;
  readonly stack: Float64Array;
}

export function workspace(plan: Plan): Workspace {
  return {front: new Float64Array(plan.largestFront ** 2), stack: new Float64Array(plan.stackLength)};
}

/**
 * Runs the elimination.
 *
 * @param matrix  fills `out` (row-major, order = the element's unknowns, lower triangle suffices) for element k
 * @returns the Schur complement on the kept unknowns, full symmetric, row-major, in the order of `plan.kept`
 */
export function runElimination(
  plan: Plan,
  work: Workspace,
  matrix: (element: number, out: Float64Array) => void,
): Float64Array {
  const {front: F, stack} = work;
  let top = 0;
  const element = new Float64Array(32 * 32);

  const visit = (node: Front): void => {
    const base = top;
    for (const child of node.children) visit(child);
    const n = node.unknowns.length;
    F.fill(0, 0, n * n);
    let from = base;
    node.children.forEach((child, c) => {
      const m = child.unknowns.length - child.count;
      extendAdd(F, n, stack, from, m, node.maps[c]);
      from += m * m;
    });
    node.elements.forEach((e, k) => {
      matrix(e, element);
      const map = node.elementMaps[k];
      const m = map.length;
      for (let i = 0; i < m; i++) {
        const I = map[i];
        if (I < 0) continue;
        for (let j = 0; j <= i; j++) {
          const J = map[j];
          if (J >= 0) F[I >= J ? I * n + J : J * n + I] += element[i * m + j];
        }
      }
    });
    eliminate(F, n, node.count);
    const m = n - node.count;
    top = base;
    for (let i = 0; i < m; i++) {
      const row = (node.count + i) * n + node.count;
      for (let j = 0; j <= i; j++) stack[top + i * m + j] = F[row + j];
    }
    top += m * m;
  };
  visit(plan.root);

  const n = plan.kept.length;
  const position = new Map<number, number>();
  plan.root.unknowns.subarray(plan.root.count).forEach((u, k) => {
    position.set(u, k);
  });
  const order = plan.kept.map(u => position.get(u)!);
  const S = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const I = order[i];
      const J = order[j];
      const value = stack[I >= J ? I * n + J : J * n + I];
      S[i * n + j] = value;
      S[j * n + i] = value;
    }
  }
  return S;
}

/** Adds a child's Schur complement (lower triangle, order m, at `from`) into its parent's front. */
function extendAdd(F: Float64Array, n: number, stack: Float64Array, from: number, m: number, map: Int32Array): void {
  for (let i = 0; i < m; i++) {
    const I = map[i];
    const row = from + i * m;
    for (let j = 0; j <= i; j++) {
      const J = map[j];
      F[I >= J ? I * n + J : J * n + I] += stack[row + j];
    }
  }
}
