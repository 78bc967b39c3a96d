/** How sure the lives of a study are. Theory: docs/theory/risk.md. */
export {changeOf, exponentSpan, isStructural, sizeOf} from "./draws.ts";
export {type Sample, type TreatmentRisk, treatmentRisks} from "./summary.ts";
export type * from "./types.ts";
