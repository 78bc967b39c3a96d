/**
 * Energy release rates at a crack tip on x = 0 by virtual crack closure: the work that would close the crack again by the
 * element behind the tip, from the forces that the element ahead carries. Theory: docs/theory/response.md.
 */
import {InputError} from "../errors.ts";
import type {DirectSolution} from "./direct.ts";
import {type LineModel, placeOf} from "./line.ts";

/**
 * One component at a tip of 8-node elements. Nodal forces act across the ligament on the half x ≥ 0 as in
 * `DirectSolution.force`; displacements are those of this half, so that the faces are twice as far apart.
 */
export interface ClosurePair {
  /** Of the tip's corner node and of the midside node ahead [N per m along y]. */
  readonly force: readonly [corner: number, midside: number];
  /** Of the corner node one element behind and of the midside node behind [m]. */
  readonly displacement: readonly [corner: number, midside: number];
}

/** The three components at one y, with the lengths of the elements on either side of the tip. */
export interface TipClosure {
  readonly U: ClosurePair; // opening, mode I
  readonly W: ClosurePair; // sliding across the layers, mode II
  readonly V: ClosurePair; // sliding along the joint, mode III
  readonly ahead: number; // Δa ahead of the tip [m]
  readonly behind: number; // Δa behind it [m]
}

/** One number for each mode of fracture. */
export interface Modes {
  readonly I: number;
  readonly II: number;
  readonly III: number;
}

/**
 * Energy release rates [J/m²], from forces and displacements at one y:
 *
 *   G = ½·Σ F·(2u) / √(Δa_ahead·Δa_behind)
 *
 * In front of the tip F grows as √Δa_ahead and behind it u as √Δa_behind, so elements of unequal length enter by their
 * geometric mean. Between equal elements the error is of first order in their size and extrapolates away; between unequal
 * ones a part stays: 2 % of G at a ratio of 1.25, 6 to 7 % at 2 (docs/verification/fracture.md). A tip on the boundary
 * of two materials has no G: its stresses are not of the order r^−½.
 *
 * @throws InputError "domain" when a length is not positive
 * @source Rybicki & Kanninen 1977, doi:10.1016/0013-7944(77)90013-3; 8-node elements and unequal lengths:
 *         Krueger 2004, doi:10.1115/1.1595677
 */
export function energyReleaseRates(tip: TipClosure): Modes {
  for (const side of ["ahead", "behind"] as const) {
    if (!(tip[side] > 0 && tip[side] < Infinity))
      throw new InputError("domain", `tip.${side}`, tip[side], "finite, > 0 [m]");
  }
  const length = Math.sqrt(tip.ahead * tip.behind);
  const rate = ({force, displacement}: ClosurePair): number =>
    (force[0] * displacement[0] + force[1] * displacement[1]) / length;
  return {I: rate(tip.U), II: rate(tip.W), III: rate(tip.V)};
}

/**
 * Stress intensity factors [Pa·√m] in plane strain: K_I = √(G_I·E'), K_II = √(G_II·E'), K_III = √(2μ·G_III).
 * Without sign: a crack pressed shut has the same G_I as one pulled open, and only its force tells.
 *
 * @param elastic  of the layer that the tip is in: E [Pa], ν [–]
 * @throws InputError "domain" when a rate is negative (faces that move against the force ahead)
 */
export function stressIntensities(rates: Modes, elastic: {readonly modulus: number; readonly poisson: number}): Modes {
  const {modulus, poisson} = elastic;
  const root = (mode: keyof Modes, stiffness: number): number => {
    if (!(rates[mode] >= 0)) throw new InputError("domain", `rates.${mode}`, rates[mode], "≥ 0 [J/m²]");
    return Math.sqrt(rates[mode] * stiffness);
  };
  const planeStrain = modulus / (1 - poisson ** 2);
  return {I: root("I", planeStrain), II: root("II", planeStrain), III: root("III", modulus / (1 + poisson))};
}

export interface TipPlace {
  readonly node: number; // of the path, a corner
  readonly direction: 1 | -1; // ahead of the tip: +1 down the path, −1 up
}

/**
 * Reads what closes a tip out of one load case. Linear in the solution: with several wavenumbers, transform each number
 * to the y wanted before multiplying.
 *
 * @throws InputError "domain" when the tip is no corner node with an element of the path on either side
 */
export function tipClosure(
  model: LineModel,
  solution: DirectSolution,
  loadCase: number,
  {node, direction}: TipPlace,
): TipClosure {
  const {path, size} = model;
  if (node % 2 || node < 2 || node > path.length - 3)
    throw new InputError("domain", "tip.node", node, `even, 2 to ${path.length - 3}`);
  const force = (k: number, component: 0 | 1 | 2): number =>
    solution.force[(loadCase * path.length + k) * 3 + component];
  const displacement = (k: number, component: "U" | "V" | "W"): number =>
    solution.displacement[loadCase * size + placeOf(path, k, component)];
  const pair = (component: "U" | "V" | "W", c: 0 | 1 | 2): ClosurePair => ({
    force: [force(node, c), force(node + direction, c)],
    displacement: [displacement(node - 2 * direction, component), displacement(node - direction, component)],
  });
  return {
    U: pair("U", 0),
    V: pair("V", 1),
    W: pair("W", 2),
    ahead: Math.abs(path[node + 2 * direction].z - path[node].z),
    behind: Math.abs(path[node].z - path[node - 2 * direction].z),
  };
}
