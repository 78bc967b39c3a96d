/** What treatments cost over a period: renewals, present worth, break-even price, carbon. Theory: docs/theory/cost.md. */
export {type BreakEvenRequest, breakEven, USUAL_PROBABILITY} from "./breakEven.ts";
export {type Cheaper, cheaperThan, costOf} from "./costOf.ts";
export {type ComputedLives, studyCosts} from "./studyCosts.ts";
export type * from "./types.ts";
export {operationCost, operationItems} from "./works.ts";
export {
  annuityFactor,
  cashFlows,
  discountFactor,
  type LifeCycle,
  presentWorth,
  type Schedule,
  schedule,
  worthWeights,
} from "./worth.ts";
