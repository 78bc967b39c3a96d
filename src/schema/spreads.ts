import type {JointNormal} from "../engine/risk/types.ts";
import type {LawDocument} from "./law-file.ts";

/** How uncertain inputs are called when the study does not say. */
export const scaleNames = {
  passes: "number of passes",
  loads: "weight of the loads",
  growth_percent: "growth of traffic",
  temperatures: "size of temperature changes",
  rates: "field against laboratory",
} as const;

/** Quantities of a law that vary together. */
export interface LawInput {
  readonly members: readonly string[];
  readonly joint: JointNormal;
}

/** How sure a growth law is, where the study says it. */
export interface LawSpread {
  readonly ln_A_deviation?: number | undefined;
  readonly n_deviation?: number | undefined;
  readonly correlation: number;
}

/** Covariance of ln A and n; of ln A alone where n is taken as known. */
export function lawSpread(
  {ln_A_deviation: a, n_deviation: n, correlation}: LawSpread,
  law: LawDocument | undefined,
): LawInput | null {
  if (a !== undefined) {
    if (n === undefined) return {members: ["ln A"], joint: {mean: [0], covariance: [[a * a]]}};
    const both = correlation * a * n;
    return {
      members: ["ln A", "n"],
      joint: {
        mean: [0, 0],
        covariance: [
          [a * a, both],
          [both, n * n],
        ],
      },
    };
  }
  const covariance = law?.crack_growth?.covariance;
  if (!covariance || !(covariance.ln_A > 0)) return null;
  if (!(covariance.n > 0)) return {members: ["ln A"], joint: {mean: [0], covariance: [[covariance.ln_A]]}};
  return {
    members: ["ln A", "n"],
    joint: {
      mean: [0, 0],
      covariance: [
        [covariance.ln_A, covariance.ln_A_n],
        [covariance.ln_A_n, covariance.n],
      ],
    },
  };
}
