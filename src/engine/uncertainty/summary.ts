/** What samples of lives say of each treatment. */
import type {Mechanism} from "../life/index.ts";
import {
  type DepthHistory,
  type Fan,
  fan,
  type LifeAtReliability,
  lifeAtReliability,
  orderedLives,
  type Ratio,
  ratioOf,
  type SampledLife,
  type Survival,
  survivalOf,
} from "../risk/index.ts";

/** One sample: what became of each treatment under the same inputs. */
export interface Sample {
  readonly lives: readonly (SampledLife & {readonly mechanism: Mechanism})[]; // by treatment
  readonly depths: readonly (readonly number[])[]; // by treatment, at the times of the run [–]
}

export interface TreatmentRisk {
  readonly name: string;
  readonly reliabilities: readonly LifeAtReliability[]; // at 50, 85, 95 % and that of the plan
  readonly survival: Survival | null; // of the analysis period; null where it is beyond the horizon
  readonly fan: Fan;
  readonly mechanisms: readonly {readonly mechanism: Mechanism; readonly share: number}[]; // that end the life, most first
  readonly ratio: Ratio | null; // life over the control's; null for the control
}

const SHOWN = [0.5, 0.85, 0.95];
const RATIOS = [0.05, 0.5, 0.95];

/**
 * @param samples  at least one
 * @param plan     names of the treatments, period and times in years, reliability of the plan
 */
export function treatmentRisks(
  samples: readonly Sample[],
  plan: {
    readonly names: readonly string[];
    readonly period: number;
    readonly times: Float64Array;
    readonly reliability: number;
  },
): TreatmentRisk[] {
  const {names, period, times, reliability} = plan;
  const shown = [...new Set([...SHOWN, reliability])].sort((a, b) => a - b);
  const control = samples.map(s => s.lives[0]);
  return names.map((name, k): TreatmentRisk => {
    const lives = samples.map(s => s.lives[k]);
    const ordered = orderedLives(lives);
    const histories = samples.map(
      (s): DepthHistory => ({years: times, depth: s.depths[k], failed: s.depths[k][times.length - 1] >= 1}),
    );
    return {
      name,
      reliabilities: shown.map(r => lifeAtReliability(ordered, r)),
      survival: period <= ordered.horizon ? survivalOf(ordered, period) : null,
      fan: fan(histories, {years: [...times], probabilities: [0.1, 0.5, 0.9]}),
      mechanisms: mechanismsOf(lives),
      ratio: k === 0 ? null : ratioOf({first: lives, second: control}, RATIOS),
    };
  });
}

function mechanismsOf(lives: readonly {readonly mechanism: Mechanism}[]): TreatmentRisk["mechanisms"] {
  const counts = new Map<Mechanism, number>();
  for (const {mechanism} of lives) counts.set(mechanism, (counts.get(mechanism) ?? 0) + 1);
  return [...counts]
    .map(([mechanism, count]) => ({mechanism, share: count / lives.length}))
    .sort((a, b) => b.share - a.share);
}
