/** What lives depend on: indices of the light inputs, and each input by itself. */
import {Cancelled} from "../../engine/errors.ts";
import {type ChangedLife, changedLives, noChange} from "../../engine/life/index.ts";
import {type Input, inputMap, MOST_SOBOL_DIMENSIONS, sobolDesign, sobolIndices} from "../../engine/risk/index.ts";
import {
  changeOf,
  type InputSwing,
  isStructural,
  LONGEST_COUNTED,
  type RiskResult,
  sizeOf,
} from "../../engine/uncertainty/index.ts";
import {runPoints} from "../runs/index.ts";
import {nextTurn} from "../turn.ts";
import type {Context} from "./context.ts";
import {QUANTILES} from "./rules.ts";
import {sampleOf, seedOf} from "./samples.ts";

/** Base samples of the indices; inputs and two more times as many lives. */
const INDEX_SAMPLES = 256;
const BOOTSTRAPS = 100;

/** Sobol indices of what needs no section solved anew, in the study's own section. */
export async function lightIndices({study, plan, base, light, signal}: Context): Promise<RiskResult["indices"]> {
  if (light.length < 2) return null;
  const map = inputMap(light as readonly Input[]);
  if (2 * map.dimensions > MOST_SOBOL_DIMENSIONS) return null;
  const design = sobolDesign({groups: map.groups, count: INDEX_SAMPLES, seed: seedOf(plan, "indices", 0)});
  const logs = study.treatments.map(() => new Float64Array(design.rows));
  for (let r = 0; r < design.rows; r++) {
    if (r % 64 === 0) await nextTurn(); // signals get their turn
    if (signal?.aborted) throw new Cancelled();
    const one = sampleOf(base, light, map.values(design.points.subarray(r * map.dimensions, (r + 1) * map.dimensions)));
    if (typeof one === "string") return null; // a design with a hole tells nothing
    one.lives.forEach(({years}, k) => {
      logs[k][r] = Math.log(Math.min(years, LONGEST_COUNTED));
    });
  }
  const shares = (of: Float64Array) => sobolIndices(design, of, {replicates: BOOTSTRAPS, seed: plan.seed});
  return {
    names: map.groupNames,
    lives: logs.map(shares),
    ratios: logs.slice(1).map(log => shares(log.map((v, r) => v - logs[0][r]))),
  };
}

/** Each input at its low and high quantile, the others as in the study. */
export async function swingsOneByOne({
  study,
  plan,
  base,
  solve,
  run,
  pools,
  signal,
  onProgress,
}: Context): Promise<InputSwing[]> {
  const ends = plan.inputs.flatMap((input, i) => QUANTILES.map(q => ({input, i, q})));
  const lives: ChangedLife[][] = [];
  await runPoints<(typeof ends)[number], {readonly lives: readonly Omit<ChangedLife, "depths">[]} | null>({
    points: ends,
    key: ({i, q}) => `input ${i} at ${q}`,
    evaluate: async ({input, q}, slot) => {
      const values = inputMap([input as Input]).values(
        Array.from({length: sizeOf(input)}, (_, k) => (k === 0 ? q : 0.5)),
      );
      const model = isStructural(input) ? await solve([{input, value: values[0]}], slot) : base;
      if (typeof model === "string") return null;
      const change = isStructural(input) ? noChange(model) : changeOf(model, [input], values);
      return {lives: changedLives(model, change).map(({years, censored, mechanism}) => ({years, censored, mechanism}))};
    },
    take: result => {
      const none = study.treatments.map(() => ({
        years: Number.NaN,
        censored: true,
        mechanism: "reflection by traffic" as const,
      }));
      lives.push((result?.lives ?? none).map(life => ({...life, depths: new Float64Array(0)})));
    },
    run,
    slots: pools.length,
    signal,
    onProgress: ({done, total, secondsLeft}) => onProgress?.({doing: "one input at a time", done, total, secondsLeft}),
  });
  return plan.inputs
    .map(({name}, i): InputSwing => ({name, low: lives[2 * i], high: lives[2 * i + 1]}))
    .filter(({low, high}) => [...low, ...high].every(life => Number.isFinite(life.years)));
}
