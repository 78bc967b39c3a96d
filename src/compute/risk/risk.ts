/** How sure the lives of a study are: samples of its uncertain inputs, sections solved anew where they change. */
import {changedLives, noChange, type Study} from "../../engine/life/index.ts";
import {
  type RiskPlan,
  type RiskResult,
  structuralShare,
  type TreatmentRisk,
  treatmentRisks,
} from "../../engine/uncertainty/index.ts";
import type {Variations} from "../../schema/index.ts";
import {type Context, inContext, type RiskOptions} from "./context.ts";
import {lightIndices, swingsOneByOne} from "./dependence.ts";
import {type Drawn, drawnSamples} from "./rounds.ts";

/**
 * @throws InputError; Cancelled; what the run throws
 */
export function computeRisk(
  study: Study,
  plan: RiskPlan,
  variations: Variations,
  options: RiskOptions,
): Promise<RiskResult> {
  return inContext({study, plan, variations}, options, async context => {
    const {onPicture} = options;
    const drawn = await drawnSamples(context, soFar => onPicture?.(resultOf(context, soFar, null)));
    const swings = await swingsOneByOne(context);
    const indices = await lightIndices(context);
    return resultOf(context, drawn, {swings, indices});
  });
}

/** @param dependence  null: not known yet */
function resultOf(
  context: Context,
  drawn: Drawn,
  dependence: Pick<RiskResult, "swings" | "indices"> | null,
): RiskResult {
  const {study, plan, base} = context;
  const {samples, groups, solutions, refused, trace, reached} = drawn;
  return {
    study,
    plan,
    base: changedLives(base, noChange(base)),
    times: base.times,
    treatments: risksOf(context, drawn),
    ...(dependence ?? {swings: [], indices: null}),
    structural: study.treatments.map((_, k) => partOfSection(context, groups, k)),
    samples,
    solutions,
    refused,
    trace: [...trace],
    reached,
    finished: dependence !== null,
  };
}

/** Part of the variance that comes from what sections are solved anew for. */
function partOfSection({structural, light}: Context, groups: Drawn["groups"], k: number): number | null {
  if (structural.length === 0) return null;
  return light.length === 0 ? 1 : structuralShare(groups, k);
}

function risksOf({study, plan, base}: Context, {groups}: Drawn): TreatmentRisk[] {
  const names = study.treatments.map(t => t.name);
  return treatmentRisks(groups, {
    names,
    period: study.analysisPeriod,
    times: base.times,
    reliability: plan.reliability,
  });
}

export interface SampledLives {
  readonly treatments: readonly TreatmentRisk[];
  readonly errors: readonly (number | null)[]; // standard error of ln life at the plan's reliability, by treatment [–]
  readonly samples: number;
}

/**
 * Lives at reliabilities alone, without what they depend on. With the same seed and inputs other studies get the same samples.
 *
 * @throws InputError; Cancelled; what the run throws
 */
export function sampleLives(
  study: Study,
  plan: RiskPlan,
  variations: Pick<Variations, "vary">,
  options: RiskOptions,
): Promise<SampledLives> {
  return inContext({study, plan, variations}, options, async context => {
    const drawn = await drawnSamples(context);
    return {
      treatments: risksOf(context, drawn),
      errors: drawn.trace[drawn.trace.length - 1].errors,
      samples: drawn.samples.length,
    };
  });
}
