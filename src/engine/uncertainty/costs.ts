/** Costs over the samples of a risk run. */
import {
  type BreakEven,
  breakEven,
  type Cheaper,
  type Costs,
  cheaperThan,
  costOf,
  type SampledCosts,
} from "../cost/index.ts";
import type {RiskResult} from "./result.ts";

export interface RiskCost {
  readonly name: string;
  readonly sampled: SampledCosts;
  readonly cheaper: Cheaper | null; // than the control, on the same samples; null for the control
  readonly breakEven: BreakEven | null;
}

export interface RiskCosts {
  readonly costs: Costs;
  readonly treatments: readonly RiskCost[];
  readonly cheapest: number; // index, by the mean of the present worth
}

/** Null where the study has no prices. */
export function riskCosts({study, samples}: RiskResult): RiskCosts | null {
  const {costs} = study;
  if (!costs) return null;
  const lives = costs.treatments.map((_, k) =>
    Float64Array.from(samples, s => (s.lives[k].censored ? Infinity : s.lives[k].years)),
  );
  const sampled = costs.treatments.map((works, k) => costOf({works, rates: costs.prices}, lives[k], costs));
  const [control] = costs.treatments;
  const treatments = costs.treatments.map((treated, k): RiskCost => {
    const level = {treated: lives[k], control: lives[0]};
    const request = {treated, control, rates: costs.prices, lives: level, options: costs};
    return {
      name: treated.name,
      sampled: sampled[k],
      cheaper: k === 0 ? null : cheaperThan(sampled[k].presentWorth, sampled[0].presentWorth),
      breakEven: k === 0 ? null : breakEven(request),
    };
  });
  const means = sampled.map(s => s.summary.presentWorth.mean);
  return {costs, treatments, cheapest: means.indexOf(Math.min(...means))};
}
