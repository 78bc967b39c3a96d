/** Samples of what needs no section solved anew. */
import {InputError} from "../../engine/errors.ts";
import {type ChangedLife, changedLives, type LifeModel} from "../../engine/life/index.ts";
import {type Input, inputMap, points} from "../../engine/risk/index.ts";
import {
  changeOf,
  exponentSpan,
  type RiskPlan,
  type Sample,
  type UncertainInput,
} from "../../engine/uncertainty/index.ts";
import {DEPTH_DIGITS} from "./rules.ts";

/** Lives at light values; why not, when they are impossible or the model does not reach so far. */
export function sampleOf(
  model: LifeModel,
  light: readonly UncertainInput[],
  values: ArrayLike<number>,
): Sample | string {
  const span = Math.max(...model.further);
  if (exponentSpan(light, values) > span) return `an exponent changes by more than ${span.toFixed(2)}`;
  let lives: ChangedLife[];
  try {
    lives = changedLives(model, changeOf(model, light, values));
  } catch (error) {
    if (error instanceof InputError && error.code === "domain") return error.message;
    throw error;
  }
  return {
    lives: lives.map(({years, censored, mechanism}) => ({years, censored, mechanism})),
    depths: lives.map(({depths}) => [...depths].map(d => Number(d.toFixed(DEPTH_DIGITS)))),
  };
}

/** What the run keeps of one section, or of one block without such. */
export interface PointResult {
  readonly samples: readonly Sample[];
  readonly refused: readonly string[]; // one a sample
}

/** Samples `skip` and on of one series of light inputs. */
interface LightSeries {
  readonly seed: number;
  readonly skip: number;
  readonly count: number;
}

export function lightSamples(
  model: LifeModel,
  light: readonly UncertainInput[],
  {seed, skip, count}: LightSeries,
): PointResult {
  if (light.length === 0) {
    const one = sampleOf(model, [], []);
    return typeof one === "string" ? {samples: [], refused: [one]} : {samples: [one], refused: []};
  }
  const map = inputMap(light as readonly Input[]);
  const u = points("sobol", {dimensions: map.dimensions, count, seed, skip});
  const samples: Sample[] = [];
  const refused: string[] = [];
  for (let i = 0; i < count; i++) {
    const values = map.values(u.subarray(i * map.dimensions, (i + 1) * map.dimensions));
    const one = sampleOf(model, light, values);
    if (typeof one === "string") refused.push(one);
    else samples.push(one);
  }
  return {samples, refused};
}

/** A seed of its own for each series of points. */
export function seedOf(plan: RiskPlan, kind: "structural" | "light" | "indices", series: number): number {
  const kinds = {structural: 1, light: 2, indices: 3};
  return plan.seed + 1_000_003 * (3 * series + kinds[kind]);
}
