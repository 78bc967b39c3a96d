/**
 * Crack states on the line x = 0. Three cracks can stand on it: `interlayer`, from the joint up into the interlayer;
 * `underside`, in the overlay from its underside up (it joins the first once the interlayer is through); `surface`,
 * from the surface down. Each has a list of lengths at which it is solved; a state is one length of each.
 */
import {InputError} from "../errors.ts";
import type {LineModel} from "./line.ts";

export interface StateSpace {
  /** Node (index into the path, corner nodes only) where the tip of each length is; the first is no crack. */
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

export interface StateOptions {
  readonly undersideDepth: number; // depth of the overlay's underside: top of the interlayer, or of the jointed layer [m]
  readonly step: number; // wanted distance of lengths near either end of a crack's way [m]
  readonly longestStep: number; // and in the middle [m]
}

export function stateSpace(model: LineModel, options: StateOptions): StateSpace {
  const z = model.path.map(node => node.z);
  const mouthNode = z.length - 1;
  const undersideNode = nearestCorner(z, options.undersideDepth);
  if (Math.abs(z[undersideNode] - options.undersideDepth) > 1e-9) {
    throw new InputError("domain", "undersideDepth", options.undersideDepth, "an interface on the path [m]");
  }
  const thickness = z[undersideNode];
  const hasInterlayer = undersideNode < mouthNode;
  const lengths = levels(thickness, options.step, options.longestStep);
  const underside = tips(lengths.map(l => thickness - l), z, undersideNode);
  const surface = tips(lengths, z, 0);
  const interlayer = hasInterlayer
    ? tips(levels(z[mouthNode] - thickness, options.step, options.longestStep, true).map(l => z[mouthNode] - l), z, mouthNode)
    : Int32Array.of(mouthNode);

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
    interlayerLength: Float64Array.from(interlayer, t => z[mouthNode] - z[t]),
    undersideLength: Float64Array.from(underside, t => thickness - z[t]),
    surfaceLength: Float64Array.from(surface, t => z[t]),
    states,
    index: (a, b, c) => number[(a * underside.length + b) * surface.length + c],
    undersideNode,
    mouthNode,
  };
}

/** 0, then lengths `step` apart near both ends and growing to `longest` in the middle; without the whole way unless `closed`. */
function levels(way: number, step: number, longest: number, closed = false): number[] {
  const half: number[] = [0];
  for (let l = 0, s = step; l + s < way / 2; s = Math.min(1.5 * s, longest)) {
    l += s;
    half.push(l);
  }
  const all = [...half, ...half.map(l => way - l).reverse()];
  const spaced = all.filter((l, k) => k === 0 || l - all[k - 1] > 0.3 * step);
  return closed ? spaced : spaced.filter(l => l < way - 0.3 * step);
}

/** Corner nodes nearest to the wanted depths, each once, walking away from `mouth`. */
function tips(depths: readonly number[], z: readonly number[], mouth: number): Int32Array {
  const nodes = depths.map(d => nearestCorner(z, d));
  nodes[0] = mouth;
  return Int32Array.from(new Set(nodes));
}

function nearestCorner(z: readonly number[], depth: number): number {
  let best = 0;
  for (let k = 0; k < z.length; k += 2) if (Math.abs(z[k] - depth) < Math.abs(z[best] - depth)) best = k;
  return best;
}
