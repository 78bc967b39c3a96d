/** How sure the lives of a study are: samples of its uncertain inputs, sections solved anew where they change. */
import {createHash} from "node:crypto";
import {Cancelled, InputError} from "../engine/errors.ts";
import {type ChangedLife, changedLives, type LifeModel, noChange, type Study} from "../engine/life/index.ts";
import {
  type Input,
  inputMap,
  isBeyond,
  isSmall,
  MOST_SOBOL_DIMENSIONS,
  points,
  sobolDesign,
  sobolIndices,
} from "../engine/risk/index.ts";
import {
  changeOf,
  exponentSpan,
  type InputSwing,
  isStructural,
  LONGEST_COUNTED,
  lifeError,
  REPLICATES,
  type RiskPlan,
  type RiskResult,
  type Sample,
  sizeOf,
  structuralShare,
  type TreatmentRisk,
  treatmentRisks,
  type UncertainInput,
} from "../engine/uncertainty/index.ts";
import type {Pool} from "../pool/index.ts";
import type {Edit, Variations} from "../schema/index.ts";
import {computeModel, openLifePool} from "./life.ts";
import {type Run, runPoints, unsavedRun} from "./runs/index.ts";

export interface RiskProgress {
  readonly doing: "the study as it is" | "samples" | "one input at a time";
  readonly done: number;
  readonly total: number; // as far as it is known
  readonly secondsLeft: number | null;
}

export interface RiskOptions {
  readonly workers: number;
  readonly run?: Run | undefined; // where finished points are kept; default: nowhere
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: RiskProgress) => void) | undefined;
  /** What the samples say so far, after each round but the last. */
  readonly onPicture?: ((result: RiskResult) => void) | undefined;
}

/** Accuracy of sections that are solved for one sample each, in tip strain: finer would not show in a distribution [–]. */
const SAMPLE_ACCURACY = 0.02;
/** Temperature bins of such sections: with 2 % accuracy and four bins the road's lives are 1.8 and 0.6 % long, in half the time. */
const SAMPLE_BINS = 4;
/** A first picture comes after so many; they double. */
const FIRST_SOLUTIONS = 4;
const BLOCK = 32; // samples of a replicate computed in one go
/** Of fewer no quantile is told. */
const FEWEST_SAMPLES = 8;
const FEWEST_PER_SOLUTION = 8;
/** Deviations of an exponent that the models span. */
const SPAN_DEVIATIONS = 5;
const LEAST_SPAN = 0.25; // [–]
const QUANTILES = [0.1, 0.9] as const; // of one input at a time

/**
 * @throws InputError; Cancelled; RunFileError
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

/** Of all that samples depend on beside the study and its treatments, so that a run file of others is seen. */
export function samplingHash(plan: RiskPlan): string {
  const rules = {
    SAMPLE_ACCURACY,
    SAMPLE_BINS,
    FEWEST_PER_SOLUTION,
    BLOCK,
    REPLICATES,
    SPAN_DEVIATIONS,
    LEAST_SPAN,
    QUANTILES,
    DEPTH_DIGITS,
  };
  return createHash("sha256")
    .update(JSON.stringify([plan.inputs, rules]))
    .digest("hex")
    .slice(0, 16);
}

export interface SampledLives {
  readonly treatments: readonly TreatmentRisk[];
  readonly errors: readonly (number | null)[]; // standard error of ln life at the plan's reliability, by treatment [–]
  readonly samples: number;
}

/**
 * Lives at reliabilities alone, without what they depend on. With the same seed and inputs other studies get the same samples.
 *
 * @throws InputError; Cancelled; RunFileError
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

interface Sampled {
  readonly study: Study;
  readonly plan: RiskPlan;
  readonly variations: Pick<Variations, "vary">;
}

async function inContext<T>(
  {study, plan, variations}: Sampled,
  {run = unsavedRun(), signal, onProgress, workers}: RiskOptions,
  use: (context: Context) => Promise<T>,
): Promise<T> {
  if (plan.inputs.length === 0) throw new InputError("shape", "uncertainty.inputs.length", 0, "≥ 1");
  const structural = plan.inputs.filter(isStructural);
  const light = plan.inputs.filter(input => !isStructural(input));
  const span = spanOf(light);
  const pools = Array.from({length: workers}, () => openLifePool(1));
  try {
    onProgress?.({doing: "the study as it is", done: 0, total: 1, secondsLeft: null});
    const base = await computeModel(study, span, {workers, signal});
    const solve = async (edits: Edits, slot: number): Promise<LifeModel | string> => {
      const changed = varied(study, variations, edits);
      if (typeof changed === "string") return changed;
      try {
        return await computeModel(changed, span, {pool: pools[slot], signal});
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        pools[slot] = openLifePool(1); // a pool is of no use after a fault
        return error.message;
      }
    };
    return await use({study, plan, base, structural, light, solve, run, pools, signal, onProgress});
  } finally {
    await Promise.all(pools.map(pool => pool.close()));
  }
}

/** Part of the variance that comes from what sections are solved anew for. */
function partOfSection({structural, light}: Context, groups: Drawn["groups"], k: number): number | null {
  if (structural.length === 0) return null;
  return light.length === 0 ? 1 : structuralShare(groups, k);
}

type OnRound = (soFar: Drawn) => void;

/** @param onRound  told after each round but the last, as soon as there is a sample */
function drawnSamples(context: Context, onRound: OnRound = () => undefined): Promise<Drawn> {
  return context.structural.length > 0 ? nestedSamples(context, onRound) : plainSamples(context, onRound);
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

type Edits = readonly {readonly input: UncertainInput; readonly value: number}[];

interface Context {
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

interface Drawn {
  readonly samples: readonly Sample[];
  readonly groups: readonly (readonly Sample[])[]; // of one section each
  readonly solutions: number;
  readonly refused: RiskResult["refused"];
  readonly trace: RiskResult["trace"];
  readonly reached: boolean;
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

/** Lives at light values; why not, when they are impossible or the model does not reach so far. */
function sampleOf(model: LifeModel, light: readonly UncertainInput[], values: ArrayLike<number>): Sample | string {
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

const DEPTH_DIGITS = 4;

/** What the run file keeps of one section, or of one block without such. */
interface PointResult {
  readonly samples: readonly Sample[];
  readonly refused: readonly string[]; // one a sample
}

/** Samples `skip` and on of one series of light inputs. */
interface LightSeries {
  readonly seed: number;
  readonly skip: number;
  readonly count: number;
}

function lightSamples(
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
function seedOf(plan: RiskPlan, kind: "structural" | "light" | "indices", series: number): number {
  const kinds = {structural: 1, light: 2, indices: 3};
  return plan.seed + 1_000_003 * (3 * series + kinds[kind]);
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
    await new Promise(resolve => setImmediate(resolve)); // progress and signals get their turn
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

/** Base samples of the indices; inputs and two more times as many lives. */
const INDEX_SAMPLES = 256;
const BOOTSTRAPS = 100;

/** Sobol indices of what needs no section solved anew, in the study's own section. */
async function lightIndices({study, plan, base, light, signal}: Context): Promise<RiskResult["indices"]> {
  if (light.length < 2) return null;
  const map = inputMap(light as readonly Input[]);
  if (2 * map.dimensions > MOST_SOBOL_DIMENSIONS) return null;
  const design = sobolDesign({groups: map.groups, count: INDEX_SAMPLES, seed: seedOf(plan, "indices", 0)});
  const logs = study.treatments.map(() => new Float64Array(design.rows));
  for (let r = 0; r < design.rows; r++) {
    if (r % 64 === 0) await new Promise(resolve => setImmediate(resolve)); // signals get their turn
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
async function swingsOneByOne({
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
