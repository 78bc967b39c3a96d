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
  replicated,
  type SampledLife,
  type Survival,
  survivalOf,
} from "../risk/index.ts";
import {tQuantile} from "../statistics/index.ts";
import {LONGEST_COUNTED} from "./swings.ts";

/** Series of points scrambled apart, whose quantiles tell how sure they are: group g is of series g mod 8. */
export const REPLICATES = 8;

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
 * @param groups  samples that share a section stand together, the replicates taking turns; one sample at least
 * @param plan    names of the treatments, period and times in years, reliability of the plan
 */
export function treatmentRisks(
  groups: readonly (readonly Sample[])[],
  plan: {
    readonly names: readonly string[];
    readonly period: number;
    readonly times: Float64Array;
    readonly reliability: number;
  },
): TreatmentRisk[] {
  const {names, period, times, reliability} = plan;
  const shown = [...new Set([...SHOWN, reliability])].sort((a, b) => a - b);
  const samples = groups.flat();
  const control = samples.map(s => s.lives[0]);
  return names.map((name, k): TreatmentRisk => {
    const lives = samples.map(s => s.lives[k]);
    const ordered = orderedLives(lives);
    const histories = samples.map(
      (s): DepthHistory => ({years: times, depth: s.depths[k], failed: s.depths[k][times.length - 1] >= 1}),
    );
    return {
      name,
      reliabilities: shown.map(r => sureness(lifeAtReliability(ordered, r), lifeError(groups, k, r))),
      survival: period <= ordered.horizon ? survivalOf(ordered, period) : null,
      fan: fan(histories, {years: [...times], probabilities: [0.1, 0.5, 0.9]}),
      mechanisms: mechanismsOf(lives),
      ratio: k === 0 ? null : ratioOf({first: lives, second: control}, RATIOS),
    };
  });
}

/** Samples that share a section are not independent, nor are Sobol points: replicates tell how sure a quantile is. */
function sureness(at: LifeAtReliability, error: number | null): LifeAtReliability {
  if (error === null) return at;
  const factor = Math.exp(error * tQuantile(0.95, REPLICATES - 1));
  return {...at, logError: error, interval: {low: at.life.low / factor, high: at.life.high * factor}};
}

function mechanismsOf(lives: readonly {readonly mechanism: Mechanism}[]): TreatmentRisk["mechanisms"] {
  const counts = new Map<Mechanism, number>();
  for (const {mechanism} of lives) counts.set(mechanism, (counts.get(mechanism) ?? 0) + 1);
  return [...counts]
    .map(([mechanism, count]) => ({mechanism, share: count / lives.length}))
    .sort((a, b) => b.share - a.share);
}

/**
 * Standard error of ln of a life at a reliability, by how much it differs between the replicates; null where it is beyond the
 * horizon or there are too few.
 */
export function lifeError(
  groups: readonly (readonly Sample[])[],
  treatment: number,
  reliability: number,
): number | null {
  const parts = Array.from({length: REPLICATES}, (_, r) => groups.filter((_, g) => g % REPLICATES === r).flat());
  if (parts.some(part => part.length === 0)) return null;
  const logs = parts.map(part => {
    const {life} = lifeAtReliability(
      part.map(s => s.lives[treatment]),
      reliability,
    );
    return life.low > 0 && life.low === life.high ? Math.log(life.low) : Number.NaN;
  });
  if (logs.some(Number.isNaN)) return null;
  return replicated(logs).error;
}

/**
 * Part of the variance of ln life between groups [–], what is within them by their own variance taken away:
 *
 *   S = (Var(mean of a group) − mean(Var within)/m)/Var, m samples a group
 */
export function structuralShare(groups: readonly (readonly Sample[])[], treatment: number): number | null {
  const full = groups.filter(g => g.length > 1);
  if (full.length < 2) return null;
  const logs = full.map(g => g.map(s => Math.log(Math.min(s.lives[treatment].years, LONGEST_COUNTED))));
  const meanOf = (x: readonly number[]): number => x.reduce((sum, v) => sum + v, 0) / x.length;
  const varianceOf = (x: readonly number[]): number => {
    const mean = meanOf(x);
    return x.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (x.length - 1);
  };
  const within = meanOf(logs.map(varianceOf));
  const size = meanOf(logs.map(g => g.length));
  const between = Math.max(0, varianceOf(logs.map(meanOf)) - within / size);
  return within + between > 0 ? between / (within + between) : null;
}
