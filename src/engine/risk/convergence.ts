import {Cancelled, InputError} from "../errors.ts";
import {twoSidedT} from "../statistics/index.ts";
import {twoSidedZ} from "./ordered.ts";
import {orderedLives, survivalOf} from "./reliability.ts";
import {type ErrorSource, lifeOfReplicates, survivalOfReplicates} from "./replicates.ts";
import type {SampledLife} from "./types.ts";

/** What is to be known well enough: ln of the life at a reliability, or the probability of surviving a period. */
export type Target =
  | {readonly kind: "life"; readonly reliability: number}
  | {readonly kind: "survival"; readonly years: number};

export interface ConvergencePlan {
  readonly target: Target;
  readonly error: number; // to get below with the standard error: of ln life, or of the probability [–]
  readonly first: number; // samples of a replicate's first block; each further block doubles them
  readonly most: number; // samples of all replicates together
  /**
   * Independent series of points. With 1 the error is that of independent samples, too large for Sobol points; with more
   * it comes from their spread.
   */
  readonly replicates: number;
}

/** Samples to compute: of one replicate's series those from `skip` on. */
export interface Block {
  readonly replicate: number; // from 0; its points need a seed of their own
  readonly skip: number;
  readonly count: number;
}

export interface ConvergenceStep {
  readonly samples: number; // of all replicates
  /** ln life [ln years], or probability [–]; null when the life at that reliability is not known from the samples. */
  readonly value: number | null;
  readonly error: number | null;
  readonly errorFrom: ErrorSource;
}

export interface Convergence {
  readonly outcome: "reached" | "most samples" | "beyond horizon";
  readonly trace: readonly ConvergenceStep[];
  readonly lives: readonly (readonly SampledLife[])[]; // by replicate
}

/**
 * Runs blocks of samples, each as long as all before it, until the standard error is small enough or the next block would
 * exceed the most samples. It ends early as well when the life asked for is surely beyond the horizon: then no number of
 * samples finds it.
 *
 * @param evaluate    lives of the samples of a block, in order
 * @param onProgress  after each step; returning false cancels
 * @throws Cancelled
 */
export async function runUntil(
  plan: ConvergencePlan,
  evaluate: (block: Block) => readonly SampledLife[] | Promise<readonly SampledLife[]>,
  onProgress: (step: ConvergenceStep) => boolean = () => true,
): Promise<Convergence> {
  requirePlan(plan);
  const lives: SampledLife[][] = Array.from({length: plan.replicates}, () => []);
  const trace: ConvergenceStep[] = [];
  for (let skip = 0, count = plan.first; ; skip += count, count = skip) {
    for (let replicate = 0; replicate < plan.replicates; replicate++) {
      const block = await evaluate({replicate, skip, count});
      if (block.length !== count) throw new InputError("shape", "evaluate(block).length", block.length, `${count}`);
      for (const life of block) lives[replicate].push(life); // a block may be longer than a call takes arguments
    }
    const step = stepOf(plan.target, lives);
    trace.push(step);
    if (!onProgress(step)) throw new Cancelled();
    if (isSmall(trace, plan)) return {outcome: "reached", trace, lives};
    if (isBeyond(plan.target, lives.flat())) return {outcome: "beyond horizon", trace, lives};
    if (2 * step.samples > plan.most) return {outcome: "most samples", trace, lives};
  }
}

function requirePlan({target, error, first, most, replicates}: ConvergencePlan): void {
  if (!(error > 0 && error < Infinity)) throw new InputError("domain", "error", error, "finite, > 0");
  for (const [path, value] of [
    ["first", first],
    ["replicates", replicates],
  ] as const)
    if (!(Number.isInteger(value) && value >= 1)) throw new InputError("domain", path, value, "a whole number ≥ 1");
  if (!(most >= first * replicates)) throw new InputError("domain", "most", most, `≥ ${first * replicates}`);
  if (target.kind === "life" && !(target.reliability > 0 && target.reliability < 1))
    throw new InputError("domain", "target.reliability", target.reliability, "in (0, 1)");
  if (target.kind === "survival" && !(target.years >= 0 && target.years < Infinity))
    throw new InputError("domain", "target.years", target.years, "finite, ≥ 0");
}

function stepOf(target: Target, lives: readonly (readonly SampledLife[])[]): ConvergenceStep {
  const samples = lives.reduce((sum, one) => sum + one.length, 0);
  if (target.kind === "survival") {
    const {probability, error, errorFrom} = survivalOfReplicates(lives, target.years);
    return {samples, value: probability, error, errorFrom};
  }
  const {life, logError, errorFrom} = lifeOfReplicates(lives, target.reliability);
  const value = life.low === life.high && life.low > 0 ? Math.log(life.low) : null;
  return {samples, value, error: value === null ? null : logError, errorFrom};
}

/** No doubling of the samples is believed to make the error less than this part of the one before [–]. */
const LARGEST_GAIN = 0.5;

/**
 * Whether the last error is below the one asked for. Among errors told by a few replicates the one that is small by chance
 * would stop the run. So there it is widened by Student's t over the normal quantile, as a 90 % interval is, and an error
 * counts for no less than half of that of the step before, which the first step does not have.
 */
export function isSmall(
  trace: readonly Pick<ConvergenceStep, "error" | "errorFrom">[],
  {error, replicates}: Pick<ConvergencePlan, "error" | "replicates">,
): boolean {
  const last = trace[trace.length - 1];
  if (last.error === null) return false;
  if (last.errorFrom === "independent samples") return last.error < error;
  const before = trace.at(-2)?.error;
  if (before === undefined || before === null) return false;
  const widened = (twoSidedT(0.9, replicates - 1) / twoSidedZ(0.9)) * Math.max(last.error, LARGEST_GAIN * before);
  return widened < error;
}

/** Whether more survive the horizon than the reliability asks for, beyond doubt of sampling. */
export function isBeyond(target: Target, lives: readonly SampledLife[]): boolean {
  if (target.kind === "survival") return false;
  const {horizon} = orderedLives(lives);
  return horizon < Infinity && survivalOf(lives, horizon, 0.99).interval.low > target.reliability;
}
