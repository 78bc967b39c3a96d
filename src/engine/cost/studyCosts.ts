import {InputError} from "../errors.ts";
import {breakEven} from "./breakEven.ts";
import {costOf, rateWarnings} from "./costOf.ts";
import type {CostResult, Costs, TreatmentCosts} from "./types.ts";
import {operationItems, totalOf} from "./works.ts";
import {cashFlows, cycleOf, MOST_LISTED} from "./worth.ts";

/** As much of a computed study as costs need. */
export interface ComputedLives {
  readonly study: {readonly costs: Costs | null};
  readonly treatments: readonly {readonly governing: {readonly life: {readonly years: number}}}[];
}

/** More renewals than one a year are more likely an unsuitable study than a plan. [years] */
const SHORTEST_LIFE = 1;

/**
 * Costs of every treatment from its single computed life, the first being the control. Null where the study has no prices.
 *
 * @throws InputError "shape" where works and lives are not of the same treatments
 */
export function studyCosts({study: {costs}, treatments}: ComputedLives): CostResult | null {
  if (costs === null) return null;
  if (costs.treatments.length !== treatments.length)
    throw new InputError("shape", "costs.treatments.length", costs.treatments.length, `${treatments.length}`);
  const lives = treatments.map(t => t.governing.life.years);
  const told = costs.treatments.map((_, k) => treatmentCosts(costs, lives, k));
  return {costs, treatments: told, warnings: [...rateWarnings(costs.discountRate), ...lifeWarnings(told)]};
}

function treatmentCosts(costs: Costs, lives: readonly number[], k: number): TreatmentCosts {
  const {prices, carbon} = costs;
  const works = costs.treatments[k];
  const control = costs.treatments[0];
  const sampled = costOf({works, rates: prices}, [lives[k]], costs);
  const cycle = cycleOf(lives[k], works.renewalLife, costs);
  const first = operationItems(works.first, prices);
  const renewal = operationItems(works.renewal, prices);
  const level = {treated: [lives[k]], control: [lives[0]]};
  const emitted = carbon && costOf({works, rates: carbon}, [lives[k]], {...costs, discountRate: 0});
  return {
    name: works.name,
    life: cycle.life,
    capped: sampled.capped > 0,
    first: {total: totalOf(first), items: first},
    renewal: {total: totalOf(renewal), items: renewal},
    renewals: sampled.renewals[0],
    flows: sampled.renewals[0] > MOST_LISTED ? [] : cashFlows(sampled, cycle),
    presentWorth: sampled.presentWorth[0],
    annual: sampled.annual[0],
    breakEven: k === 0 ? null : breakEven({treated: works, control, rates: prices, lives: level, options: costs}),
    carbon: emitted && {
      first: emitted.first,
      renewal: emitted.renewal,
      total: emitted.presentWorth[0],
      annual: emitted.annual[0],
    },
  };
}

function lifeWarnings(treatments: readonly TreatmentCosts[]): string[] {
  return treatments.flatMap(({name, life}) =>
    life < SHORTEST_LIFE ? [`${name}: costs count renewals more often than once a year.`] : [],
  );
}
