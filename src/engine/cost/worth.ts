import {InputError, requireNonNegative, requirePositive} from "../errors.ts";
import type {CashFlow, CostOptions} from "./types.ts";

/**
 * Lives that end within this part of the period of its end end with it: three lives of 20/3 years fill 20 years [–].
 */
const SAME_TIME = 1e-12;

/** More renewals than this are not listed one by one; their present worth is a closed sum whatever their number. */
export const MOST_LISTED = 10_000;

/** A real rate below −100 % a year has no meaning. @throws InputError "domain" */
export function requireRate(path: string, rate: number): void {
  if (!(rate > -1 && rate < Infinity)) throw new InputError("domain", path, rate, "finite, > −1 [a year]");
}

/**
 * Worth today of one unit of money paid after so many years: (1 + r)^−t, written e^(−t·ln(1+r)) so that small rates keep
 * their digits.
 *
 * @param rate r, real, a year [–]
 * @param years t ≥ 0 [years]
 */
export function discountFactor(rate: number, years: number): number {
  requireRate("rate", rate);
  requireNonNegative("years", years, "years");
  return Math.exp(-years * Math.log1p(rate));
}

/**
 * What a year must pay so that n years pay for one unit of capital: r/(1 − (1+r)^−n), 1/n at r = 0. By expm1 and log1p,
 * so that it goes over into that limit without losing digits.
 *
 * @param rate r, real, a year [–]
 * @param years n > 0 [years]
 * @source compound interest, any textbook of engineering economy: "capital recovery factor"
 */
export function annuityFactor(rate: number, years: number): number {
  requireRate("rate", rate);
  requirePositive("years", years, "years");
  return rate === 0 ? 1 / years : rate / -Math.expm1(-years * Math.log1p(rate));
}

/** Σ amount·(1+r)^−t of payments at any times [cur/m²]. */
export function presentWorth(flows: readonly Pick<CashFlow, "years" | "amount">[], rate: number): number {
  return flows.reduce((sum, {years, amount}) => sum + amount * discountFactor(rate, years), 0);
}

/** Two lives that follow one another, and for how long they are looked at. */
export interface LifeCycle {
  readonly life: number; // of what is built first [years], > 0; may be Infinity
  readonly renewalLife: number; // of each renewal [years], > 0; may be Infinity
  readonly period: number; // [years]
}

/** When renewals come and what of the last operation is left at the end. */
export interface Schedule {
  readonly count: number; // of renewals within the period [–]
  readonly left: number; // share of the last operation's life that lies beyond the period [–]
}

/**
 * A renewal at the end of each life, as long as that is before the end of the period: at L, L + R, L + 2R …. What is left
 * of the last operation falls in a straight line from its cost to nothing at the end of its life.
 *
 * @source straight-line share of the last rehabilitation's cost: Walls & Smith (1998), FHWA-SA-98-079 (from memory)
 */
export function schedule({life, renewalLife, period}: LifeCycle): Schedule {
  requireLife("life", life);
  requireLife("renewalLife", renewalLife);
  requirePositive("period", period, "years");
  const end = period * (1 - SAME_TIME);
  if (life >= end) return {count: 0, left: leftOf(life, life, period)};
  const count = Math.max(1, Math.ceil((end - life) / renewalLife)); // one even where a renewal lasts for ever
  return {count, left: leftOf(life + count * renewalLife, renewalLife, period)};
}

/** Share left at the end of the period of what ends then. Rounding alone can bring it below nothing. */
function leftOf(ends: number, life: number, period: number): number {
  return life === Infinity ? 1 : Math.max(0, (ends - period) / life);
}

function requireLife(path: string, life: number): void {
  if (!(life > 0)) throw new InputError("domain", path, life, "> 0, Infinity for none [years]");
}

/**
 * How often each operation counts in the present worth: first construction and renewals with their discount, less what is
 * left of the last one. The renewals are a geometric sum, so that thousands of short lives cost no more than one.
 *
 *   PW = C₁·f + C₂·g;   g = (1+r)^−L·[1 − (1+r)^(−nR)]/[1 − (1+r)^−R],   less left·(1+r)^−P of the last
 */
export function worthWeights(
  cycle: LifeCycle,
  rate: number,
): {readonly first: number; readonly renewal: number; readonly count: number} {
  requireRate("rate", rate);
  const {count, left} = schedule(cycle);
  const residual = left * discountFactor(rate, cycle.period);
  if (count === 0) return {first: 1 - residual, renewal: 0, count};
  const log = Math.log1p(rate);
  const repeated =
    log === 0 || count === 1
      ? count
      : Math.expm1(-count * cycle.renewalLife * log) / Math.expm1(-cycle.renewalLife * log);
  return {first: 1, renewal: discountFactor(rate, cycle.life) * repeated - residual, count};
}

/**
 * The payments one by one: first construction, renewals, and the value left at the end as a negative one.
 *
 * @throws InputError "domain" where there are more than 10 000
 */
export function cashFlows(cost: {readonly first: number; readonly renewal: number}, cycle: LifeCycle): CashFlow[] {
  const {count, left} = schedule(cycle);
  if (count > MOST_LISTED) throw new InputError("domain", "renewals", count, `at most ${MOST_LISTED} to be listed`);
  const flows: CashFlow[] = [{kind: "first", years: 0, amount: cost.first}];
  for (let k = 0; k < count; k++)
    flows.push({kind: "renewal", years: cycle.life + (k === 0 ? 0 : k * cycle.renewalLife), amount: cost.renewal});
  if (left > 0)
    flows.push({kind: "residual", years: cycle.period, amount: -left * (count === 0 ? cost.first : cost.renewal)});
  return flows;
}

/** The lives that count: other causes end an overlay by the longest life. */
export function cycleOf(life: number, renewalLife: number | null, options: CostOptions): LifeCycle {
  const longest = options.longestLife;
  requireLife("longestLife", longest);
  const own = Math.min(life, longest);
  return {life: own, renewalLife: renewalLife === null ? own : Math.min(renewalLife, longest), period: options.period};
}
