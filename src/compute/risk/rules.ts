/** What sampling goes by. */
import {REPLICATES, type RiskPlan} from "../../engine/uncertainty/index.ts";

/** Accuracy of sections that are solved for one sample each, in tip strain: finer would not show in a distribution [–]. */
export const SAMPLE_ACCURACY = 0.02;
/** Temperature bins of such sections: with 2 % accuracy and four bins the road's lives are 1.8 and 0.6 % long, in half the time. */
export const SAMPLE_BINS = 4;
/** A first picture comes after so many; they double. */
export const FIRST_SOLUTIONS = 4;
export const BLOCK = 32; // samples of a replicate computed in one go
/** Of fewer no quantile is told. */
export const FEWEST_SAMPLES = 8;
export const FEWEST_PER_SOLUTION = 8;
/** Deviations of an exponent that the models span. */
export const SPAN_DEVIATIONS = 5;
export const LEAST_SPAN = 0.25; // [–]
export const QUANTILES = [0.1, 0.9] as const; // of one input at a time

/** Digits of the depths that are kept. */
export const DEPTH_DIGITS = 4;

/** All that samples depend on beside the study and its treatments, as a text. */
export function samplingRules(plan: RiskPlan): string {
  const rules = {
    SAMPLE_ACCURACY,
    SAMPLE_BINS,
    FEWEST_PER_SOLUTION,
    BLOCK,
    REPLICATES,
    SPAN_DEVIATIONS,
    LEAST_SPAN,
    QUANTILES,
    DEPTH_DIGITS,
  };
  return JSON.stringify([plan.inputs, rules]);
}
