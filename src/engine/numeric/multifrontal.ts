/**
 * Multifrontal elimination on a nested dissection of a rectangular grid of elements (George 1973; Duff & Reid 1983,
 * doi:10.1145/356044.356047). Unknowns marked as kept are never eliminated: what comes out is the dense Schur
 * complement on them. A plan depends only on which element touches which unknown, so one plan serves every
 * wavenumber, temperature and modulus. Theory: docs/theory/numeric.md.
 */
import {eliminate, type Kernel} from "./kernel.ts";
import {PANEL, packedLength, packedRow} from "./packed.ts";

/** One element (or interface) of the assembly: where it lies on the grid and which unknowns it touches. */
export interface PlanElement {
  readonly column: number;
  readonly row: number;
  readonly unknowns: Int32Array; // −1 where the unknown is held at zero; at most MOST_UNKNOWNS
}

/**
 * Fronts in the order in which they are worked off, children before parents. A front's unknowns are those eliminated in it,
 * then those passed on. Fronts lie on two stacks, by whether their depth in the tree is even or odd: when one is put on
 * its stack its children are the last on the other, and are taken off once they are added in. So nothing is ever moved.
 */
export interface Plan {
  readonly kept: Int32Array; // order of the kept unknowns in the result
  readonly order: Int32Array; // by front, number of unknowns
  readonly eliminated: Int32Array; // by front, how many of them end here
  readonly children: Int32Array; // by front, how many
  readonly stack: Uint8Array; // by front, 0 or 1
  readonly passedOn: Int32Array; // by front, where in `maps` the places of what is passed on, in the parent, begin
  readonly firstElement: Int32Array; // by front and one more, into `elements`
  readonly elements: Int32Array; // assembled at leaves only
  readonly elementMaps: Int32Array; // by entry of `elements` and one more: where in `maps` the places of its unknowns begin
  readonly maps: Int32Array;
  readonly lengths: readonly [number, number]; // of the stacks [doubles]
  readonly flops: number; // multiply–add pairs of the elimination, counted on the lower triangle
}

const LEAF_ELEMENTS = 4;
const MOST_UNKNOWNS = 32;

interface Node {
  readonly first: number; // its elements in the order of the leaves: first … last − 1
  readonly last: number;
  readonly children: readonly Node[];
  readonly depth: number; // 0 at the root
  readonly unknowns: Int32Array; // those that end here, then those passed on
  readonly count: number; // that end here
}

/**
 * @param kept  unknowns to keep, in the order wanted in the result
 */
export function planElimination(elements: readonly PlanElement[], unknownCount: number, kept: Int32Array): Plan {
  const {nodes, order: leafOrder} = dissection(elements, unknownCount, kept);
  const root = nodes[nodes.length - 1];
  const left = root.unknowns.length - root.count;
  if (left !== kept.length) throw new Error(`plan keeps ${left} unknowns, asked for ${kept.length}`);

  const passed = nodes.reduce((sum, n) => sum + n.unknowns.length - n.count, 0);
  const touched = elements.reduce((sum, e) => sum + e.unknowns.length, 0);
  const maps = new Int32Array(passed + touched);
  const passedOn = new Int32Array(nodes.length);
  const firstElement = new Int32Array(nodes.length + 1);
  const elementMaps = new Int32Array(elements.length + 1);
  const number = new Map(nodes.map((n, k) => [n, k]));
  const place = new Int32Array(unknownCount);
  let intoParents = 0;
  let ofElements = passed;
  let entry = 0;
  for (let k = 0; k < nodes.length; k++) {
    const {unknowns, children, first, last} = nodes[k];
    for (let i = 0; i < unknowns.length; i++) place[unknowns[i]] = i;
    // A child's map is written when its parent's unknowns are at hand.
    for (const child of children) {
      passedOn[number.get(child)!] = intoParents;
      for (let i = child.count; i < child.unknowns.length; i++) maps[intoParents++] = place[child.unknowns[i]];
    }
    for (let e = children.length ? last : first; e < last; e++) {
      elementMaps[entry++] = ofElements;
      for (const u of elements[leafOrder[e]].unknowns) maps[ofElements++] = u < 0 ? -1 : place[u];
    }
    firstElement[k + 1] = entry;
  }
  elementMaps[entry] = ofElements;
  const order = Int32Array.from(nodes, n => n.unknowns.length);
  const eliminated = Int32Array.from(nodes, n => n.count);
  const children = Int32Array.from(nodes, n => n.children.length);
  const stack = Uint8Array.from(nodes, n => n.depth % 2);
  return {
    kept,
    order,
    eliminated,
    children,
    passedOn,
    firstElement,
    elements: leafOrder,
    elementMaps,
    maps,
    stack,
    lengths: heights(order, children, stack),
    flops: nodes.reduce((sum, {unknowns: {length: n}, count}) => {
      const triangles = (m: number): number => (m * (m + 1) * (m + 2)) / 6;
      return sum + triangles(n) - triangles(n - count);
    }, 0),
  };
}

/** The tree of parts, each cut across its longer side: children before parents, and the elements in the order of its leaves. */
function dissection(
  elements: readonly PlanElement[],
  unknownCount: number,
  kept: Int32Array,
): {nodes: Node[]; order: Int32Array} {
  const touches = new Int32Array(unknownCount);
  for (const e of elements) for (const u of e.unknowns) if (u >= 0) touches[u]++;
  // Order of elimination, the kept unknowns last: every front lists its unknowns in it, so maps into parents ascend.
  const rank = new Int32Array(unknownCount);
  const ranked = new Int32Array(unknownCount + kept.length); // the unknown of each rank
  const isKept = new Uint8Array(unknownCount);
  kept.forEach((u, k) => {
    rank[u] = unknownCount + k;
    ranked[rank[u]] = u;
    isKept[u] = 1;
  });
  let eliminated = 0;
  const seen = new Int32Array(unknownCount); // touches by elements visited so far
  const firstSeen = new Int32Array(unknownCount); // element at which it was first touched
  const listed = new Int32Array(unknownCount).fill(-1); // last node that listed it
  const order = Int32Array.from(elements, (_, k) => k);
  const nodes: Node[] = [];
  const complete = new Int32Array(unknownCount);
  const rest = new Int32Array(unknownCount);
  const dissect = (first: number, last: number, depth: number): Node => {
    const middle = last - first <= LEAF_ELEMENTS ? last : bisect(elements, order, first, last);
    const children = middle === last ? [] : [dissect(first, middle, depth + 1), dissect(middle, last, depth + 1)];
    const node = nodes.length;
    let ended = 0;
    let passed = 0;
    // Depth first: an unknown all of whose touches have been seen, the first of them here, has them all below this node.
    const put = (u: number): void => {
      if (u < 0 || listed[u] === node) return;
      listed[u] = node;
      if (seen[u] === touches[u] && firstSeen[u] >= first && !isKept[u]) {
        rank[u] = eliminated;
        ranked[eliminated++] = u;
        complete[ended++] = u;
      } else rest[passed++] = u;
    };
    if (!children.length) {
      for (let e = first; e < last; e++)
        for (const u of elements[order[e]].unknowns) if (u >= 0 && seen[u]++ === 0) firstSeen[u] = e;
      for (let e = first; e < last; e++) for (const u of elements[order[e]].unknowns) put(u);
    }
    for (const child of children) for (let i = child.count; i < child.unknowns.length; i++) put(child.unknowns[i]);
    const unknowns = new Int32Array(ended + passed);
    unknowns.set(complete.subarray(0, ended));
    unknowns.set(rest.subarray(0, passed), ended);
    nodes.push({first, last, children, depth, unknowns, count: ended});
    return nodes[node];
  };
  dissect(0, elements.length, 0);
  for (const {unknowns, count} of nodes) {
    const passed = unknowns.subarray(count);
    for (let i = 0; i < passed.length; i++) passed[i] = rank[passed[i]];
    passed.sort();
    for (let i = 0; i < passed.length; i++) passed[i] = ranked[passed[i]];
  }
  return {nodes, order};
}

/** Halves the elements order[first … last − 1] across their longer side, counted in grid lines; returns where the second half begins. */
function bisect(elements: readonly PlanElement[], order: Int32Array, first: number, last: number): number {
  let c0 = Infinity;
  let c1 = -Infinity;
  let r0 = Infinity;
  let r1 = -Infinity;
  for (let e = first; e < last; e++) {
    const {column, row} = elements[order[e]];
    c0 = Math.min(c0, column);
    c1 = Math.max(c1, column);
    r0 = Math.min(r0, row);
    r1 = Math.max(r1, row);
  }
  if (c0 === c1 && r0 === r1) return (first + last) >> 1; // an element with its interfaces: any cut will do
  const byColumn = c1 - c0 >= r1 - r0;
  const cut = byColumn ? (c0 + c1 + 1) >> 1 : (r0 + r1 + 1) >> 1;
  const own = order.slice(first, last);
  const isFirst = (k: number): boolean => (byColumn ? elements[k].column : elements[k].row) < cut;
  const half = own.filter(isFirst);
  order.set(half, first);
  order.set(
    own.filter(k => !isFirst(k)),
    first + half.length,
  );
  return first + half.length;
}

/** Greatest heights of the two stacks. */
function heights(order: Int32Array, children: Int32Array, stack: Uint8Array): [number, number] {
  const top = [0, 0];
  const most: [number, number] = [0, 0];
  const held: number[] = [];
  order.forEach((n, k) => {
    const own = stack[k];
    top[own] += packedLength(n);
    most[own] = Math.max(most[own], top[own]);
    for (let c = 0; c < children[k]; c++) top[1 - own] -= held.pop()!;
    held.push(packedLength(n));
  });
  return most;
}

/**
 * Runs the elimination.
 *
 * @param kernel  its memory is overwritten
 * @param matrix  fills `out` (row-major, order = the element's unknowns, lower triangle suffices) for element k
 * @param S       overwritten with the Schur complement on the kept unknowns, full symmetric, row-major, in the order of
 *                `plan.kept`
 * @param onFront told of each front after its elimination and where in the kernel's memory it lies
 * @throws InputError "domain" when a pivot is not positive: the matrix is not positive definite
 */
export function runElimination(
  plan: Plan,
  kernel: Kernel,
  matrix: (element: number, out: Float64Array) => void,
  S: Float64Array = new Float64Array(plan.kept.length ** 2),
  onFront: (front: number, at: number) => void = () => {},
): Float64Array {
  const {order, eliminated, children, stack, maps} = plan;
  // Memory: one element's matrix, the maps, the two stacks.
  const mapsAt = MOST_UNKNOWNS ** 2;
  const first = mapsAt + 2 * Math.ceil(maps.length / 4); // even: vectors of two
  const top = [first, first + plan.lengths[0]];
  kernel.reserve(top[1] + plan.lengths[1]);
  const {doubles: M, integers} = kernel;
  const map = 2 * mapsAt;
  integers.set(maps, map);
  const element = M.subarray(0, MOST_UNKNOWNS ** 2);

  const done: number[] = []; // fronts whose parent is still to come
  const at = new Float64Array(order.length); // where each lies
  for (let k = 0; k < order.length; k++) {
    const n = order[k];
    const front = top[stack[k]];
    at[k] = front;
    top[stack[k]] += packedLength(n);
    M.fill(0, front, top[stack[k]]);
    for (let c = 0; c < children[k]; c++) {
      const child = done.pop()!;
      kernel.extendAdd(front, at[child], order[child], eliminated[child], map + plan.passedOn[child]);
      top[1 - stack[k]] = at[child];
    }
    for (let e = plan.firstElement[k]; e < plan.firstElement[k + 1]; e++) {
      matrix(plan.elements[e], element);
      const places = plan.elementMaps[e];
      kernel.addElement(front, 0, plan.elementMaps[e + 1] - places, map + places);
    }
    eliminate(kernel, front, n, 0, eliminated[k]);
    onFront(k, front);
    done.push(k);
  }

  const n = plan.kept.length;
  const root = order.length - 1;
  for (let i = 0; i < n; i++) {
    const row = at[root] + packedRow(eliminated[root] + i) + PANEL * eliminated[root];
    for (let j = 0; j <= i; j++) {
      S[i * n + j] = M[row + PANEL * j];
      S[j * n + i] = M[row + PANEL * j];
    }
  }
  return S;
}
