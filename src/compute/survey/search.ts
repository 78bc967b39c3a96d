/** The least thickness of a layer that reaches a life, for each treatment of a study. */
import {
  governingOf,
  type LeastFound,
  LIFE_CAP,
  leastReaching,
  MOST_THICKNESSES,
  type PointOutcome,
  type ThicknessFault,
  type ThicknessGoal,
  thicknessFaults,
  thicknessSteps,
} from "../../engine/survey/index.ts";
import {findInput, type Variations, type VariedInput} from "../../schema/index.ts";
import {type Point, type PointComputer, type PointSample, planAt, type Sampling} from "./points.ts";

export interface AskedSearch extends ThicknessGoal {
  readonly layer?: string | undefined; // of the section; default: the first course of the overlay
  readonly treatments?: readonly string[] | undefined; // by name; default: all
}

export interface SearchPrices {
  readonly currency: string;
  readonly period: number; // over which costs are added up [years]
}

export interface SearchPlan {
  readonly input: VariedInput; // the thickness
  readonly target: number; // life to be reached [years]
  readonly isLaid: boolean; // the layer, by treatments; else it is there already
  readonly prices: SearchPrices | null; // null: the study has none, or the layer is not laid
  readonly steps: readonly number[]; // thicknesses that can be built [mm]
  readonly points: readonly Point[]; // by step
  readonly treatments: readonly string[]; // that are searched
  readonly computed: readonly string[]; // with the control, by whose temperatures bins are derived
  readonly constant: readonly string[]; // of those searched, that give the layer a thickness of their own: nothing changes
}

export interface SearchFault {
  readonly option: "target" | "layer" | "from" | "to" | "step" | "treatment";
  readonly found: string | number;
  readonly problem: string;
  readonly need: string | null; // what is accepted
}

export type SearchPlanOutcome =
  | {readonly kind: "plan"; readonly plan: SearchPlan}
  | {readonly kind: "faults"; readonly faults: readonly SearchFault[]};

/** @param variations  of a study without faults */
export function searchPlan(variations: Variations, asked: AskedSearch): SearchPlanOutcome {
  if (variations.base.kind === "faults") throw new Error("a study with faults has no thickness to be searched");
  const {inputs, study} = variations.base;
  const {layers} = inputs.document.section;
  const layer = asked.layer ?? layers.find(l => l.role === "overlay")?.name ?? "overlay";
  const input = findInput(variations, `section.layers.${layer}.thickness_mm`);
  const names = study.treatments.map(t => t.name);
  const wanted = asked.treatments ?? names;
  const faults = thicknessFaults(asked).map(fault => worded(fault, asked));
  if (input.kind === "none") {
    const need = layers.map(l => l.name).join(", ");
    faults.unshift({option: "layer", found: layer, problem: "the section has no such layer", need});
  }
  for (const name of wanted)
    if (!names.includes(name))
      faults.push({
        option: "treatment",
        found: name,
        problem: "the study has none of that name",
        need: names.join(", "),
      });
  if (faults.length > 0 || input.kind === "none") return {kind: "faults", faults};
  const steps = thicknessSteps(asked);
  const treatments = names.filter(n => wanted.includes(n));
  const isLaid = layers.find(l => l.name === layer)?.role === "overlay";
  const {costs} = study;
  const plan = {
    input: input.input,
    target: asked.target,
    isLaid,
    prices: isLaid && costs ? {currency: costs.currency, period: costs.period} : null,
    steps,
    points: steps.map((value): Point => [{input: input.input, value}]),
    treatments,
    computed: names.filter((n, k) => k === 0 || wanted.includes(n)),
  };
  return {kind: "plan", plan: {...plan, constant: constantOnes(variations, plan)}};
}

function worded(fault: ThicknessFault, asked: AskedSearch): SearchFault {
  const {which: option} = fault;
  const found = asked[option];
  switch (fault.kind) {
    case "not positive":
      return {option, found, problem: "it must be a number above 0", need: null};
    case "too long":
      return {
        option,
        found,
        problem: "a longer life is told by no mechanism",
        need: `above 0, up to ${LIFE_CAP} years`,
      };
    case "reversed":
      return {option, found, problem: "the thickest is thinner than the thinnest", need: `at most ${asked.to}`};
    case "too wide":
      return {option, found, problem: "it is longer than the range", need: `up to ${asked.to - asked.from}`};
    case "too many":
      return {option, found, problem: `${fault.count} thicknesses`, need: `at most ${MOST_THICKNESSES}`};
  }
}

function constantOnes(
  variations: Variations,
  {input, steps, treatments}: Pick<SearchPlan, "input" | "steps" | "treatments">,
): string[] {
  const ends = [steps[0], steps[steps.length - 1]].map(value =>
    variations.vary(input.place.kind === "field" ? [{path: input.place.path, value}] : []),
  );
  const [a, b] = ends;
  if (a.kind !== "study" || b.kind !== "study" || steps.length < 2) return [];
  const thickness = (study: typeof a.study, name: string): number =>
    study.treatments.find(t => t.name === name)!.section.layers.reduce((sum, l) => sum + l.thickness, 0);
  return treatments.filter(name => thickness(a.study, name) === thickness(b.study, name));
}

/**
 * Whether the spread of the searched thickness has values of its own, the same whatever thickness is searched: they would undo
 * the search, because every section would be sampled with them.
 *
 * @throws PointFaults
 */
export function hasFixedSpread(variations: Variations, {input, points}: SearchPlan): boolean {
  if (input.place.kind !== "field" || points.length < 2) return false;
  const path = JSON.stringify(input.place.path);
  const [thin, thick] = [points[0], points[points.length - 1]].map(point =>
    planAt(variations, point).inputs.find(
      ({effect}) => effect.kind === "field" && JSON.stringify(effect.path) === path,
    ),
  );
  return thin !== undefined && JSON.stringify(thin) === JSON.stringify(thick);
}

/** What is wrong then, and what helps. */
export const FIXED_SPREAD = {
  problem: "the spread has values of its own, the same whatever thickness is searched",
  need: "normal with a deviation or cv_percent and no mean, lognormal without a median, or usual: true",
} as const;

export interface SearchRequest {
  readonly plan: SearchPlan;
  readonly sampling?: Sampling | undefined; // lives that samples reach with a reliability; default: those of the study's own values
  readonly computer: PointComputer; // of the plan's computed treatments; left open
}

export interface Searched {
  readonly layer: string; // whose thickness is searched, in words
  readonly isLaid: boolean; // by treatments; else it is there already
  readonly prices: SearchPrices | null; // null: the study has none, or the layer is not laid
  readonly steps: readonly number[]; // thicknesses that can be built [mm]
  readonly target: number; // [years]
  readonly treatments: readonly {readonly name: string; readonly found: LeastFound}[];
  readonly outcomes: ReadonlyMap<number, PointOutcome>; // by step
  readonly sampling: SearchedSampling | null; // null: lives are of the study's own values
  readonly constant: readonly string[]; // treatments whose sections do not change with it
}

export interface SearchedSampling {
  readonly reliability: number; // [–]
  readonly sections: number; // solved anew at each thickness
  readonly samples: ReadonlyMap<number, PointSample>; // by step
}

/** @throws Cancelled; PointFaults; InputError */
export async function computeSearch({plan, sampling, computer}: SearchRequest): Promise<Searched> {
  const {points, target} = plan;
  const outcomes = new Map<number, PointOutcome>();
  const samples = new Map<number, PointSample>();
  const sample = oneByOne(async (step: number, asked: Sampling): Promise<PointSample> => {
    const known = samples.get(step) ?? (await computer.sample(points[step], asked));
    samples.set(step, known);
    return known;
  });
  const ask = inBatches(points, outcomes, computer);
  const treatments: Searched["treatments"][number][] = [];
  for (const name of plan.treatments) {
    const lifeOf = async (step: number): Promise<number | null> => {
      const outcome = await ask(step);
      if ("failed" in outcome) return null;
      const at = outcome.treatments.findIndex(t => t.name === name);
      return sampling ? (await sample(step, sampling)).years[at] : governingOf(outcome.treatments[at]).years;
    };
    treatments.push({name, found: await leastReaching({count: points.length, target, lifeOf})});
  }
  const {steps, isLaid, prices, constant} = plan;
  return {
    layer: plan.input.words,
    isLaid,
    prices,
    steps,
    target,
    treatments,
    outcomes,
    sampling: sampling ? {reliability: sampling.reliability, sections: sampling.solutions, samples} : null,
    constant,
  };
}

/** Each call uses all threads: it waits for those before, and is not begun when one of them fails. */
function oneByOne<A extends readonly unknown[], R>(call: (...all: A) => Promise<R>): (...all: A) => Promise<R> {
  let last: Promise<unknown> = Promise.resolve();
  return (...all) => {
    const result = last.then(() => call(...all));
    last = result;
    return result;
  };
}

/** Steps that are asked for in one go are computed side by side; none is computed twice, for whichever treatment. */
function inBatches(
  points: readonly Point[],
  outcomes: Map<number, PointOutcome>,
  computer: PointComputer,
): (step: number) => Promise<PointOutcome> {
  let batch: number[] = [];
  let running: Promise<void> | null = null;
  const flush = async (): Promise<void> => {
    await Promise.resolve(); // until all of the batch are asked for
    const steps = batch.filter(s => !outcomes.has(s));
    [batch, running] = [[], null];
    await computer.compute(
      steps.map(s => points[s]),
      (outcome, _, k) => outcomes.set(steps[k], outcome),
    );
  };
  return async step => {
    batch.push(step);
    running ??= flush();
    await running;
    return outcomes.get(step)!;
  };
}
