/** Rounds of samples until the lives are known well enough. */
import {Cancelled, InputError} from "../../engine/errors.ts";
import {type Input, inputMap, isBeyond, isSmall, points} from "../../engine/risk/index.ts";
import {lifeError, REPLICATES, type RiskResult, type Sample} from "../../engine/uncertainty/index.ts";
import {runPoints} from "../runs/index.ts";
import {nextTurn} from "../turn.ts";
import type {Context} from "./context.ts";
import {BLOCK, FEWEST_PER_SOLUTION, FEWEST_SAMPLES, FIRST_SOLUTIONS} from "./rules.ts";
import {lightSamples, type PointResult, seedOf} from "./samples.ts";

export interface Drawn {
  readonly samples: readonly Sample[];
  readonly groups: readonly (readonly Sample[])[]; // of one section each
  readonly solutions: number;
  readonly refused: RiskResult["refused"];
  readonly trace: RiskResult["trace"];
  readonly reached: boolean;
}

type OnRound = (soFar: Drawn) => void;

/** @param onRound  told after each round but the last, as soon as there is a sample */
export function drawnSamples(context: Context, onRound: OnRound = () => undefined): Promise<Drawn> {
  return context.structural.length > 0 ? nestedSamples(context, onRound) : plainSamples(context, onRound);
}

/** Each section solved carries some light samples: sections cost a life, light samples nothing beside it. */
async function nestedSamples(context: Context, onRound: OnRound): Promise<Drawn> {
  const {plan, structural, light, solve} = context;
  const perSolution = Math.max(FEWEST_PER_SOLUTION, Math.floor(plan.mostSamples / plan.mostSolutions));
  const map = inputMap(structural as readonly Input[]);
  const evaluate = async (index: number, slot: number): Promise<PointResult> => {
    const [replicate, skip] = [index % REPLICATES, Math.floor(index / REPLICATES)];
    const seed = seedOf(plan, "structural", replicate);
    const values = map.values(points("sobol", {dimensions: map.dimensions, count: 1, seed, skip}));
    const model = await solve(
      structural.map((input, k) => ({input, value: values[k]})),
      slot,
    );
    const count = light.length > 0 ? perSolution : 1;
    if (typeof model === "string") return {samples: [], refused: Array.from({length: count}, () => model)};
    return lightSamples(model, light, {seed: seedOf(plan, "light", index), skip: 0, count});
  };
  return sampled(context, {evaluate, first: FIRST_SOLUTIONS, most: plan.mostSolutions, solves: true, onRound});
}

async function plainSamples(context: Context, onRound: OnRound): Promise<Drawn> {
  const {plan, base, light} = context;
  const count = Math.min(BLOCK, Math.floor(plan.mostSamples / REPLICATES));
  const evaluate = async (index: number): Promise<PointResult> => {
    await nextTurn(); // progress and signals get their turn
    const [replicate, turn] = [index % REPLICATES, Math.floor(index / REPLICATES)];
    return lightSamples(base, light, {seed: seedOf(plan, "light", replicate), skip: turn * count, count});
  };
  const most = Math.floor(plan.mostSamples / count);
  return sampled(context, {evaluate, first: REPLICATES, most, solves: false, onRound});
}

interface Sampling {
  readonly evaluate: (index: number, slot: number) => Promise<PointResult>;
  readonly first: number; // points of the first round; each further round doubles them
  readonly most: number;
  readonly solves: boolean;
  readonly onRound: OnRound;
}

/** Rounds of points until the lives are known well enough. */
async function sampled(context: Context, {evaluate, first, most, solves, onRound}: Sampling): Promise<Drawn> {
  const {plan, study, run, pools, signal, onProgress} = context;
  const groups: Sample[][] = [];
  const refused: string[] = [];
  const trace: {samples: number; errors: (number | null)[]}[] = [];
  let reached = false;
  const soFar = (): Drawn => ({
    samples: groups.flat(),
    groups,
    solutions: solves ? groups.filter(g => g.length > 0).length : 1,
    refused: {count: refused.length, first: refused[0] ?? null},
    trace,
    reached,
  });
  for (let from = 0, end = Math.min(first, most); ; from = end, end = Math.min(2 * end, most)) {
    await runPoints<number, PointResult>({
      points: Array.from({length: end - from}, (_, k) => from + k),
      key: index => `sample ${index}`,
      evaluate,
      take: result => {
        groups.push([...result.samples]);
        refused.push(...result.refused);
      },
      run,
      slots: pools.length,
      signal,
      onProgress: ({done, secondsLeft}) => onProgress?.({doing: "samples", done: from + done, total: end, secondsLeft}),
    });
    if (signal?.aborted) throw new Cancelled();
    if (groups.flat().length === 0) break; // no sample is a study
    const errors = study.treatments.map((_, k) => lifeError(groups, k, plan.reliability));
    trace.push({samples: groups.reduce((sum, g) => sum + g.length, 0), errors});
    const samples = groups.flat();
    reached = study.treatments.every((_, k) => {
      const told = trace.map(({errors: {[k]: error}}) => ({error, errorFrom: "replicates" as const}));
      return (
        isSmall(told, {error: plan.error, replicates: REPLICATES}) ||
        isBeyond(
          {kind: "life", reliability: plan.reliability},
          samples.map(s => s.lives[k]),
        )
      );
    });
    if (reached || end >= most) break;
    if (groups.flat().length >= FEWEST_SAMPLES) onRound(soFar());
  }
  const {length: count} = groups.flat();
  if (count < FEWEST_SAMPLES)
    throw new InputError(
      "domain",
      "uncertainty",
      `${count} samples that are studies${refused.length > 0 ? `, ${refused.length} that are none: ${refused[0]}` : ""}`,
      `at least ${FEWEST_SAMPLES}`,
    );
  return soFar();
}
