import type {FitOptions} from "./fitTypes.ts";
import type {LeastSquaresFit} from "./levenberg.ts";
import type {ComplexModulusPoint} from "./types.ts";
import {boundReached, type Unknown} from "./unknowns.ts";

interface Fitted {
  readonly points: readonly ComplexModulusPoint[];
  readonly options: FitOptions;
  readonly unknowns: readonly Unknown[];
  readonly fit: LeastSquaresFit;
}

/** What a reader should know of a fit before using it. */
export function fitWarnings({unknowns, fit}: Fitted): string[] {
  return unknowns.flatMap((unknown, j) => {
    const bound = boundReached(fit.at[j]);
    return bound === null ? [] : [`${unknown.name} ended at its ${bound} bound: the readings do not tell it`];
  });
}
