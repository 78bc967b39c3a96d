/**
 * A study cut into tasks, each a plain message that can be worked off anywhere, with the results of earlier ones that it
 * needs. The coarse mesh is solved at every temperature, the halved one at a few: in between its correction is interpolated.
 */
import {
  type PavementTemperatureRun,
  type PavementTemperatures,
  type SurfaceExchange,
  type WeatherRecord,
  withoutRun,
} from "../climate/index.ts";
import {InputError} from "../errors.ts";
import {COARSE, type EdgeWheel, HALVED, type MeshOfPair, type Patch, waveGroups} from "../response/index.ts";
import {isPath, modulusAt, type Section} from "../section/index.ts";
import {geometriesOf, streamsOf, type Traffic} from "../traffic/index.ts";
import {layerTemperatures, type StudyBins, studyBins, type TemperaturesOf} from "./bins.ts";
import {patchesOf} from "./passPlan.ts";
import {relaxesFurther} from "./seasons.ts";
import type {ThermalTemperatures} from "./thermal.ts";
import type {Study, TemperatureBin} from "./types.ts";

interface Task {
  readonly treatment: number; // index; of a task that serves several, the first
  readonly label: string;
  readonly weight: number; // of its time [–]
  readonly needs: readonly number[]; // earlier tasks, whose results it is given
}

/** What a response is computed for, at any temperature. */
export interface ResponseRequest {
  readonly section: Section;
  readonly accuracy: number; // [–]
  readonly reach: number; // wheels are followed so far from the joint [m]
  readonly patches: readonly Patch[];
}

/** Spring that gives the load transfer asked for. */
export interface SpringTask extends Task {
  readonly kind: "spring";
  readonly section: Section;
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly wheel: EdgeWheel;
  readonly accuracy: number; // [–]
}

/** Some wavenumbers on one mesh. Needs the spring. */
export interface WavesTask extends Task {
  readonly kind: "waves";
  readonly request: ResponseRequest;
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly mesh: MeshOfPair;
  readonly waves: readonly number[]; // which of the mesh's wavenumbers
}

/**
 * Growth per pass at one temperature. Needs the spring; its own coarse waves, first those at the corrections' wavenumbers;
 * then of each pair the coarse waves at these and the halved ones.
 */
export interface TrafficTask extends Task {
  readonly kind: "traffic";
  readonly request: ResponseRequest;
  readonly temperature: number; // [°C]
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly traffic: Traffic;
  readonly further: readonly number[]; // added to the laws' exponents where growth is wanted with others too [–]
  readonly pairs: readonly number[]; // weights of the temperatures at which the halved mesh is solved [–]
}

export interface ThermalTask extends Task {
  readonly kind: "thermal";
  readonly section: Section;
  readonly weather: WeatherRecord | null; // null: not needed, for there is a run
  readonly exchange: SurfaceExchange;
  readonly neutralTemperature: number | null; // [°C]
  readonly accuracy: number; // [–]
  readonly further: readonly number[]; // as of a traffic task [–]
  readonly run: (ThermalTemperatures & Pick<PavementTemperatureRun, "warnings">) | null; // when the plan has them already
}

/** Fatigue away from the joint. */
export interface OrdinaryTask extends Task {
  readonly kind: "ordinary";
  readonly section: Section;
  readonly traffic: Traffic;
  readonly bins: readonly TemperatureBin[];
  readonly moduli: readonly (readonly number[])[]; // by bin and layer [Pa]
  readonly analysisPeriod: number; // [years]
}

export type LifeTask = SpringTask | WavesTask | TrafficTask | ThermalTask | OrdinaryTask;

export interface LifePlan {
  readonly bins: readonly TemperatureBin[]; // of the study, as given or derived
  readonly temperatures: readonly (PavementTemperatures | null)[]; // by treatment, where the bins needed them
  /** In an order in which they can be worked off. */
  readonly tasks: readonly LifeTask[];
}

/** Bins at whose temperature sections are solved: all, or one when no modulus changes with temperature. */
function solvedBins({treatments}: Study, bins: readonly TemperatureBin[]): readonly TemperatureBin[] {
  const varies = treatments.some(t => t.section.layers.some(l => l.material.modulus.length > 1));
  return varies ? bins : bins.slice(0, 1);
}

/** Moduli of a section's layers in each bin [Pa], each layer at its own temperature. */
function moduliByBin(section: Section, bins: StudyBins, run: PavementTemperatureRun | null): number[][] {
  const temperatures = layerTemperatures(section, bins, run);
  return temperatures.map(layers => section.layers.map((l, k) => modulusAt(l.material, layers[k])));
}

/** What the result tells of the runs; treatments of one run share it. */
function temperaturesOf(runs: StudyBins["runs"]): (PavementTemperatures | null)[] {
  const known = new Map(runs.map(run => [run, run && withoutRun(run)]));
  return runs.map(run => known.get(run)!);
}

/** As much of a run as a thermal task takes: the rest stays here, and does not go to a thread and back. */
function handedOn({
  slabMean,
  slabGradient,
  overlayMean,
  warnings,
}: PavementTemperatureRun): NonNullable<ThermalTask["run"]> {
  return {slabMean, slabGradient, overlayMean, warnings};
}

/** Load classes that pass at all. */
export function activeTraffic(traffic: Traffic): Traffic {
  return {...traffic, classes: traffic.classes.filter(c => c.passesPerYear > 0)};
}

/** What no task could work with, found before any of them starts. */
function checkStudy(study: Study, bins: readonly TemperatureBin[]): void {
  const {treatments, traffic, weather, accuracy} = study;
  if (!treatments.length) throw new InputError("shape", "treatments.length", 0, "≥ 1");
  if (!bins.length) throw new InputError("shape", "bins.length", 0, "≥ 1");
  const shares = bins.reduce((sum, b) => sum + b.share, 0);
  if (!(Math.abs(shares - 1) < 1e-6)) throw new InputError("domain", "bins, sum of shares", shares, "1 [–]");
  if (!traffic.standardAxle.wheels.length)
    throw new InputError("shape", "traffic.standardAxle.wheels.length", 0, "≥ 1");
  if (!activeTraffic(traffic).classes.length && !weather) {
    throw new InputError("shape", "study", "neither passes nor weather", "one of them");
  }
  if (!(accuracy >= FINEST_ACCURACY && accuracy <= COARSEST_ACCURACY)) {
    throw new InputError("domain", "accuracy", accuracy, `${FINEST_ACCURACY} to ${COARSEST_ACCURACY} [–]`);
  }
}

const FINEST_ACCURACY = 1e-3; // beyond it rounding in the small wavenumbers shows
const COARSEST_ACCURACY = 0.05; // beyond it nothing gets coarser

const REACH = 4; // wheels are followed so far from the joint; the model is longer [m]

/** Times of tasks, a coarse wave on a section without interlayer being 1. */
const WEIGHTS = {spring: 2, coarse: 1, halved: 4.5, passes: 6, thermal: 20, ordinary: 10, interlayer: 1.8};

/**
 * @param further  what is added to the exponents of the growth laws where growth is wanted with other ones too [–]
 * @param temperatures  finds a year's temperatures where the plan needs them; default: computes them
 * @throws InputError on a study that cannot be computed
 */
export function lifePlan(study: Study, further: readonly number[] = [], temperatures?: TemperaturesOf): LifePlan {
  const found = studyBins(study, temperatures);
  const {bins, runs} = found;
  checkStudy(study, bins);
  const tasks: LifeTask[] = [];
  const add = (task: LifeTask): number => tasks.push(task) - 1;
  const traffic = activeTraffic(study.traffic);
  const {treatments, weather, exchange, neutralTemperature, accuracy, analysisPeriod} = study;
  const solved = traffic.classes.length ? solvedBins(study, bins) : [];
  const moduli = treatments.map(({section}, k) => (solved.length ? moduliByBin(section, found, runs[k]) : []));
  // Springs first, the rest waits for them; what waits for nothing comes next.
  const springs = springTasks(study, solved, moduli, add);
  treatments.forEach(({name, section}, treatment) => {
    const label = (what: string): string => `${name}, ${what}`;
    const needs: number[] = [];
    if (weather) {
      const run = runs[treatment];
      const known = run && handedOn(run);
      const record = known ? null : weather;
      const thermal = {section, weather: record, exchange, neutralTemperature, accuracy, further, run: known};
      const weight = WEIGHTS.thermal * (relaxesFurther(section) ? 2 : 1);
      add({kind: "thermal", treatment, label: label("temperature"), weight, needs, ...thermal});
    }
    if (traffic.classes.length) {
      const ordinary = {section, traffic, bins, moduli: moduli[treatment], analysisPeriod};
      const what = label("fatigue away from the joint");
      add({kind: "ordinary", treatment, label: what, weight: WEIGHTS.ordinary, needs, ...ordinary});
    }
  });
  treatments.forEach(({name, section}, treatment) => {
    const own = {solved, moduli: moduli[treatment], spring: springs[treatment]};
    addTraffic({name, section, treatment, accuracy, traffic, further, ...own}, add);
  });
  return {bins, tasks, temperatures: temperaturesOf(runs)};
}

/** One task for all treatments and bins with the same layers from the jointed one down; by treatment and bin. */
function springTasks(
  {treatments, traffic, accuracy}: Study,
  solved: readonly TemperatureBin[],
  byTreatment: readonly (readonly (readonly number[])[])[],
  add: (task: LifeTask) => number,
): number[][] {
  const known = new Map<string, number>();
  return treatments.map(({name, section}, treatment) =>
    solved.map((_, bin) => {
      const {length, width, load} = traffic.standardAxle.wheels[0];
      const wheel: EdgeWheel = {length, width, pressure: load / (length * width)};
      const moduli = byTreatment[treatment][bin];
      const below = section.layers.filter(l => !isPath(l.role)).map(l => [l.thickness, l.material, l.bondBelow]);
      const stiff = moduli.filter((_, k) => !isPath(section.layers[k].role));
      const key = JSON.stringify([below, stiff, section.joint, section.base, String(section.slabFriction)]);
      const label = `${name}, load transfer at the joint`;
      const task = {treatment, label, weight: WEIGHTS.spring, needs: [], section, moduli, wheel, accuracy};
      const at = known.get(key) ?? add({kind: "spring", ...task});
      known.set(key, at);
      return at;
    }),
  );
}

interface TrafficOf {
  readonly name: string;
  readonly section: Section;
  readonly treatment: number;
  readonly solved: readonly TemperatureBin[];
  readonly moduli: readonly (readonly number[])[]; // by bin and layer [Pa]
  readonly accuracy: number;
  readonly traffic: Traffic;
  readonly further: readonly number[]; // [–]
  readonly spring: readonly number[]; // task, by bin
}

function addTraffic(of: TrafficOf, add: (task: LifeTask) => number): void {
  const {name, section, treatment, solved, moduli, traffic, further, spring, accuracy} = of;
  const request: ResponseRequest = {section, accuracy, reach: REACH, patches: patchesOf(traffic, REACH)};
  const slower = section.layers.some(l => l.role === "interlayer") ? WEIGHTS.interlayer : 1;
  const {corrected, between} = waveGroups(section, accuracy);
  const passes = geometriesOf(streamsOf(traffic.classes)).length;
  const label = (t: number): string => `${name}, wheels at ${solved[t].temperature.toFixed(0)} °C`;
  const waves = (t: number, mesh: MeshOfPair, which: readonly number[]): number => {
    const weight = slower * which.length * (mesh === COARSE ? WEIGHTS.coarse : WEIGHTS.halved);
    const needs = [spring[t]];
    return add({
      kind: "waves",
      treatment,
      label: label(t),
      weight,
      needs,
      request,
      moduli: moduli[t],
      mesh,
      waves: which,
    });
  };
  const {nodes, weights} = correctionNodes(solved.map((_, t) => stiffness(moduli[t])));
  const coarse = solved.map((_, t) => (nodes.includes(t) ? waves(t, COARSE, corrected) : -1));
  const halved = nodes.map(t => corrected.map((_, k) => waves(t, HALVED, [k])));
  solved.forEach(({temperature}, t) => {
    if (coarse[t] < 0) coarse[t] = waves(t, COARSE, corrected);
    const own = [coarse[t], ...between.map(which => waves(t, COARSE, which))];
    const used = nodes.map((node, i) => ({node, i})).filter(({i}) => weights[t][i] !== 0);
    const needs = [spring[t], ...own, ...used.flatMap(({node, i}) => [coarse[node], ...halved[i]])];
    const weight = slower * WEIGHTS.passes * passes;
    const pairs = used.map(({i}) => weights[t][i]);
    const task = {request, temperature, moduli: moduli[t], traffic, further, pairs};
    add({kind: "traffic", treatment, label: label(t), weight, needs, ...task});
  });
}

/** What the correction is interpolated in: the sum over the layers of ln E. */
export function stiffness(moduli: readonly number[]): number {
  return moduli.reduce((sum, E) => sum + Math.log(E), 0);
}

const CORRECTION_NODES = 3;

/** Which of the places are nodes, the ends and the middle, and Lagrange's weights of the nodes at each place. */
export function correctionNodes(places: readonly number[]): {nodes: number[]; weights: number[][]} {
  const distinct = [...new Set(places)].sort((p, q) => p - q);
  const few = distinct.length <= CORRECTION_NODES;
  const [low, high] = [distinct[0], distinct[distinct.length - 1]];
  const wanted = few
    ? distinct
    : Array.from({length: CORRECTION_NODES}, (_, k) => low + ((high - low) * k) / (CORRECTION_NODES - 1)).map(v =>
        distinct.reduce((best, d) => (Math.abs(d - v) < Math.abs(best - v) ? d : best)),
      );
  const at = [...new Set(wanted)];
  const weights = places.map(x =>
    at.map((own, i) => at.reduce((w, other, j) => (j === i ? w : (w * (x - other)) / (own - other)), 1)),
  );
  return {nodes: at.map(v => places.indexOf(v)), weights};
}
