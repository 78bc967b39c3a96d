import type {Problem, Settled} from "./fitProblem.ts";
import type {FitOptions} from "./fitTypes.ts";
import type {ComplexModulusPoint} from "./types.ts";
import {boundReached} from "./unknowns.ts";

interface Fitted {
  readonly points: readonly ComplexModulusPoint[];
  readonly options: FitOptions;
  readonly problem: Problem;
  readonly fit: Settled;
}

/** What a reader should know of a fit before using it. */
export function fitWarnings({problem, fit}: Fitted): string[] {
  return problem.family.unknowns.flatMap((unknown, j) => {
    const bound = boundReached(fit.at[j]);
    return bound === null ? [] : [`${unknown.name} ended at its ${bound} bound: the readings do not tell it`];
  });
}
