/**
 * From the unknowns kept on the line x = 0 and the surface to the nodes of the view: the condensation's own factors,
 * worked through backwards. Theory: docs/theory/field.md.
 */
import {backSubstitute, type Factor, factorOf, insideAt} from "../numeric/index.ts";
import {condense, type LineModel, type Stiffnesses} from "../response/index.ts";
import type {HalfView} from "./view.ts";

/** One wavenumber condensed, with what leads back inside. */
export interface OpenedWave {
  readonly beta: number; // [1/m]
  readonly S: Float64Array; // see `condense`
  readonly factor: Factor;
}

export function condenseOpen(model: LineModel, half: HalfView, stiff: Stiffnesses, beta: number): OpenedWave {
  const {factor, onFront} = factorOf(model.plan, model.kernel, e => half.firsts[e] != null);
  return {beta, S: condense(model, stiff, beta, [], undefined, onFront), factor};
}

/** What is summed over the wavenumbers at each node of the view. */
export const NODAL = 3; // U [m], βV [–], W [m]

/**
 * Adds one wavenumber's part to the nodes' sums.
 *
 * @param kept   row-major `count` × model.size: kept unknowns of each right-hand side, with the weight of the wavenumber
 * @param sums   [node][U, βV, W][right-hand side], added to
 */
export function addInside(
  {beta, factor}: OpenedWave,
  {firsts}: HalfView,
  kept: Float64Array,
  count: number,
  sums: Float64Array,
): void {
  backSubstitute(factor, kept, count, (element, inside) => {
    const own = firsts[element];
    if (!own) return;
    for (let p = 0; p < own.length; p += 2) {
      for (let c = 0; c < NODAL; c++) {
        const to = (own[p + 1] * NODAL + c) * count;
        const weight = c === 1 ? beta : 1;
        for (let r = 0; r < count; r++) {
          const at = insideAt(inside, 3 * own[p] + c, r);
          if (at >= 0) sums[to + r] += weight * inside.X[at];
        }
      }
    }
  });
}
