/** Our own elimination of one wavenumber, with element matrices made by it or given to it. */
import {runElimination} from "../src/engine/numeric/index.ts";
import {condense, type LineModel, type Stiffnesses} from "../src/engine/response/index.ts";
import {elementsOf} from "./systems.ts";
import {type Repeats, type Times, timesOf} from "./times.ts";

/** Among the wavenumbers of the response: a wavelength of about the depth to the rigid base [1/m]. */
export const BETA = 2.9;

export interface EliminationTimes {
  readonly given: Times; // element matrices copied from where they lie ready
  readonly made: Times; // all that a wavenumber costs: element matrices integrated, assembled, eliminated
}

export function eliminationTimes(model: LineModel, stiff: Stiffnesses, repeats: Repeats): EliminationTimes {
  const matrices = elementsOf(model, stiff, BETA).map(e => e.matrix);
  const {plan, kernel} = model;
  return {
    given: timesOf(() => runElimination(plan, kernel, (k, out) => out.set(matrices[k])), repeats),
    made: timesOf(() => condense(model, stiff, BETA), repeats),
  };
}
