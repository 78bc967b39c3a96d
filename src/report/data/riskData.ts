/** Numbers behind the pictures of costs and of how sure lives are. */

import {type CostResult, discountFactor} from "../../engine/cost/index.ts";
import type {Swing, TreatmentRisk} from "../../engine/uncertainty/index.ts";
import type {LivesOf} from "../charts/index.ts";
import {csvText} from "../csv.ts";

/**
 * One row a payment of each treatment, with its present worth and the sum up to it. Money is of one square metre in the study's
 * currency, which stands in a column of its own.
 */
export function costsCsv({costs, treatments}: CostResult): string {
  const rows = treatments.flatMap(({name, flows}) => {
    let sum = 0;
    return flows.map(({kind, years, amount}) => {
      const worth = amount * discountFactor(costs.discountRate, years);
      sum += worth;
      return [name, kind, years, costs.currency, amount, worth, sum];
    });
  });
  return csvText(
    ["treatment", "payment", "years", "currency", "amount_per_m2", "present_worth_per_m2", "cumulated_per_m2"],
    rows,
  );
}

/** One row a time of each treatment: cracked depth at quantiles of the samples. */
export function fanCsv(treatments: readonly TreatmentRisk[]): string {
  const probabilities = treatments[0]?.fan.probabilities ?? [];
  const heading = probabilities.map(p => `cracked_depth_percent_at_${Number((100 * p).toPrecision(6))}_percent`);
  const rows = treatments.flatMap(({name, fan}) =>
    Array.from(fan.years, (years, i) => [name, years, ...fan.depths.map(depth => 100 * depth[i]!)]),
  );
  return csvText(["treatment", "years", ...heading], rows);
}

/** One row a sample's life, shortest first, with the part of the samples that live longer. Those beyond the horizon have none. */
export function survivalCsv(treatments: readonly LivesOf[]): string {
  const rows = treatments.flatMap(({name, years}) =>
    years
      .toSorted((a, b) => a - b)
      .flatMap((life, i) => (Number.isFinite(life) ? [[name, life, 100 * (1 - (i + 1) / years.length)]] : [])),
  );
  return csvText(["treatment", "life_years", "samples_that_live_longer_percent"], rows);
}

/**
 * One row an input: the quantity with it at its 10 and at its 90 % quantile.
 *
 * @param quantity as a heading, with its unit: "life_years", "ratio_to_control"
 */
export function swingsCsv(
  swings: readonly Swing[],
  {quantity, base}: {readonly quantity: string; readonly base: number},
): string {
  return csvText(
    ["input", `${quantity}_as_in_the_study`, `${quantity}_at_low_input`, `${quantity}_at_high_input`, "share_percent"],
    swings.map(s => [s.name, base, s.low, s.high, 100 * s.share]),
  );
}
