/** Drops of one test as one bowl. */
import type {BowlTest, Drop, Sensor} from "./types.ts";

export interface MeasuredBowl {
  readonly pressure: number; // mean of the drops [Pa]
  readonly sensors: readonly Pick<Sensor, "offset" | "measured" | "repeatError" | "deviation">[];
}

/**
 * Mean over the drops, each brought to their mean pressure in proportion. The accuracy of a sensor is the same in every
 * drop, so that repeating does not make it smaller; the scatter from drop to drop is:
 *
 *   σ² = max(relative·d, absolute)² + s²/n
 */
export function measuredBowl({offsets, drops, accuracy}: BowlTest): MeasuredBowl {
  const n = drops.length;
  const pressure = drops.reduce((sum, d) => sum + d.pressure, 0) / n;
  return {
    pressure,
    sensors: offsets.map((offset, k) => {
      const each = drops.map(d => (d.deflections[k] * pressure) / d.pressure);
      const measured = each.reduce((sum, d) => sum + d, 0) / n;
      const squares = each.reduce((sum, d) => sum + (d - measured) ** 2, 0);
      const repeatError = n > 1 ? Math.sqrt(squares / (n - 1) / n) : null;
      const own = Math.max(accuracy.relative * measured, accuracy.absolute);
      return {offset, measured, repeatError, deviation: Math.hypot(own, repeatError ?? 0)};
    }),
  };
}

/** Loads that differ by more than this can tell whether deflections are in proportion to them [–]. */
const LEVELS_APART = 1.2;
const SAME_LEVEL = 1.05; // drops that close to the highest or lowest pressure are of that level [–]

/** Deflection for each pressure at the highest load over that at the lowest, mean over the sensors; null at one level. */
export function loadTrend(drops: readonly Drop[]): {ratio: number; low: number; high: number} | null {
  const pressures = drops.map(d => d.pressure);
  const [low, high] = [Math.min(...pressures), Math.max(...pressures)];
  if (high < LEVELS_APART * low) return null;
  const mean = (own: readonly Drop[], k: number): number =>
    own.reduce((sum, d) => sum + d.deflections[k] / d.pressure, 0) / own.length;
  const top = drops.filter(d => d.pressure * SAME_LEVEL >= high);
  const bottom = drops.filter(d => d.pressure <= low * SAME_LEVEL);
  const logs = drops[0].deflections.map((_, k) => Math.log(mean(top, k) / mean(bottom, k)));
  return {ratio: Math.exp(logs.reduce((sum, v) => sum + v, 0) / logs.length), low, high};
}
