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

const LEAF_ELEMENTS = 4;

/**
 * @param kept  unknowns to keep, in the order wanted in the result
 */
export function planElimination(elements: readonly PlanElement[], unknownCount: number, kept: Int32Array): Plan {
  const touches = new Int32Array(unknownCount);
  for (const e of elements) for (const u of e.unknowns) if (u >= 0) touches[u]++;
  // Order of elimination, the kept unknowns last: every front lists its unknowns in it, so maps into parents ascend.
  const rank = new Int32Array(unknownCount).fill(-1);
  kept.forEach((u, k) => {
    rank[u] = unknownCount + k;
  });
  let eliminated = 0;
  let largestFront = 0;
  let flops = 0;
  const local = new Int32Array(unknownCount);
  const seen = new Int32Array(unknownCount); // touches by elements visited so far
  const firstSeen = new Int32Array(unknownCount).fill(-1); // how many had been visited when it was first touched
  let visited = 0;
  const isKept = new Uint8Array(unknownCount);
  for (const u of kept) isKept[u] = 1;

  interface Node {
    readonly elements: readonly number[];
    readonly children: readonly Node[];
    readonly complete: readonly number[];
    readonly rest: readonly number[];
  }
  const dissect = (list: number[]): Node => {
    const start = visited;
    const children = list.length <= LEAF_ELEMENTS ? [] : bisect(elements, list).map(dissect);
    const own = children.length ? [] : list;
    const unknowns = new Set<number>();
    for (const child of children) for (const u of child.rest) unknowns.add(u);
    for (const e of own) {
      for (const u of elements[e].unknowns) {
        if (u < 0) continue;
        if (seen[u]++ === 0) firstSeen[u] = visited;
        unknowns.add(u);
      }
      visited++;
    }
    // Depth first: an unknown all of whose touches have been seen, the first of them here, has them all below this node.
    const complete: number[] = [];
    const rest: number[] = [];
    for (const u of unknowns) (seen[u] === touches[u] && firstSeen[u] >= start && !isKept[u] ? complete : rest).push(u);
    for (const u of complete) rank[u] = eliminated++;
    return {elements: own, children, complete, rest};
  };

  const assemble = (node: Node): Front => {
    const children = node.children.map(assemble);
    const unknowns = Int32Array.from([...node.complete, ...node.rest.toSorted((p, q) => rank[p] - rank[q])]);
    unknowns.forEach((u, k) => {
      local[u] = k;
    });
    const count = node.complete.length;
    const n = unknowns.length;
    largestFront = Math.max(largestFront, n);
    for (let k = 0; k < count; k++) flops += ((n - k) * (n - k + 1)) / 2;
    return {
      elements: node.elements,
      children,
      unknowns,
      count,
      maps: children.map(child => child.unknowns.subarray(child.count).map(u => local[u])),
      elementMaps: node.elements.map(e => elements[e].unknowns.map(u => (u < 0 ? -1 : local[u]))),
    };
  };

  const root = assemble(dissect(elements.map((_, k) => k)));
  const left = root.unknowns.length - root.count;
  if (left !== kept.length) throw new Error(`plan keeps ${left} unknowns, asked for ${kept.length}`);
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
  const S = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      S[i * n + j] = stack[i * n + j];
      S[j * n + i] = stack[i * n + j];
    }
  }
  return S;
}

/** Adds a child's Schur complement (lower triangle, order m, at `from`) into its parent's front; the map ascends. */
function extendAdd(F: Float64Array, n: number, stack: Float64Array, from: number, m: number, map: Int32Array): void {
  for (let i = 0; i < m; i++) {
    const to = map[i] * n;
    const row = from + i * m;
    for (let j = 0; j <= i; j++) F[to + map[j]] += stack[row + j];
  }
}
