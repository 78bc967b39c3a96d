/** How sure the lives of a study are. Theory: docs/theory/uncertainty.md. */
export {type RiskCost, type RiskCosts, riskCosts} from "./costs.ts";
export {changeOf, exponentSpan, isStructural, sizeOf} from "./draws.ts";
export type {RiskResult} from "./result.ts";
export {
  lifeError,
  REPLICATES,
  type Sample,
  structuralShare,
  type TreatmentRisk,
  treatmentRisks,
} from "./summary.ts";
export {type InputSwing, LONGEST_COUNTED, type Swing, swingSentence, swingsOf} from "./swings.ts";
export type * from "./types.ts";
