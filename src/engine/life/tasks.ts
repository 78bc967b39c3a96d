/** A study cut into independent pieces: what is computed once for each treatment and temperature. */

import type {PavementTemperatures} from "../climate/index.ts";
import {deriveBins, pavementTemperatures} from "../climate/index.ts";
import {Cancelled, InputError} from "../errors.ts";
import {
  type Condition,
  type Geometry,
  respond,
  responseGeometry,
  type StateSpace,
  TIPS,
  type TransferSpring,
  transferSpring,
} from "../response/index.ts";
import {modulusAt, type Section} from "../section/index.ts";
import type {Traffic} from "../traffic/index.ts";
import {type Lane, laneOf, wander} from "./lane.ts";
import {ordinaryLives} from "./ordinary.ts";
import {passAdvance, patchesOf, tipLaws, tipLayers} from "./passes.ts";
import {type CrackGrid, crackGrid} from "./rates.ts";
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
import type {JointMovement, OrdinaryLife, Study, TemperatureBin, TreatmentLife} from "./types.ts";

interface Task {
  readonly treatment: number; // index
  readonly label: string;
  readonly weight: number; // of its time [–]
  readonly bins: readonly TemperatureBin[]; // of the study, as given or derived
}

export type LifeTask =
  | (Task & {readonly kind: "traffic"; readonly temperature: number}) // [°C]
  | (Task & {readonly kind: "thermal"})
  | (Task & {readonly kind: "ordinary"});

/** Growth per pass at one temperature, wander applied: by class, [state][tip][y]. */
export interface TrafficPiece {
  readonly kind: "traffic";
  readonly task: LifeTask;
  readonly temperature: number; // [°C]
  readonly cracks: CrackGrid;
  readonly lane: Lane;
  readonly advance: readonly Float64Array[]; // by class [m per pass]
  readonly peak: readonly Float64Array[]; // by class, [state][tip], largest tip strain [–]
  readonly unsettled: readonly number[]; // by class; see PassAdvance [–]
  readonly transfer: TransferSpring;
  readonly warnings: readonly string[];
}

export interface ThermalPiece {
  readonly kind: "thermal";
  readonly task: LifeTask;
  readonly cracks: CrackGrid;
  readonly temperatures: PavementTemperatures;
  readonly growth: ThermalGrowth;
  readonly cycles: TreatmentLife["thermalCycles"];
  readonly jointMovement: JointMovement;
  readonly warnings: readonly string[];
}

export interface OrdinaryPiece {
  readonly kind: "ordinary";
  readonly task: LifeTask;
  readonly lives: readonly OrdinaryLife[];
  readonly warnings: readonly string[];
}

export type LifePiece = TrafficPiece | ThermalPiece | OrdinaryPiece;

/** Bins of a study: as given, or from the control's temperatures. */
function binsOf(study: Study): readonly TemperatureBin[] {
  if (!("kind" in study.bins)) return study.bins;
  if (!study.weather)
    throw new InputError("shape", "weather", null, "a record from which temperature bins can be derived");
  const t = pavementTemperatures(study.treatments[0].section, study.weather, study.exchange);
  return deriveBins(t.halfWayOverlay, study.bins.count);
}

/** Temperatures at which the section is solved: every bin's, or one when no modulus changes with temperature. */
function solvedTemperatures(study: Study, bins: readonly TemperatureBin[]): number[] {
  const varies = study.treatments.some(t => t.section.layers.some(l => l.material.modulus.length > 1));
  return varies ? bins.map(b => b.temperature) : [bins[0].temperature];
}

/** Load classes that pass at all. */
export function activeTraffic({classes, standardAxle}: Traffic): Traffic {
  return {classes: classes.filter(c => c.passesPerYear > 0), standardAxle};
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

/** The pieces, heaviest kind first; their order is that in which `assembleLife` wants the results. */
export function lifeTasks(study: Study): readonly LifeTask[] {
  const bins = binsOf(study);
  checkStudy(study, bins);
  const temperatures = solvedTemperatures(study, bins);
  const withTraffic = activeTraffic(study.traffic).classes.length > 0;
  return study.treatments.flatMap(({name, section}, treatment): LifeTask[] => {
    const interlayer = section.layers.some(l => l.role === "interlayer");
    const pieces: LifeTask[] = [];
    if (withTraffic) {
      for (const temperature of temperatures) {
        pieces.push({
          kind: "traffic",
          treatment,
          temperature,
          label: `${name}, wheels at ${temperature.toFixed(0)} °C`,
          weight: interlayer ? 2.5 : 1,
          bins,
        });
      }
      pieces.push({kind: "ordinary", treatment, label: `${name}, fatigue away from the joint`, weight: 0.3, bins});
    }
    if (study.weather) pieces.push({kind: "thermal", treatment, label: `${name}, temperature`, weight: 0.3, bins});
    return pieces;
  });
}

/** Wheels are followed so far from the joint [m]; the model is longer. */
const REACH = 4;

/**
 * @param onProgress called with the part done; returning false cancels
 * @throws Cancelled, InputError
 */
export function runLifeTask(
  study: Study,
  task: LifeTask,
  onProgress: (part: number) => boolean = () => true,
): LifePiece {
  const {section} = study.treatments[task.treatment];
  if (!onProgress(0)) throw new Cancelled();
  const traffic = activeTraffic(study.traffic);
  switch (task.kind) {
    case "traffic":
      return trafficPiece({...study, traffic}, section, task, onProgress);
    case "thermal":
      return thermalPiece(study, section, task);
    case "ordinary": {
      const {lives, warnings} = ordinaryLives({
        section,
        traffic,
        bins: task.bins,
        analysisPeriod: study.analysisPeriod,
      });
      return {kind: "ordinary", task, lives, warnings};
    }
  }
}

function pathLayers(geometry: Geometry): {space: StateSpace; layers: (number | null)[][]} {
  const {model, space} = geometry.meshes[1];
  const elements = Int32Array.from({length: (model.path.length - 1) / 2}, (_, row) => model.mesh.layerOfRow[row]);
  return {space, layers: tipLayers(space, elements)};
}

function trafficPiece(
  study: Study,
  section: Section,
  task: LifeTask & {kind: "traffic"},
  onProgress: (part: number) => boolean,
): TrafficPiece {
  const {traffic, accuracy} = study;
  const moduli = section.layers.map(l => modulusAt(l.material, task.temperature));
  const wheel = traffic.standardAxle.wheels[0];
  const edge = {length: wheel.length, width: wheel.width, pressure: wheel.load / (wheel.length * wheel.width)};
  const transfer = transferSpring(section, moduli, edge, accuracy);
  const warnings: string[] = [];
  if (transfer.floor && section.joint.transfer.kind === "efficiency") {
    warnings.push(
      `The foundation alone transfers ${(100 * transfer.efficiency).toFixed(0)} % across the joint, more than the ` +
        `${(100 * section.joint.transfer.efficiency).toFixed(0)} % given: the load-transfer spring is zero.`,
    );
  }
  const condition: Condition = {moduli, transfer: transfer.stiffness};
  const geometry = responseGeometry(section, {accuracy, reach: REACH});
  const responses = respond(geometry, condition, patchesOf(traffic, REACH), part => onProgress(0.9 * part));
  const lane = laneOf(traffic);
  const {space, layers} = pathLayers(geometry);
  const laws = tipLaws(section, moduli, layers);
  const advance: Float64Array[] = [];
  const peak: Float64Array[] = [];
  const unsettled: number[] = [];
  traffic.classes.forEach((loadClass, k) => {
    const pass = passAdvance(loadClass, responses, lane, laws, section.shearWeight);
    advance.push(wander(lane, loadClass.wanderDeviation, layers.length * TIPS.length, pass.advance));
    peak.push(pass.peak);
    unsettled.push(pass.unsettled);
    if (!onProgress(0.9 + (0.1 * (k + 1)) / traffic.classes.length)) throw new Cancelled();
  });
  return {
    kind: "traffic",
    task,
    temperature: task.temperature,
    cracks: crackGrid(space),
    lane,
    advance,
    peak,
    unsettled,
    transfer,
    warnings,
  };
}

function thermalPiece(study: Study, section: Section, task: LifeTask): ThermalPiece {
  const run = pavementTemperatures(section, study.weather!, study.exchange);
  const {warnings, surface, overlayMean, slabMean, slabGradient, halfWayOverlay} = run;
  const temperatures = {surface, overlayMean, slabMean, slabGradient, halfWayOverlay};
  const geometry = responseGeometry(section, {accuracy: study.accuracy, reach: 0});
  const response: ThermalResponse = thermalResponse(geometry);
  const {space, layers} = pathLayers(geometry);
  const laws = tipLaws(section, thermalCondition(section).moduli, layers);
  const history = thermalHistory(temperatures, study.neutralTemperature);
  const tip = space.interlayer.length > 1 ? 0 : 1;
  const cycles = thermalCycles(response, history, {state: 0, tip, planeStrainModulus: laws[tip]!.planeStrainModulus});
  const [coldest, hottest] = bounds(slabMean);
  const range = hottest - coldest;
  const jointed = section.layers.find(l => l.role === "jointed")!;
  return {
    kind: "thermal",
    task,
    cracks: crackGrid(space),
    temperatures,
    growth: thermalGrowth(response, history, laws),
    cycles: {front: TIPS[tip], ...cycles},
    jointMovement: {
      free: jointed.material.expansion * section.joint.spacing * range,
      computed: Math.abs(response.jointOpening[0]) * range,
      perDegree: Math.abs(response.jointOpening[0]),
    },
    warnings,
  };
}
