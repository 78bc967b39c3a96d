/**
 * A pass of one load class, before any response is known: its trains of wheels, the positions along the pass at which
 * they are superposed, the weights of the solved wheel positions in each, and those of the wavenumbers at each offset.
 */
import {BLOCK, inverseWeights, type Patch, type Strip, type Wavenumbers, wholeBlocks} from "../response/index.ts";
import {isSymmetric, type Traffic, type Wheel} from "../traffic/index.ts";
import type {Lane} from "./lane.ts";

/** One patch for each length of contact that occurs; positions dense near the joint. */
export function patchesOf(traffic: Traffic, reach: number): Patch[] {
  const lengths = [...new Set(traffic.classes.flatMap(c => c.wheels.map(w => w.length)))].sort((p, q) => p - q);
  return lengths.map(length => ({length, centres: wheelCentres(length, reach)}));
}

/** An even number, so that a place has the patch's edge over the joint: shear at the tips has its sharp peak there. */
const STEPS_PER_LENGTH = 8;

function wheelCentres(length: number, reach: number): Float64Array {
  const centres: number[] = [];
  for (let x = 0, step = length / STEPS_PER_LENGTH; x + length / 2 <= reach; x += step) {
    centres.push(x);
    if (x > 1.2 * length) step *= 1.3;
  }
  return Float64Array.from(centres);
}

export interface PassPlan {
  readonly offsets: number; // y of the lane
  readonly rows: number; // the same, in whole blocks
  readonly positions: number; // at which the wheels are superposed
  readonly columns: number; // the same, in whole blocks
  /** Number of the position at each point of the pass: a symmetric class is solved up to its middle only. */
  readonly order: Int32Array;
  readonly along: Float64Array; // x of the group's reference at each point of the pass, ascending [m]
  readonly trains: readonly TrainPlaces[];
  readonly terms: number; // trains × wavenumbers
  /** [offset][train][wave]; zero in padded rows. For quantities even in y, and odd. */
  readonly even: Float64Array;
  readonly odd: Float64Array;
}

/** Which wheels of the tables make up a train at each position, and how much each counts: [position][place]. */
export interface TrainPlaces {
  readonly places: number; // a position; those not needed weigh nothing
  readonly wheel: Int32Array; // column of the tables
  readonly even: Float64Array; // weight for quantities even in x
  readonly odd: Float64Array;
}

/** An axle group or gear. */
interface Group {
  readonly wheels: readonly Wheel[];
}

/** @param tables  wheels and wavenumbers of the responses to come */
export function passPlan(
  group: Group,
  tables: {readonly patches: readonly Patch[]; readonly waves: Wavenumbers},
  lane: Lane,
): PassPlan {
  const {patches, waves} = tables;
  const trains = trainsOf(group, patches);
  const {x, order, along} = halfPass(group, passPositions(trains));
  const [rows, terms] = [wholeBlocks(lane.y.length, BLOCK.offsets), trains.length * waves.beta.length];
  const even = new Float64Array(rows * terms);
  const odd = new Float64Array(rows * terms);
  const K = waves.beta.length;
  trains.forEach(({strips}, t) => {
    const weights = inverseWeights(waves, lane.y, strips);
    for (let i = 0; i < lane.y.length; i++) {
      even.set(weights.even.subarray(i * K, (i + 1) * K), i * terms + t * K);
      odd.set(weights.odd.subarray(i * K, (i + 1) * K), i * terms + t * K);
    }
  });
  return {
    offsets: lane.y.length,
    rows,
    positions: x.length,
    columns: wholeBlocks(x.length, BLOCK.columns),
    order,
    along,
    trains: trains.map(train => trainPlaces(train, x)),
    terms,
    even,
    odd,
  };
}

/** Wheels of one patch length that stand alike across the lane, with the x of each axle that has them. */
interface Train {
  readonly centres: Float64Array; // at which its patch is solved [m]
  readonly firstWheel: number; // column of the tables
  readonly strips: readonly Strip[];
  readonly axles: readonly number[];
}

function trainsOf({wheels}: Group, patches: readonly Patch[]): Train[] {
  // Wheels of one contact length at the same x, each x by itself: staggered wheels are not moved together.
  const abreast = new Map<string, {patch: number; x: number; strips: Strip[]}>();
  for (const {x, y, load, length, width} of wheels) {
    const patch = patches.findIndex(p => p.length === length);
    const key = `${patch} ${x.toFixed(4)}`;
    const place = abreast.get(key) ?? {patch, x, strips: []};
    place.strips.push({centre: y, width, pressure: load / (length * width)});
    abreast.set(key, place);
  }
  const trains = new Map<string, Train & {axles: number[]}>();
  for (const {patch, x, strips} of abreast.values()) {
    const key = JSON.stringify([patch, strips.toSorted((p, q) => p.centre - q.centre)]);
    const firstWheel = patches.slice(0, patch).reduce((sum, {centres}) => sum + centres.length, 0);
    const train = trains.get(key) ?? {centres: patches[patch].centres, firstWheel, strips, axles: []};
    train.axles.push(x);
    trains.set(key, train);
  }
  return [...trains.values()];
}

/** Positions of the group's reference along the pass: wherever one of its axles is at a solved position. */
function passPositions(trains: readonly Train[]): Float64Array {
  const all: {x: number; gap: number}[] = [];
  for (const {centres, axles} of trains) {
    for (const axle of axles) {
      for (let k = 0; k < centres.length; k++) {
        const gap = k + 1 < centres.length ? centres[k + 1] - centres[k] : centres[k] - centres[k - 1];
        all.push({x: centres[k] - axle, gap});
        if (k > 0) all.push({x: -centres[k] - axle, gap});
      }
    }
  }
  all.sort((p, q) => p.x - q.x);
  const kept: {x: number; gap: number}[] = [];
  for (const point of all) {
    const last = kept.at(-1);
    if (last && point.x - last.x < 0.4 * Math.min(last.gap, point.gap)) {
      if (point.gap < last.gap) kept[kept.length - 1] = point; // of two near ones the one in the finer stretch
    } else kept.push(point);
  }
  return Float64Array.from(kept, p => p.x);
}

/**
 * Up to the middle of a symmetric class, which the mirror image of what came before follows: the same openings, shear of
 * the other sign. The whole pass of any other.
 */
function halfPass({wheels}: Group, x: Float64Array): {x: Float64Array; order: Int32Array; along: Float64Array} {
  const axles = wheels.map(w => w.x);
  const middle = -(Math.min(...axles) + Math.max(...axles)) / 2; // of the group's reference, its centre over the joint
  if (!isSymmetric(wheels, w => ({x: -2 * middle - w.x, y: w.y})))
    return {x, order: Int32Array.from(x.keys()), along: x};
  const half = x.filter(v => v <= middle + SAME);
  const there = [...half.keys()];
  const centred = half[half.length - 1] >= middle - SAME;
  const back = there.toReversed().slice(centred ? 1 : 0);
  const along = [...half, ...back.map(k => 2 * middle - half[k])];
  return {x: half, order: Int32Array.from([...there, ...back]), along: Float64Array.from(along)};
}

/** Positions nearer than this are one [m]. */
const SAME = 1e-9;

function trainPlaces({centres, firstWheel, axles}: Train, x: Float64Array): TrainPlaces {
  const all = Array.from(x, position => axles.flatMap(axle => positionWeights(centres, position + axle)));
  const places = Math.max(...all.map(own => own.length));
  const wheel = new Int32Array(x.length * places);
  const even = new Float64Array(wheel.length);
  const odd = new Float64Array(wheel.length);
  all.forEach((own, j) => {
    own.forEach(([centre, evenWeight, oddWeight], i) => {
      wheel[j * places + i] = firstWheel + centre;
      even[j * places + i] = evenWeight;
      odd[j * places + i] = oddWeight;
    });
  });
  return {places, wheel, even, odd};
}

/** Cubic interpolation in wheel position: (centre, weight for even quantities, weight for odd ones). */
function positionWeights(centres: Float64Array, x: number): [number, number, number][] {
  const last = centres.length - 1;
  const distance = Math.abs(x);
  if (distance > centres[last]) return [];
  let k = 0;
  while (k < last && centres[k + 1] < distance) k++;
  const at = (i: number): number => (i < 0 ? -centres[-i] : centres[i]);
  const first = Math.min(k - 1, last - 3);
  const out: [number, number, number][] = [];
  const side = x < 0 ? -1 : 1;
  for (let i = first; i < first + 4; i++) {
    let w = 1;
    for (let j = first; j < first + 4; j++) if (j !== i) w *= (distance - at(j)) / (at(i) - at(j));
    if (w !== 0) out.push([Math.abs(i), w, (i < 0 ? -w : w) * side]);
  }
  return out;
}
