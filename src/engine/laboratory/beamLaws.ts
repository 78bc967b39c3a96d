/** Growth laws of a programme's materials as one vector of parameters. */
import {InputError} from "../errors.ts";
import type {BeamSolution} from "./beam.ts";
import type {BeamCycles, BeamLaws, LawAtStrain} from "./beamGrowth.ts";
import type {BeamTest} from "./beamTypes.ts";

/** Where the law of a material comes from. */
export type LawOrigin =
  | {readonly kind: "fitted"} // from the beams
  | {readonly kind: "relative"; readonly to: string; readonly logRate: number; readonly exponent: number} // that of another, and so much more
  | {readonly kind: "whole"}; // it does not crack

/** One beam, solved. */
export interface BeamCase {
  readonly test: BeamTest;
  readonly solution: BeamSolution;
  readonly cycles: BeamCycles;
}

/** Materials that a crack can run through, in the order of their parameters: ln rate, exponent, ln rate, … */
export interface LawVector {
  readonly fitted: readonly string[];
  readonly size: number;
  readonly lawsOf: (test: BeamTest, parameters: ArrayLike<number>) => BeamLaws;
  /** Whether a parameter has a say in a beam. */
  readonly concerns: (test: BeamTest, parameter: number) => boolean;
}

/** @throws InputError "domain" when a material has no origin, or one relative to a material that is not fitted */
export function lawVector(tests: readonly BeamTest[], origins: Readonly<Record<string, LawOrigin>>): LawVector {
  const used = [...new Set(tests.flatMap(t => [t.overlay.material, ...(t.interlayer ? [t.interlayer.material] : [])]))];
  for (const name of used)
    if (!origins[name])
      throw new InputError("domain", `origin of the law of ${name}`, "nothing", "fitted, relative or whole");
  const fitted = used.filter(name => origins[name].kind === "fitted").sort();
  const lawOf = (name: string, p: ArrayLike<number>): LawAtStrain | null => {
    const origin = origins[name];
    if (origin.kind === "whole") return null;
    const k = fitted.indexOf(origin.kind === "fitted" ? name : origin.to);
    if (k < 0) throw new InputError("domain", `law of ${name}`, "relative", "to a material that is fitted");
    const law = {logRate: p[2 * k], exponent: p[2 * k + 1]};
    if (origin.kind === "fitted") return law;
    return {logRate: law.logRate + origin.logRate, exponent: law.exponent + origin.exponent};
  };
  return {
    fitted,
    size: 2 * fitted.length,
    concerns: (test, parameter) =>
      [test.overlay, test.interlayer].some(course => {
        const origin = course && origins[course.material];
        if (!origin || origin.kind === "whole") return false;
        return fitted[parameter >> 1] === (origin.kind === "fitted" ? course.material : origin.to);
      }),
    lawsOf: (test, p) => {
      const overlay = lawOf(test.overlay.material, p);
      if (!overlay)
        throw new InputError("domain", `law of ${test.overlay.material}`, "whole", "one: the overlay cracks");
      return {overlay, interlayer: test.interlayer && lawOf(test.interlayer.material, p)};
    },
  };
}
