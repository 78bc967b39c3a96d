/** How sure the lives of a study are. */
export type {RiskOptions, RiskProgress} from "./context.ts";
export {computeRisk, type SampledLives, sampleLives} from "./risk.ts";
export {samplingRules} from "./rules.ts";
