/** Works off the tasks of a life plan. */
import {type PavementTemperatures, pavementTemperatures, withoutRun} from "../climate/index.ts";
import {Cancelled} from "../errors.ts";
import {
  addInterpolated,
  COARSE,
  type Condition,
  coarseTables,
  correctionBetween,
  correctionTables,
  type Geometry,
  HALVED,
  type LineModel,
  type MeshOfPair,
  type ResponseTables,
  responseGeometry,
  type SolvedPair,
  type StateSpace,
  TIPS,
  type TransferSpring,
  tipLayers,
  transferSpring,
  type WaveValues,
  waveGroups,
  waveSolver,
} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import {geometriesOf, type Stream, streamsOf} from "../traffic/index.ts";
import {closureMaps} from "./closure.ts";
import {type Lane, laneOf, wanderOver} from "./lane.ts";
import {ordinaryLives} from "./ordinary.ts";
import {passAdvance, tipLaws} from "./passes.ts";
import {type PassPlan, passPlan} from "./passPlan.ts";
import type {LifeTask, ResponseRequest, ThermalTask, TrafficTask, WavesTask} from "./plan.ts";
import {type CrackGrid, crackGrid} from "./rates.ts";
import {thermalParts} from "./seasons.ts";
import {
  bounds,
  type ThermalGrowth,
  type ThermalResponse,
  thermalCondition,
  thermalCycles,
  thermalGrowth,
  thermalHistory,
  thermalResponse,
} from "./thermal.ts";
import type {JointMovement, OrdinaryLife, TreatmentLife} from "./types.ts";

export interface SpringPiece {
  readonly kind: "spring";
  readonly transfer: TransferSpring;
}

export interface WavesPiece {
  readonly kind: "waves";
  readonly values: readonly WaveValues[];
}

/** Growth per pass at one temperature, wander applied: by stream of the task's traffic, at the stream's full load. */
export interface TrafficPiece {
  readonly kind: "traffic";
  readonly treatment: number;
  readonly temperature: number; // [°C]
  readonly cracks: CrackGrid;
  readonly lane: Lane;
  readonly advance: readonly Float64Array[]; // by stream, [state][tip][y] [m per pass]
  readonly further: readonly (readonly Float64Array[])[]; // the same, by stream and further exponent of the task
  readonly exponent: Float64Array; // [state][tip], n of the law there; 0 where there is no such tip [–]
  readonly tipLayer: Int8Array; // [state][tip], layer that the tip is in; −1 where there is no such tip
  readonly peak: readonly Float64Array[]; // by stream, [state][tip], largest tip strain [–]
  readonly unsettled: readonly number[]; // by stream; see PassAdvance [–]
  readonly transfer: TransferSpring;
  readonly warnings: readonly string[];
}

export interface ThermalPiece {
  readonly kind: "thermal";
  readonly treatment: number;
  readonly cracks: CrackGrid;
  readonly temperatures: PavementTemperatures | null; // null: the plan has them
  readonly growth: ThermalGrowth;
  readonly tipLayer: Int8Array; // [state][tip], as of a traffic piece
  readonly cycles: TreatmentLife["thermalCycles"];
  readonly jointMovement: JointMovement;
  readonly warnings: readonly string[];
}

export interface OrdinaryPiece {
  readonly kind: "ordinary";
  readonly treatment: number;
  readonly lives: readonly OrdinaryLife[];
  readonly warnings: readonly string[];
}

export type LifePiece = SpringPiece | WavesPiece | TrafficPiece | ThermalPiece | OrdinaryPiece;

/** Works off one task; `inputs` are the results of those it needs, in their order. */
export type LifeWorker = (
  task: LifeTask,
  inputs: readonly LifePiece[],
  onProgress?: (part: number) => boolean,
) => LifePiece;

/**
 * A worker that remembers the last meshes and solvers it made: tasks of one treatment and temperature share them.
 *
 * The worker throws InputError; Cancelled when `onProgress` returns false.
 */
export function lifeWorker(): LifeWorker {
  const geometries = remembering<Geometry>(REMEMBERED_GEOMETRIES);
  const solvers = remembering<(beta: number) => WaveValues>(REMEMBERED_SOLVERS);
  const plans = remembering<PassPlan[]>(REMEMBERED_PLANS);
  const geometryOf = ({section, accuracy, reach}: ResponseRequest): Geometry =>
    geometries(JSON.stringify([section, String(section.slabFriction), accuracy, reach]), () =>
      responseGeometry(section, {accuracy, reach}),
    );
  const solve: Solve = (request, condition, mesh, waves) => {
    const geometry = geometryOf(request);
    const {section, accuracy, patches} = request;
    const key = JSON.stringify([
      section,
      String(section.slabFriction),
      accuracy,
      patches.map(p => p.length),
      condition,
      mesh,
    ]);
    const solver = solvers(key, () => waveSolver(geometry, mesh, condition, patches));
    const {beta} = mesh === COARSE ? geometry.waves : geometry.corrections;
    return waves.map(k => solver(beta[k]));
  };
  const plansOf: Tools["plansOf"] = ({traffic, request: {patches}}, {waves}, lane) => {
    const geometries = geometriesOf(streamsOf(traffic.classes));
    return plans(JSON.stringify([geometries, patches.map(p => p.length), waves.scale, waves.beta.length]), () =>
      geometries.map(wheels => passPlan({wheels}, {patches, waves}, lane)),
    );
  };
  return (task, inputs, onProgress = () => true) => {
    if (!onProgress(0)) throw new Cancelled();
    switch (task.kind) {
      case "spring":
        return {kind: "spring", transfer: transferSpring(task.section, task.moduli, task.wheel, task.accuracy)};
      case "waves":
        return wavesPiece(task, inputs, solve);
      case "traffic":
        return trafficPiece(task, inputs, {geometry: geometryOf(task.request), solve, plansOf}, onProgress);
      case "thermal":
        return thermalPiece(task);
      case "ordinary":
        return {kind: "ordinary", treatment: task.treatment, ...ordinaryLives(task)};
    }
  };
}

const REMEMBERED_GEOMETRIES = 3; // some megabytes each
const REMEMBERED_SOLVERS = 4;
const REMEMBERED_PLANS = 2;

/** Keeps the last few values made. */
function remembering<Value>(most: number): (key: string, make: () => Value) => Value {
  const known = new Map<string, Value>();
  return (key, make) => {
    const value = known.get(key) ?? make();
    known.delete(key);
    known.set(key, value); // the last one used stands last
    if (known.size > most) known.delete(known.keys().next().value!);
    return value;
  };
}

type Solve = (
  request: ResponseRequest,
  condition: Condition,
  mesh: MeshOfPair,
  waves: readonly number[],
) => WaveValues[];

/** What a worker keeps for its tasks. */
interface Tools {
  readonly geometry: Geometry;
  readonly solve: Solve;
  /** By class. */
  readonly plansOf: (task: TrafficTask, geometry: Geometry, lane: Lane) => readonly PassPlan[];
}

function springOf(inputs: readonly LifePiece[]): TransferSpring {
  const [spring] = inputs;
  if (spring?.kind !== "spring") throw new Error("the first input of a task on waves is its spring");
  return spring.transfer;
}

function wavesPiece({request, moduli, mesh, waves}: WavesTask, inputs: readonly LifePiece[], solve: Solve): WavesPiece {
  return {kind: "waves", values: solve(request, {moduli, transfer: springOf(inputs).stiffness}, mesh, waves)};
}

function trafficPiece(
  task: TrafficTask,
  inputs: readonly LifePiece[],
  {geometry, solve, plansOf}: Tools,
  onProgress: (part: number) => boolean,
): TrafficPiece {
  const {request, moduli, traffic, treatment, temperature} = task;
  const {section} = request;
  const transfer = springOf(inputs);
  const tables = tablesOf(task, inputs, geometry, solve);
  const lane = laneOf(traffic);
  const {model, space} = geometry.meshes[HALVED];
  const laws = tipLaws(section, moduli, tipLayers(model, space));
  const rules = {maps: closureMaps(space), laws, shearWeight: section.shearWeight, further: task.further};
  const plans = plansOf(task, geometry, lane);
  const passes = plans.map((plan, k) => {
    const pass = passAdvance(plan, tables, rules);
    if (!onProgress((k + 1) / plans.length)) throw new Cancelled();
    return pass;
  });
  const streams = streamsOf(traffic.classes);
  const spread = ({wander}: Stream, values: Float64Array): Float64Array =>
    wanderOver(lane, wander, laws.length, values);
  const advance = streams.map(s => spread(s, passes[s.geometry].advance));
  const further = streams.map(s => passes[s.geometry].further.map(values => spread(s, values)));
  const peak = streams.map(s => passes[s.geometry].peak);
  const unsettled = streams.map(s => passes[s.geometry].unsettled);
  const exponent = Float64Array.from(laws, law => law?.exponent ?? 0);
  const tipLayer = layerOfTips(model, space);
  const warnings = transferWarnings(section, transfer);
  const cracks = crackGrid(space);
  return {
    kind: "traffic",
    treatment,
    temperature,
    cracks,
    lane,
    advance,
    further,
    exponent,
    tipLayer,
    peak,
    unsettled,
    transfer,
    warnings,
  };
}

function layerOfTips(model: LineModel, space: StateSpace): Int8Array {
  return Int8Array.from(tipLayers(model, space).flat(), layer => layer ?? -1);
}

/** A deflection test in which the model moves by more than this part otherwise than was measured is worth a word [–]. */
const DEFLECTION_ALIKE = 0.25;

function transferWarnings({joint: {transfer: given}}: Section, transfer: TransferSpring): string[] {
  const warnings: string[] = [];
  const percent = (part: number): string => `${(100 * part).toFixed(0)} %`;
  if (transfer.floor && given.kind === "efficiency") {
    warnings.push(
      `The foundation alone transfers ${percent(transfer.efficiency)} across the joint, more than the ` +
        `${percent(given.efficiency)} given: the load-transfer spring is zero.`,
    );
  }
  for (const {name, efficiency, floor, loaded, computed} of transfer.tested ?? []) {
    if (floor) {
      warnings.push(
        `Deflection test, ${name}: the foundation alone transfers more than the ${percent(efficiency)} measured: the ` +
          "load-transfer spring is zero.",
      );
    }
    const difference = computed / loaded - 1;
    if (Math.abs(difference) > DEFLECTION_ALIKE) {
      warnings.push(
        `Deflection test, ${name}: the section deflects ${percent(Math.abs(difference))} ${difference > 0 ? "more" : "less"} ` +
          "on the loaded side than was measured. Its moduli or its base are not those of the pavement tested.",
      );
    }
  }
  return warnings;
}

/**
 * How large the estimated error of interpolating the correction over temperature may be, as a part of the accuracy asked
 * for. The estimate is of the worst value of all; in lives its effect is a tenth of it or less (docs/theory/response.md).
 */
const DOUBT_ACCEPTED = 1;

/** Coarse tables with their correction: solved, or where the temperatures solved do not tell it well, made up for here. */
function tablesOf(
  {request, moduli, pairs}: TrafficTask,
  inputs: readonly LifePiece[],
  geometry: Geometry,
  solve: Solve,
): ResponseTables {
  const {patches, accuracy, section} = request;
  const values = inputs.slice(1).flatMap(piece => (piece.kind === "waves" ? piece.values : []));
  const {corrected, between} = waveGroups(section, accuracy);
  const take = (count: number): WaveValues[] => values.splice(0, count);
  const own = take(geometry.waves.beta.length);
  const order = [...corrected, ...between.flat()];
  const coarse = own.map((_, k) => own[order.indexOf(k)]);
  const known = own.slice(0, corrected.length);
  const solved = pairs.map((weight): SolvedPair => {
    return {weight, coarse: take(corrected.length), halved: take(corrected.length)};
  });
  const tables = coarseTables(geometry, patches, coarse);
  const {correction, doubt} = correctionBetween(geometry, patches, known, solved);
  if (doubt <= DOUBT_ACCEPTED * accuracy) addInterpolated(tables, correction);
  else {
    const condition = {moduli, transfer: springOf(inputs).stiffness};
    const halved = solve(request, condition, HALVED, [...corrected.keys()]);
    addInterpolated(tables, correctionTables(geometry, patches, [{weight: 1, coarse: known, halved}]));
  }
  return tables;
}

function thermalPiece(task: ThermalTask): ThermalPiece {
  const {section, treatment, accuracy} = task;
  const computed = task.run ? null : pavementTemperatures(section, task.weather!, task.exchange);
  const run = task.run ?? computed!;
  const {warnings, slabMean} = run;
  const geometry = responseGeometry(section, {accuracy, reach: 0});
  const response: ThermalResponse = thermalResponse(geometry);
  const {model, space} = geometry.meshes[HALVED];
  const laws = tipLaws(section, thermalCondition(section).moduli, tipLayers(model, space));
  const parts = thermalParts(geometry, response, thermalHistory(run, task.neutralTemperature));
  const tip = space.interlayer.length > 1 ? 0 : 1;
  const cycles = thermalCycles(parts, {state: 0, tip, planeStrainModulus: laws[tip]!.planeStrainModulus});
  const [coldest, hottest] = bounds(slabMean);
  const range = hottest - coldest;
  const jointed = section.layers.find(l => l.role === "jointed")!;
  return {
    kind: "thermal",
    treatment,
    cracks: crackGrid(space),
    temperatures: computed && withoutRun(computed),
    growth: thermalGrowth(space, parts, laws, task.further),
    tipLayer: layerOfTips(model, space),
    cycles: {front: TIPS[tip], ...cycles},
    jointMovement: {
      free: jointed.material.expansion * section.joint.spacing * range,
      computed: Math.abs(response.jointOpening[0]) * range,
      perDegree: Math.abs(response.jointOpening[0]),
    },
    warnings,
  };
}
