/**
 * Every crack state from one tableau: the three cracks are lengthened in nested loops, one node released at a time, the
 * tableau copied where a loop begins anew. What is kept of a state is linear in the loads: mean tractions over the
 * process zones ahead of the tips, and the functionals that follow the path rows.
 */
import {release} from "../numeric/index.ts";
import type {LineModel} from "./line.ts";
import type {Tableau} from "./parts.ts";
import type {CrackState, StateSpace} from "./states.ts";
import {type Zone, zone} from "./zone.ts";

/** The three tips, in the order of all tables. */
export const TIPS = ["interlayer", "underside", "surface"] as const;
export type Tip = (typeof TIPS)[number];

/** What the zones depend on besides the geometry. */
export interface PathMaterial {
  /** By element of the path, from the surface down. */
  readonly opening: Float64Array; // E' = E/(1−ν²) [Pa]
  readonly shear: Float64Array; // G [Pa]
  readonly zoneLength: Float64Array; // d of the layer's growth law [m]
  readonly layer: Int32Array; // index of the layer
  readonly kind: Int32Array; // equal for neighbouring layers of one material and role, which a zone may span
}

export interface TipZones {
  readonly opening: Zone;
  readonly shear: Zone;
  readonly layer: number; // that the tip is in (ahead of it)
  readonly element: number; // of the path, ahead of the tip
}

/** Zones of a state's tips; null where there is no such tip (no interlayer, or interlayer through). */
export function stateZones(
  model: LineModel,
  space: StateSpace,
  material: PathMaterial,
  state: CrackState,
): (TipZones | null)[] {
  const {path} = model;
  const hasInterlayer = space.undersideNode < space.mouthNode;
  const interlayer = space.interlayer[state.interlayer];
  const underside = space.underside[state.underside];
  const surface = space.surface[state.surface];
  const lowerBroken = state.underside > 0 || (state.through && hasInterlayer);
  const make = (
    tip: number,
    direction: 1 | -1,
    front: number,
    brokenBehind: boolean,
    brokenBeyondFront: boolean,
  ): TipZones => {
    const element = direction > 0 ? tip / 2 : tip / 2 - 1;
    const limit = nextInterface(material, element, direction, front);
    const brokenBeyond = limit === front && brokenBeyondFront;
    const request = {tip, direction, length: material.zoneLength[element], limit, brokenBehind, brokenBeyond};
    return {
      opening: zone(path, {...request, modulus: material.opening}),
      shear: zone(path, {...request, modulus: material.shear}),
      layer: material.layer[element],
      element,
    };
  };
  return [
    hasInterlayer && !state.through
      ? make(interlayer, -1, space.undersideNode, state.interlayer > 0, state.underside > 0)
      : null,
    make(underside, -1, surface, lowerBroken, state.surface > 0),
    make(surface, 1, underside, state.surface > 0, lowerBroken),
  ];
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

/**
 * Walks all states.
 *
 * @param perNode  unknowns a path node: 1 (symmetric) or 2 (antisymmetric)
 * @param visit    called with the number of the state and the tableau as it stands
 */
export function sweepStates(
  space: StateSpace,
  tableau: Tableau,
  perNode: 1 | 2,
  visit: (state: number, T: Float64Array) => void,
): void {
  const {rows, unknowns, columns} = tableau;
  const outer = {T: tableau.values.slice(), tied: tableau.tied.slice()};
  const middle = {T: new Float64Array(outer.T.length), tied: new Uint8Array(unknowns)};
  const inner = {T: new Float64Array(outer.T.length), tied: new Uint8Array(unknowns)};
  const free = (level: typeof outer, node: number): void => {
    for (let c = 0; c < perNode; c++) release(level.T, rows, unknowns, columns, level.tied, node * perNode + c);
  };
  const copy = (from: typeof outer, to: typeof outer): void => {
    to.T.set(from.T);
    to.tied.set(from.tied);
  };
  for (let a = 0; a < space.interlayer.length; a++) {
    if (a > 0) for (let k = space.interlayer[a - 1]; k > space.interlayer[a]; k--) free(outer, k);
    const through = a === space.interlayer.length - 1;
    copy(outer, middle);
    for (let b = 0; b < space.underside.length; b++) {
      if (b > 0) {
        // A restarted crack leaves the node on the interface whole: its lower tip is there.
        const first = b === 1 && !through ? space.underside[0] - 1 : space.underside[b - 1];
        for (let k = first; k > space.underside[b]; k--) free(middle, k);
      }
      copy(middle, inner);
      for (let c = 0; c < space.surface.length; c++) {
        const state = space.index(a, b, c);
        if (state < 0) break;
        if (c > 0) for (let k = space.surface[c - 1]; k < space.surface[c]; k++) free(inner, k);
        visit(state, inner.T);
      }
    }
  }
}
