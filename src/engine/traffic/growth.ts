import {InputError, requireNonNegative} from "../errors.ts";

/**
 * First-year passes times this are the passes in so many years. Growth compounds continuously through `period`, and
 * the level reached then is held:
 *
 *   G(t) = ∫₀ᵗ (1+g)^min(s, period) ds = ((1+g)ᵗ − 1)/ln(1+g) for t ≤ period; = t when g = 0.
 *
 * The usual year-by-year sum is ((1+g)ⁿ − 1)/g: smaller by ln(1+g)/g, 1 % at g = 2 %, because there the first year as
 * a whole, and not its first day, has the given rate.
 *
 * @param years   t [years], ≥ 0
 * @param growth  g [1/year], > −1
 * @param period  [years], ≥ 0
 */
export function growthFactor(years: number, growth: number, period: number): number {
  requireNonNegative("years", years, "years");
  requireNonNegative("period", period, "years");
  if (!(growth > -1 && growth < Infinity)) throw new InputError("domain", "growth", growth, "finite, > −1 [1/year]");
  const rate = Math.log1p(growth);
  const growing = Math.min(years, period);
  const accumulated = rate === 0 ? growing : Math.expm1(rate * growing) / rate;
  return accumulated + (years - growing) * Math.exp(rate * growing);
}
