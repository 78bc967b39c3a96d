/** What samples are drawn in: the study solved as it is, and the way to solve it with other sections. */
import {InputError} from "../../engine/errors.ts";
import type {LifeModel, Study} from "../../engine/life/index.ts";
import {
  isStructural,
  type RiskPlan,
  type RiskResult,
  sizeOf,
  type UncertainInput,
} from "../../engine/uncertainty/index.ts";
import type {Pool} from "../../pool/index.ts";
import type {Edit, Variations} from "../../schema/index.ts";
import {computeModel} from "../life.ts";
import type {OpenPool} from "../pools.ts";
import {type Run, unsavedRun} from "../runs/index.ts";
import {LEAST_SPAN, SAMPLE_ACCURACY, SAMPLE_BINS, SPAN_DEVIATIONS} from "./rules.ts";

export interface RiskProgress {
  readonly doing: "the study as it is" | "samples" | "one input at a time";
  readonly done: number;
  readonly total: number; // as far as it is known
  readonly secondsLeft: number | null;
}

export interface RiskOptions {
  readonly openPool: OpenPool;
  readonly workers: number; // ≥ 1
  readonly run?: Run | undefined; // where finished points are kept; default: nowhere
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: RiskProgress) => void) | undefined;
  /** What the samples say so far, after each round but the last. */
  readonly onPicture?: ((result: RiskResult) => void) | undefined;
}

export interface Sampled {
  readonly study: Study;
  readonly plan: RiskPlan;
  readonly variations: Pick<Variations, "vary">;
}

export async function inContext<T>(
  {study, plan, variations}: Sampled,
  {openPool, run = unsavedRun(), signal, onProgress, workers}: RiskOptions,
  use: (context: Context) => Promise<T>,
): Promise<T> {
  if (plan.inputs.length === 0) throw new InputError("shape", "uncertainty.inputs.length", 0, "≥ 1");
  const structural = plan.inputs.filter(isStructural);
  const light = plan.inputs.filter(input => !isStructural(input));
  const span = spanOf(light);
  const pools = Array.from({length: workers}, () => openPool(1));
  try {
    onProgress?.({doing: "the study as it is", done: 0, total: 1, secondsLeft: null});
    const base = await baseModel(study, span, {openPool, workers, signal});
    const solve = async (edits: Edits, slot: number): Promise<LifeModel | string> => {
      const changed = varied(study, variations, edits);
      if (typeof changed === "string") return changed;
      try {
        return await computeModel(changed, span, {pool: pools[slot], signal});
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        pools[slot] = openPool(1); // a pool is of no use after a fault
        return error.message;
      }
    };
    return await use({study, plan, base, structural, light, solve, run, pools, signal, onProgress});
  } finally {
    await Promise.all(pools.map(pool => pool.close()));
  }
}

export type Edits = readonly {readonly input: UncertainInput; readonly value: number}[];

export interface Context {
  readonly study: Study;
  readonly plan: RiskPlan;
  readonly base: LifeModel;
  readonly structural: readonly UncertainInput[];
  readonly light: readonly UncertainInput[];
  readonly solve: (edits: Edits, slot: number) => Promise<LifeModel | string>;
  readonly run: Run;
  readonly pools: readonly Pool[];
  readonly signal: AbortSignal | undefined;
  readonly onProgress: RiskOptions["onProgress"];
}

/** Of the study as it is, on all workers at once. */
async function baseModel(
  study: Study,
  span: number,
  {openPool, workers, signal}: Pick<RiskOptions, "openPool" | "workers" | "signal">,
): Promise<LifeModel> {
  const pool = openPool(workers);
  try {
    return await computeModel(study, span, {pool, signal});
  } finally {
    await pool.close();
  }
}

function spanOf(light: readonly UncertainInput[]): number {
  const deviations = light.map(input =>
    input.effect.kind === "law" && "joint" in input && sizeOf(input) > 1 ? Math.sqrt(input.joint.covariance[1][1]) : 0,
  );
  return Math.max(LEAST_SPAN, SPAN_DEVIATIONS * Math.max(0, ...deviations));
}

/** The study with fields and relaxation moduli changed; why not, when it is none. */
function varied(study: Study, variations: Pick<Variations, "vary">, edits: Edits): Study | string {
  const fields = edits.flatMap(({input: {effect}, value}): Edit[] =>
    effect.kind === "field" ? [{path: effect.path, value}] : [],
  );
  const outcome = fields.length > 0 ? variations.vary(fields) : null;
  if (outcome?.kind === "faults") return `${outcome.faults[0].path}: ${outcome.faults[0].problem}`;
  const written = outcome ? outcome.study : study;
  const factors = new Map(
    edits.flatMap(({input: {effect}, value}) =>
      effect.kind === "relaxation" ? [[effect.material, value] as const] : [],
    ),
  );
  const impossible = [...factors].find(([, factor]) => !(factor > 0));
  if (impossible) return `relaxation modulus of ${impossible[0]}: the factor ${impossible[1]} is not above 0`;
  return {
    ...written,
    accuracy: Math.max(study.accuracy, SAMPLE_ACCURACY),
    bins: "kind" in written.bins ? {...written.bins, count: Math.min(written.bins.count, SAMPLE_BINS)} : written.bins,
    treatments: written.treatments.map(t => ({
      ...t,
      section: {
        ...t.section,
        layers: t.section.layers.map(l => {
          const factor = factors.get(l.material.name);
          if (factor === undefined) return l;
          const {relaxationModulus, seasonalRelaxationModulus} = l.material;
          const moduli = {
            relaxationModulus: factor * relaxationModulus,
            seasonalRelaxationModulus: factor * seasonalRelaxationModulus,
          };
          return {...l, material: {...l.material, ...moduli}};
        }),
      },
    })),
  };
}
