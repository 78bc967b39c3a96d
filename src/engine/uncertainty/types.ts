import type {Input} from "../risk/types.ts";

/** What an uncertain input does to a study. */
export type Effect =
  | {readonly kind: "law"; readonly material: string} // one or two values: what is added to ln A, in mm and µε, and to n
  | {readonly kind: "fatigue"; readonly material: string} // factor on ε₆
  | {readonly kind: "relaxation"; readonly material: string} // factor on relaxation moduli
  | {readonly kind: "passes" | "loads" | "temperatures" | "rates"} // factor
  | {readonly kind: "growth"} // added to the growth of all classes [1/year]
  | {readonly kind: "field"; readonly path: readonly (string | number)[]}; // value of a document's field, in its unit

export type UncertainInput = Input & {readonly effect: Effect};

export interface RiskPlan {
  readonly inputs: readonly UncertainInput[];
  readonly reliability: number; // whose life is to be known well [–]
  readonly error: number; // wanted standard error of its ln [–]
  readonly mostSamples: number;
  readonly mostSolutions: number; // of sections
  readonly seed: number;
}
