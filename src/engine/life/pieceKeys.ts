/**
 * What the piece of a task depends on, so that a study that was changed a little is solved again only where it must be.
 * Theory: docs/theory/life.md, "What need not be solved again".
 */
import type {WeatherRecord} from "../climate/index.ts";
import {meshSizes} from "../response/index.ts";
import {isPath, type Layer, type Material, type Section} from "../section/index.ts";
import {geometriesOf, type Stream, streamsOf, type Traffic} from "../traffic/index.ts";
import {laneOf} from "./lane.ts";
import type {LifePlan, LifeTask, OrdinaryTask, SpringTask, ThermalTask, TrafficTask} from "./plan.ts";
import type {Study} from "./types.ts";
import type {LifePiece, ThermalPiece, TrafficPiece} from "./work.ts";

/** A piece and the task that it was solved for. */
export interface SolvedPiece {
  readonly task: LifeTask;
  readonly piece: LifePiece;
}

/**
 * By task a text: tasks of one key have one piece, which `fittedPiece` makes the own one of each. Null for springs and waves,
 * whose pieces only other tasks need.
 *
 * @param plan    of the study
 * @param recordOf  tells records apart: the same number for records of the same content only
 */
export function pieceKeys(
  study: Study,
  {tasks}: Pick<LifePlan, "tasks">,
  recordOf: (record: WeatherRecord) => number,
): (string | null)[] {
  const springs = tasks.map(task => (task.kind === "spring" ? textOf(springContent(task)) : null));
  return tasks.map(task => {
    const content = contentOf(task, tasks, springs);
    const record = task.kind === "thermal" ? recordOf(study.weather!) : null;
    return content === null ? null : textOf([task.kind, record, content]);
  });
}

function contentOf(task: LifeTask, tasks: readonly LifeTask[], springs: readonly (string | null)[]): unknown {
  switch (task.kind) {
    case "spring":
    case "waves":
      return null;
    case "traffic":
      return trafficContent(task, tasks, springs);
    case "thermal":
      return thermalContent(task);
    case "ordinary":
      return ordinaryContent(task);
  }
}

/** A text for each content; numbers that JSON has not are told apart. */
function textOf(content: unknown): string {
  return JSON.stringify(content, (_, value: unknown) => {
    if (typeof value === "number" && !Number.isFinite(value)) return String(value);
    return ArrayBuffer.isView(value) ? Array.from(value as Float64Array) : value;
  });
}

/** Growth goes with A, which `fittedPiece` puts right; names matter where they are alike, and no words do. */
function bareLayers(
  {layers}: Pick<Section, "layers">,
  bare: (material: Material) => Partial<Material>,
): readonly unknown[] {
  const names = layers.map(l => l.material.name);
  return layers.map(({name: _, material, ...layer}) => {
    const {masterCurve: __, source: ___, estimated: ____, growth, ...rest} = bare(material) as Material;
    return {
      ...layer,
      material: {...rest, name: names.indexOf(material.name), growth: growth && {...growth, coefficient: 1}},
    };
  });
}

/** What wheels strain at given moduli: nothing of heat, of relaxation or of fatigue away from the joint. */
function underWheels({layers, ...section}: Section): unknown {
  const bare = (material: Material): Partial<Material> => {
    const {
      relaxationModulus,
      seasonalRelaxationModulus,
      expansion,
      conductivity,
      density,
      heatCapacity,
      fatigue,
      ...rest
    } = material;
    return rest;
  };
  return {...section, layers: bareLayers({layers}, bare)};
}

/**
 * The waves that a task is given are of its own section: their moduli and springs tell them.
 *
 * @param springs  by task what a spring depends on; null for other tasks
 */
function trafficContent(task: TrafficTask, tasks: readonly LifeTask[], springs: readonly (string | null)[]): unknown {
  const {request, moduli, further, pairs, traffic, needs} = task;
  const {section, accuracy, reach, patches} = request;
  const used = [...new Set(needs.map(n => springs[n] ?? springs[tasks[n].needs[0]]))];
  const given = needs.map(n => {
    const need = tasks[n];
    return need.kind === "waves" && [need.mesh, need.waves, need.moduli, used.indexOf(springs[need.needs[0]])];
  });
  const streams = streamsOf(traffic.classes);
  return [
    underWheels(section),
    {accuracy, reach, moduli, further, pairs},
    patches.map(p => p.length),
    {springs: used, given},
    geometriesOf(streams),
    tracksOf(streams),
    laneOf(traffic),
  ];
}

/** Streams on one track have the same growth per pass. */
function tracksOf(streams: readonly Stream[]): string[] {
  return [...new Set(streams.map(trackOf))];
}

function trackOf({geometry, wander}: Stream): string {
  return textOf([geometry, wander]);
}

/** Of the layers above the jointed one nothing counts but the size of elements. */
function springContent({section, moduli, wheel, accuracy}: SpringTask): unknown {
  const {layers, joint, base, slabFriction} = section;
  const {rowSize, waveCount} = meshSizes(section, accuracy);
  const below = layers.map((_, k) => k).filter(k => !isPath(layers[k].role));
  const bare = ({name, modulus, poisson}: Material): Partial<Material> => ({name, modulus, poisson});
  const stack: readonly Layer[] = below.map(k => layers[k]);
  return [
    bareLayers({layers: stack}, bare),
    below.map(k => moduli[k]),
    {joint, base, slabFriction, wheel, accuracy, rowSize, waveCount},
  ];
}

/** Moduli of the thermal response are those of relaxation, and no load passes the joint. */
function thermalContent({section, exchange, neutralTemperature, accuracy, further, run}: ThermalTask): unknown {
  const {layers, joint, ...rest} = section;
  const {transfer: _, ...opening} = joint;
  const bare = ({modulus, fatigue, ...material}: Material): Partial<Material> => material;
  return [
    {...rest, joint: opening, layers: bareLayers({layers}, bare)},
    {exchange, neutralTemperature, accuracy, further, known: run !== null},
  ];
}

/** The uncut section at given moduli; names stand in the piece. */
function ordinaryContent({section, traffic, bins, moduli, analysisPeriod}: OrdinaryTask): unknown {
  const {layers, base, slabFriction} = section;
  const stack = layers.map(({material: {name, poisson, fatigue}, ...layer}) => [layer, name, poisson, fatigue]);
  return [stack, {base, slabFriction, bins, moduli, analysisPeriod}, traffic.classes, traffic.standardAxle];
}

/** A piece that was solved for another task of the same key, as if for this one. */
export function fittedPiece({task: own, piece}: SolvedPiece, task: LifeTask): LifePiece {
  if (piece.kind === "traffic" && own.kind === "traffic" && task.kind === "traffic") {
    const factors = factorsOf(own.request.section, task.request.section, piece.tipLayer);
    const {treatment, temperature} = task;
    return {...onStreams(scaledTraffic(piece, factors), own.traffic, task.traffic), treatment, temperature};
  }
  if (piece.kind === "thermal" && own.kind === "thermal" && task.kind === "thermal")
    return {...scaledThermal(piece, factorsOf(own.section, task.section, piece.tipLayer)), treatment: task.treatment};
  if (piece.kind === "ordinary") return {...piece, treatment: task.treatment};
  throw new Error(`a piece of ${own.kind} is none of ${task.kind}`);
}

/** Advance per cycle goes with A of the layer that the tip is in: by [state][tip]; null when no A is other. */
function factorsOf(from: Section, to: Section, tipLayer: Int8Array): Float64Array | null {
  const ofLayers = from.layers.map(({material: {growth}}, k) => {
    const other = to.layers[k].material.growth;
    return growth && other ? other.coefficient / growth.coefficient : 1;
  });
  if (ofLayers.every(f => f === 1)) return null;
  return Float64Array.from(tipLayer, layer => (layer < 0 ? 1 : ofLayers[layer]));
}

/** @param values  [row][…], rows as many as factors */
function scaled(values: Float64Array, factors: Float64Array): Float64Array {
  const out = values.slice();
  const length = values.length / factors.length;
  for (let r = 0; r < factors.length; r++) {
    const factor = factors[r];
    if (factor === 1) continue;
    for (let k = r * length; k < (r + 1) * length; k++) out[k] *= factor;
  }
  return out;
}

function scaledTraffic(piece: TrafficPiece, factors: Float64Array | null): TrafficPiece {
  if (!factors) return piece;
  return {
    ...piece,
    advance: piece.advance.map(own => scaled(own, factors)),
    further: piece.further.map(all => all.map(own => scaled(own, factors))),
  };
}

function scaledThermal(piece: ThermalPiece, factors: Float64Array | null): ThermalPiece {
  if (!factors) return piece;
  const {advance, further, largestRange} = piece.growth;
  return {
    ...piece,
    growth: {advance: scaled(advance, factors), further: further.map(own => scaled(own, factors)), largestRange},
  };
}

/** Streams are gathered anew when growth rates change, on the same tracks. */
function onStreams(piece: TrafficPiece, from: Traffic, to: Traffic): TrafficPiece {
  if (from === to) return piece;
  const tracks = streamsOf(from.classes).map(trackOf);
  const places = streamsOf(to.classes).map(stream => tracks.indexOf(trackOf(stream)));
  const {advance, further, peak, unsettled} = piece;
  return {
    ...piece,
    advance: places.map(s => advance[s]),
    further: places.map(s => further[s]),
    peak: places.map(s => peak[s]),
    unsettled: places.map(s => unsettled[s]),
  };
}
