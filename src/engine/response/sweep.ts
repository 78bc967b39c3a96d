/**
 * Every crack state from one tableau: the three cracks are lengthened in nested loops, releasing nodes by eliminating
 * them, and the matrix is copied where a loop begins anew, in the order in which that loop releases. What is kept of a
 * state is linear in the loads: mean tractions over the process zones ahead of the tips, and mean openings of segments.
 */
import {eliminate, type Kernel, PANEL, packedLength, packedRow} from "../numeric/index.ts";
import type {LineModel} from "./line.ts";
import type {Tableau} from "./parts.ts";
import {type CrackState, type StateSpace, tipElements} from "./states.ts";
import {type Zone, type ZoneRequest, zone} from "./zone.ts";

/** The three tips, in the order of all tables. */
export const TIPS = ["interlayer", "underside", "surface"] as const;
export type Tip = (typeof TIPS)[number];

/** What the zones depend on besides the geometry. */
export interface PathMaterial {
  /** By element of the path, from the surface down. */
  readonly opening: Float64Array; // E' = E/(1−ν²); 0 for an element without length [Pa]
  readonly shear: Float64Array; // G; likewise [Pa]
  readonly zoneLength: Float64Array; // d of the layer's growth law [m]
  readonly layer: Int32Array; // index of the layer
  readonly kind: Int32Array; // equal for neighbouring layers of one material and role, which a zone may span
}

export interface TipZones {
  readonly opening: Zone; // of U
  readonly shear: Zone; // of V
  readonly step: Zone; // of W: the same as for V, but where an interface that is not fully bonded has one W for both layers
  readonly layer: number; // that the tip is in (ahead of it)
  readonly element: number; // of the path, ahead of the tip
}

/**
 * Zones of a state's tips, at one set of moduli; null where there is no such tip (no interlayer, or interlayer through).
 * Many states share a zone: what lies beyond its end does not matter.
 */
export function zonesOf(
  model: LineModel,
  space: StateSpace,
  material: PathMaterial,
): (state: CrackState) => (TipZones | null)[] {
  const {path} = model;
  const hasInterlayer = space.undersideNode < space.mouthNode;
  const known = new Map<string, TipZones>();
  const make = (
    element: number | null,
    direction: 1 | -1,
    front: number,
    brokenBehind: boolean,
    brokenBeyondFront: boolean,
  ): TipZones | null => {
    if (element === null) return null;
    const tip = direction > 0 ? 2 * element : 2 * element + 2;
    const limit = nextInterface(material, element, direction, front);
    const brokenBeyond = brokenBeyondFront && (limit === front || sharedPlace(path, limit) === front);
    const length = material.zoneLength[element];
    const within = Math.abs(path[limit - 2 * direction].z - path[tip].z) >= length; // whole elements short of the limit
    const key = `${tip} ${direction} ${brokenBehind} ${within ? "within" : `${limit} ${brokenBeyond}`}`;
    const request = {tip, direction, length, limit, brokenBehind, brokenBeyond};
    const earlier = known.get(key);
    if (earlier) return earlier;
    const shear = zone(path, {...request, modulus: material.shear});
    const zones = {
      opening: zone(path, {...request, modulus: material.opening}),
      shear,
      step: withSharedDeflection(path, shear, {...request, modulus: material.shear}),
      layer: material.layer[element],
      element,
    };
    known.set(key, zones);
    return zones;
  };
  return state => {
    const underside = space.underside[state.underside];
    const surface = space.surface[state.surface];
    const lowerBroken = state.underside > 0 || (state.through && hasInterlayer);
    const [first, second, third] = tipElements(space, state);
    return [
      make(first, -1, space.undersideNode, state.interlayer > 0, state.underside > 0),
      make(second, -1, surface, lowerBroken, state.surface > 0),
      make(third, 1, underside, state.surface > 0, lowerBroken),
    ];
  };
}

/** The place of the W that a layer's node shares with the other layer's at an interface that is not fully bonded; −1: none. */
function sharedPlace(path: LineModel["path"], node: number): number {
  return [node - 1, node + 1].find(k => path[k] && path[k].U < 0 && path[k].z === path[node].z) ?? -1;
}

/**
 * The same zone for W. At an interface that is not fully bonded both layers' forces come together in one W: the zone's own
 * part is in proportion to modulus, as at a bonded one, and all of it where the other layer is broken.
 */
function withSharedDeflection(path: LineModel["path"], own: Zone, request: ZoneRequest): Zone {
  const {tip, limit, brokenBehind, brokenBeyond, modulus} = request;
  const shared = Array.from(own.nodes, node => sharedPlace(path, node));
  if (shared.every(k => k < 0)) return own;
  const part = (node: number, k: number): number => {
    if ((node === tip && brokenBehind) || (node === limit && brokenBeyond)) return 1;
    const [above, below] = [modulus[(k - 3) / 2], modulus[(k + 1) / 2]]; // k is odd: its own element is (k − 1)/2
    return (node < k ? above : below) / (above + below);
  };
  return {
    length: own.length,
    nodes: own.nodes.map((node, i) => (shared[i] < 0 ? node : shared[i])),
    weights: own.weights.map((w, i) => (shared[i] < 0 ? w : w * part(own.nodes[i], shared[i]))),
  };
}

/** The node where the material of `element` ends in the given direction, or `front` when that comes first. */
function nextInterface(material: PathMaterial, element: number, direction: 1 | -1, front: number): number {
  let e = element;
  while (true) {
    const node = direction > 0 ? 2 * e + 2 : 2 * e;
    const next = e + direction;
    if (node === front || next < 0 || next >= material.layer.length || material.kind[next] !== material.kind[e])
      return node;
    e = next;
  }
}

/** Σ weights·force over ties of the path. */
export interface Combination {
  readonly unknowns: Int32Array; // as the tableau numbers them
  readonly weights: Float64Array;
}

/** ⟨σx⟩ at the tips, from the symmetric part. */
export function openingCombinations(zones: readonly (TipZones | null)[]): (Combination | null)[] {
  return zones.map(z => z && {unknowns: z.opening.nodes, weights: z.opening.weights});
}

/** ⟨τxz⟩ at the tips, then ⟨τxy⟩, from the antisymmetric part. */
export function shearCombinations(zones: readonly (TipZones | null)[]): (Combination | null)[] {
  return [
    ...zones.map(z => z && {unknowns: z.step.nodes.map(node => 2 * node + 1), weights: z.step.weights}),
    ...zones.map(z => z && {unknowns: z.shear.nodes.map(node => 2 * node), weights: z.shear.weights}),
  ];
}

/**
 * Walks all states.
 *
 * @param kernel   its memory is overwritten
 * @param perNode  unknowns a path node: 1 (symmetric) or 2 (antisymmetric)
 * @param wanted   by state, combinations of forces that ties carry; null for none
 * @param visit    called with the number of the state and, row-major by load, the combinations and the mean openings of the
 *                 segments; the array is used again, and the kernel is busy until the sweep ends
 * @throws InputError "domain" when the matrix is not positive definite
 */
export function sweepStates(
  kernel: Kernel,
  space: StateSpace,
  tableau: Tableau,
  perNode: 1 | 2,
  wanted: (state: number) => readonly (Combination | null)[],
  visit: (state: number, values: Float64Array) => void,
): void {
  const {unknowns, loads, packed} = tableau;
  const size = unknowns + loads;
  const fronts = 2 * Math.ceil(size / 4); // behind the order of the front being gathered
  const step = packedLength(size);
  kernel.reserve(fronts + 4 * step);
  kernel.doubles.set(packed, fronts);
  const given: Front = {at: fronts, order: size, place: new Int32Array(size).map((_, k) => k), gone: 0};
  const gather = (from: Front, level: number, order: readonly number[]): Front => {
    const place = new Int32Array(size).fill(-1);
    const count = order.length + loads;
    for (let k = 0; k < count; k++) {
      const unknown = k < order.length ? order[k] : unknowns + k - order.length;
      place[unknown] = k;
      kernel.integers[k] = from.place[unknown];
    }
    const at = fronts + level * step;
    kernel.gather(at, from.at, count, 0);
    return {at, order: count, place, gone: 0};
  };
  const release = (front: Front, nodes: number): void => {
    const end = front.gone + nodes * perNode;
    eliminate(kernel, front.at, front.order, front.gone, end);
    front.gone = end;
  };
  /** Unknowns of the nodes from one to another, both of them, in either direction. */
  const between = (from: number, to: number): number[] => {
    const all: number[] = [];
    const step = to < from ? -1 : 1;
    for (let node = from; node !== to + step; node += step) {
      for (let component = 0; component < perNode; component++) all.push(perNode * node + component);
    }
    return all;
  };
  const read = reader(kernel, tableau);

  const {interlayer, underside, surface, undersideNode, mouthNode} = space;
  const outer = gather(given, 1, between(mouthNode, 0));
  for (let a = 0; a < interlayer.length; a++) {
    if (a > 0) release(outer, interlayer[a - 1] - interlayer[a]);
    const through = a === interlayer.length - 1;
    // A restarted crack leaves the node on the interface whole: its lower tip is there. Of the interlayer's ties only
    // those in the process zone of its own tip are asked for.
    const top = through ? undersideNode : undersideNode - 1;
    const below = asked(space, wanted, a, (top + 1) * perNode);
    const middle = gather(outer, 2, [...between(top, 0), ...below]);
    let lowest = top; // tied
    for (let b = 0; b < underside.length; b++) {
      if (underside[b] < lowest) {
        release(middle, lowest - underside[b]);
        lowest = underside[b];
      }
      const inner = gather(middle, 3, [...between(0, lowest), ...below]);
      for (let c = 0; c < surface.length; c++) {
        const state = space.index(a, b, c);
        if (state < 0) break;
        if (c > 0) release(inner, surface[c] - surface[c - 1]);
        visit(state, read(inner, wanted(state)));
      }
    }
  }
}

/** A packed matrix in the kernel's memory. */
interface Front {
  readonly at: number;
  readonly order: number;
  readonly place: Int32Array; // of the tableau's unknowns and loads; −1 where dropped
  gone: number; // unknowns released so far, the first ones
}

/** Unknowns from `first` on that any state of one interlayer length asks for, ascending. */
function asked(
  space: StateSpace,
  wanted: (state: number) => readonly (Combination | null)[],
  interlayer: number,
  first: number,
): number[] {
  const found = new Set<number>();
  space.states.forEach((s, state) => {
    if (s.interlayer !== interlayer) return;
    for (const combination of wanted(state)) {
      if (!combination) continue;
      const {unknowns} = combination;
      for (let i = 0; i < unknowns.length; i++) if (unknowns[i] >= first) found.add(unknowns[i]);
    }
  });
  return [...found].sort((p, q) => p - q);
}

/** What a visitor is given: minus sums over columns of the load rows, see Tableau. */
function reader(
  {doubles: M}: Kernel,
  {unknowns, loads, segmentLengths}: Tableau,
): (front: Front, combinations: readonly (Combination | null)[]) => Float64Array {
  const segments = segmentLengths.length;
  const rows = new Int32Array(loads);
  let values = new Float64Array(0);
  return ({at, place}, combinations) => {
    const length = (combinations.length + segments) * loads;
    if (values.length !== length) values = new Float64Array(length);
    values.fill(0);
    for (let r = 0; r < loads; r++) rows[r] = at + packedRow(place[unknowns + r]);
    for (let q = 0; q < combinations.length; q++) {
      const combination = combinations[q];
      if (combination) subtractColumns(M, rows, place, combination, values, q * loads);
    }
    for (let s = 0, own = loads - segments; s < segments; s++, own++) {
      const to = (combinations.length + s) * loads;
      for (let r = 0; r < loads; r++) {
        const entry = r < own ? rows[own] + PANEL * place[unknowns + r] : rows[r] + PANEL * place[unknowns + own];
        values[to + r] = -M[entry] / segmentLengths[s];
      }
    }
    return values;
  };
}

/** out[to + r] −= Σᵢ weightᵢ·M(row r, column of unknown i) */
function subtractColumns(
  M: Float64Array,
  rows: Int32Array,
  place: Int32Array,
  {unknowns, weights}: Combination,
  out: Float64Array,
  to: number,
): void {
  for (let i = 0; i < unknowns.length; i++) {
    const column = PANEL * place[unknowns[i]];
    const weight = weights[i];
    for (let r = 0; r < rows.length; r++) out[to + r] -= weight * M[rows[r] + column];
  }
}
