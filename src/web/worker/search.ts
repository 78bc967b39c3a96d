/** How thick: the least thickness that reaches a life, for the page. */
import {
  computeSearch,
  FIXED_SPREAD,
  hasFixedSpread,
  openPointLives,
  type PointComputer,
  pointFaults,
  type Run,
  type SearchPlan,
  searchPlan,
} from "../../compute/index.ts";
import {InputError} from "../../engine/errors.ts";
import type {SearchCase} from "../../report/live/index.ts";
import type {Variations} from "../../schema/index.ts";
import type {AskedThickness, Progress} from "./channel.ts";
import {Refused} from "./outcome.ts";
import {openPool, THREADS} from "./pools.ts";

/** Solved anew at each thickness, for a reliability; as the command line has it where nothing else is said. */
const SECTIONS = 16;

export interface SearchJob {
  readonly variations: Variations;
  readonly asked: AskedThickness;
  readonly run: Run;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Progress) => void;
}

/** @throws Refused; PointFaults; InputError; Cancelled */
export async function computeThickness({variations, asked, run, signal, onProgress}: SearchJob): Promise<SearchCase> {
  if (variations.base.kind === "faults") throw new InputError("domain", "study", "faults", "a study without faults");
  const {study} = variations.base;
  const plan = planOf(variations, asked);
  const [bad] = pointFaults(variations, plan.points);
  if (bad) throw bad;
  const sampling = asked.reliability === null ? undefined : {reliability: asked.reliability, solutions: SECTIONS};
  if (sampling && hasFixedSpread(variations, plan))
    throw new Refused(`Uncertainty of ${plan.input.words}: ${FIXED_SPREAD.problem}; accepted: ${FIXED_SPREAD.need}.`);
  const work = progressOf(plan, sampling !== undefined);
  const tell = (part: number, doing: string): void => onProgress({done: work.with(part), doing});
  const computer = openPointLives({
    variations,
    treatments: plan.computed,
    accuracy: study.accuracy,
    openPool,
    workers: THREADS,
    run,
    signal,
    onProgress: ({done, total}) => tell(done, `thickness ${done} of ${total} in this step`),
    onSampling: ({done, point}) => tell(done * SECTIONS, `samples at ${point[0].value} mm`),
  });
  const counting: PointComputer = {
    ...computer,
    compute: async (points, take) => {
      await computer.compute(points, take);
      work.add(points.length);
    },
    sample: async (point, own) => {
      const sample = await computer.sample(point, own);
      work.add(SECTIONS);
      return sample;
    },
  };
  try {
    const found = await computeSearch({plan, sampling, computer: counting});
    return {study: study.name, accuracy: study.accuracy, ...found};
  } finally {
    await computer.close();
  }
}

/** @throws Refused with all that is wrong */
function planOf(variations: Variations, asked: AskedThickness): SearchPlan {
  const outcome = searchPlan(variations, asked);
  if (outcome.kind === "plan") return outcome.plan;
  const told = outcome.faults.map(
    ({option, found, problem, need}) => `${option} ${found}: ${problem}${need === null ? "" : `; accepted: ${need}`}.`,
  );
  throw new Refused(told.join(" "));
}

/**
 * What part of a search is done: it looks at a few thicknesses over the whole range, and halves a gap for each treatment. Work
 * is counted in lives; a part told once is never taken back.
 */
function progressOf({steps, treatments}: SearchPlan, isSampled: boolean) {
  const looks = Math.min(5, steps.length);
  const halvings = Math.ceil(Math.log2(Math.max(1, steps.length / 4))) + 1;
  const expected = Math.min(steps.length, looks + treatments.length * halvings) * (isSampled ? 1 + SECTIONS : 1);
  let done = 0;
  let told = 0;
  return {
    add: (lives: number): void => {
      done += lives;
    },
    with: (part: number): number => {
      told = Math.max(told, Math.min(0.99, (done + part) / expected));
      return told;
    },
  };
}
