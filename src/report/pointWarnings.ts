/** What points told of their computation. */
import type {PointOutcome} from "../engine/survey/index.ts";

const MOST_WARNINGS = 8;

/** Warnings of computed points, each once, the most frequent first. */
export function pointWarnings(outcomes: readonly PointOutcome[]): string[] {
  const counts = new Map<string, number>();
  for (const outcome of outcomes)
    for (const w of "failed" in outcome ? [] : outcome.warnings) counts.set(w, (counts.get(w) ?? 0) + 1);
  const sorted = [...counts].sort((a, b) => b[1] - a[1]);
  const told = sorted.slice(0, MOST_WARNINGS).map(([w, n]) => `${w} (${n} of ${outcomes.length} points)`);
  const more = sorted.length - told.length;
  return more > 0 ? [...told, `${more} more, each at fewer points.`] : told;
}
