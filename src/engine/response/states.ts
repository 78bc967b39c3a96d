/**
 * Crack states on the line x = 0. Three cracks can stand on it: `interlayer`, from the joint up into the interlayer;
 * `underside`, in the overlay from its underside up (it joins the first once the interlayer is through); `surface`,
 * from the surface down. Each has a list of lengths at which it is solved; a state is one length of each.
 */
import {InputError} from "../errors.ts";
import type {LineModel} from "./line.ts";

export interface StateSpace {
  /**
   * Node (index into the path, corner nodes only) where the tip of each length is; the first is no crack. On an interface that
   * is not fully bonded the place of the shared W: a crack up to there has released the lower layer's node, one down to
   * there the upper layer's, and W only when both are.
   */
  readonly interlayer: Int32Array;
  readonly underside: Int32Array;
  readonly surface: Int32Array;
  readonly interlayerLength: Float64Array; // [m]
  readonly undersideLength: Float64Array; // [m]
  readonly surfaceLength: Float64Array; // [m]
  readonly states: readonly CrackState[];
  /** Number of the state, or −1 when the fronts would meet. */
  index(interlayer: number, underside: number, surface: number): number;
  readonly undersideNode: number; // the overlay's underside
  readonly mouthNode: number; // the path's lower end
}

export interface CrackState {
  readonly interlayer: number; // which length, index
  readonly underside: number;
  readonly surface: number;
  /** True when the lower crack runs from the joint to the `underside` tip; false when the interlayer is (partly) whole. */
  readonly through: boolean;
}

/** Lengths at which each crack is solved, from none to the last before its way ends [m]. */
export interface CrackLengths {
  readonly interlayer: readonly number[]; // to the whole interlayer; only [0] without one
  readonly overlay: readonly number[]; // for underside and surface crack alike
  readonly overlayThickness: number;
  readonly interlayerThickness: number;
}

export interface CrackWay {
  readonly overlayThickness: number; // [m]
  readonly interlayerThickness: number; // 0 without [m]
  readonly changes: readonly number[]; // depths at which the overlay's material changes, or its bond is not full [m]
  readonly clear: number; // no tip but one on the change itself stands so near to it: zones end there [m]
}

/**
 * @param step     of the lengths near either end of a crack's way [m]; they grow by half from one to the next
 * @param longest  that they grow to in the overlay, of its thickness [–]
 */
export function crackLengths(
  {overlayThickness, interlayerThickness, changes, clear}: CrackWay,
  step: number,
  longest = 1 / 8,
): CrackLengths {
  const within = Math.min(1 / 4, 2.5 * longest); // the same for the interlayer: strain changes less there
  const fixed = changes.flatMap(z => [z, overlayThickness - z]); // the same list serves both fronts
  const overlay = lengths(overlayThickness, Math.min(step, longest * overlayThickness), longest * overlayThickness);
  const kept = overlay.filter((l, k) => k === 0 || fixed.every(f => Math.abs(l - f) >= clear));
  return {
    interlayer:
      interlayerThickness > 0
        ? [
            ...lengths(interlayerThickness, Math.min(step, within * interlayerThickness), within * interlayerThickness),
            interlayerThickness,
          ]
        : [0],
    overlay: [...kept, ...fixed].sort((p, q) => p - q).filter((l, k, all) => k === 0 || l - all[k - 1] > 1e-9),
    overlayThickness,
    interlayerThickness,
  };
}

/** Depths of all tips: row lines of the mesh. */
export function tipDepths({interlayer, overlay, overlayThickness, interlayerThickness}: CrackLengths): number[] {
  const bottom = overlayThickness + interlayerThickness;
  return [...overlay, ...overlay.map(l => overlayThickness - l), ...interlayer.map(l => bottom - l)];
}

/** 0, then lengths `step` apart near both ends and up to `longest` in the middle, the same from either end; short of the whole way. */
function lengths(way: number, step: number, longest: number): number[] {
  const half: number[] = [0];
  for (let l = 0, s = step; l + s < way / 2 - 0.2 * s; s = Math.min(1.5 * s, longest)) {
    l += s;
    half.push(l);
  }
  const gap = way - 2 * half[half.length - 1];
  const between = gap > 1.2 * longest ? [way / 2] : [];
  return [...half, ...between, ...half.map(l => way - l).reverse()].slice(0, -1);
}

/** @throws InputError "domain" when the mesh has no corner node at a tip */
export function stateSpace(model: LineModel, cracks: CrackLengths): StateSpace {
  const {overlayThickness, interlayerThickness} = cracks;
  const bottom = overlayThickness + interlayerThickness;
  const corner = (depth: number): number => {
    const node = model.path.findIndex((p, k) => k % 2 === 0 && Math.abs(p.z - depth) < 1e-8);
    if (node < 0) throw new InputError("domain", "tip depth", depth, "a row line of the mesh [m]");
    return model.mesh.pathLayers[node / 2] === -1 ? node + 1 : node;
  };
  const underside = Int32Array.from(cracks.overlay, l => corner(overlayThickness - l));
  const surface = Int32Array.from(cracks.overlay, corner);
  const interlayer = Int32Array.from(cracks.interlayer, l => corner(bottom - l));

  const states: CrackState[] = [];
  const number = new Int32Array(interlayer.length * underside.length * surface.length).fill(-1);
  const last = interlayer.length - 1;
  for (let a = 0; a <= last; a++) {
    for (let b = 0; b < underside.length; b++) {
      for (let c = 0; c < surface.length; c++) {
        if (surface[c] >= underside[b]) continue;
        number[(a * underside.length + b) * surface.length + c] = states.length;
        states.push({interlayer: a, underside: b, surface: c, through: a === last});
      }
    }
  }
  return {
    interlayer,
    underside,
    surface,
    interlayerLength: Float64Array.from(cracks.interlayer),
    undersideLength: Float64Array.from(cracks.overlay),
    surfaceLength: Float64Array.from(cracks.overlay),
    states,
    index: (a, b, c) => number[(a * underside.length + b) * surface.length + c],
    undersideNode: corner(overlayThickness),
    mouthNode: model.path.length - 1,
  };
}

/** Element of the path ahead of each tip of a state; null where there is none: no interlayer, or a crack through it. */
export function tipElements(space: StateSpace, state: CrackState): (number | null)[] {
  const hasInterlayer = space.undersideNode < space.mouthNode;
  return [
    hasInterlayer && !state.through ? Math.floor(space.interlayer[state.interlayer] / 2) - 1 : null,
    Math.floor(space.underside[state.underside] / 2) - 1,
    Math.ceil(space.surface[state.surface] / 2),
  ];
}

/** Layers that the tips are in, [state][tip]. */
export function tipLayers({mesh}: LineModel, space: StateSpace): (number | null)[][] {
  return space.states.map(state => tipElements(space, state).map(e => (e === null ? null : mesh.pathLayers[e])));
}
