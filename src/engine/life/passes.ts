/**
 * Advance of each front per pass of each load class, for every crack state: the wheels of the group are superposed along
 * the whole pass, closure is decided point by point, the tip strain's cycles are counted and the growth law applied.
 */
import {growthCoefficient, rainflowDamage, tipStrain} from "../crack/index.ts";
import {inverseWeights, type Patch, type Response, type StateSpace, type Strip, TIPS} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import type {LoadClass, Traffic} from "../traffic/index.ts";
import {closureMaps, resolveClosure} from "./closure.ts";
import {settleContact} from "./contact.ts";
import type {Lane} from "./lane.ts";

/** One patch for each length of contact that occurs; positions dense near the joint. */
export function patchesOf(traffic: Traffic, reach: number): Patch[] {
  const lengths = [...new Set(traffic.classes.flatMap(c => c.wheels.map(w => w.length)))].sort((p, q) => p - q);
  return lengths.map(length => ({length, centres: wheelCentres(length, reach)}));
}

function wheelCentres(length: number, reach: number): Float64Array {
  const centres: number[] = [];
  for (let x = 0, step = length / 8; x + length / 2 <= reach; x += step) {
    centres.push(x);
    if (x > 1.2 * length) step *= 1.3;
  }
  return Float64Array.from(centres);
}

/** Wheels of one patch length that stand alike across the lane, with the x of each axle that has them. */
interface Train {
  readonly response: Response;
  readonly strips: readonly Strip[];
  readonly axles: readonly number[];
}

function trainsOf(loadClass: LoadClass, responses: readonly Response[]): Train[] {
  // Wheels of one contact length at the same x, each x by itself: staggered wheels are not moved together.
  const abreast = new Map<string, {response: Response; x: number; strips: Strip[]}>();
  for (const {x, y, load, length, width} of loadClass.wheels) {
    const response = responses.find(r => r.patch.length === length)!;
    const key = `${length} ${x.toFixed(4)}`;
    const place = abreast.get(key) ?? {response, x, strips: []};
    place.strips.push({centre: y, width, pressure: load / (length * width)});
    abreast.set(key, place);
  }
  const trains = new Map<string, {response: Response; strips: Strip[]; axles: number[]}>();
  for (const {response, x, strips} of abreast.values()) {
    const key = JSON.stringify([response.patch.length, strips.toSorted((p, q) => p.centre - q.centre)]);
    const train = trains.get(key) ?? {response, strips, axles: []};
    train.axles.push(x);
    trains.set(key, train);
  }
  return [...trains.values()];
}

/** Positions of the group's reference along the pass: wherever one of its axles is at a solved position. */
function passPositions(trains: readonly Train[]): Float64Array {
  const all: {x: number; gap: number}[] = [];
  for (const {response, axles} of trains) {
    const {centres} = response.patch;
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

export interface PassAdvance {
  /** [state][tip][y] advance per pass at the lane's offsets [m]; no wander yet. */
  readonly advance: Float64Array;
  /** [state][tip] largest tip strain along the pass and across the lane [–]. */
  readonly peak: Float64Array;
  /** Of the points that do the damage (tip strain over half the front's peak), the part at which no contact pattern agreed [–]. */
  readonly unsettled: number;
}

/** What the tip of each state is in: E', growth law at the modulus at hand. */
export interface TipLaw {
  readonly planeStrainModulus: number; // E' [Pa]
  readonly poisson: number;
  readonly coefficient: number; // [m/cycle]
  readonly exponent: number;
}

/** Laws by state and tip, row-major [state][tip]; null where there is no such tip. */
export function tipLaws(
  section: Section,
  moduli: readonly number[],
  layers: readonly (readonly (number | null)[])[],
): (TipLaw | null)[] {
  return layers.flatMap(tips =>
    tips.map(layer => {
      if (layer === null) return null;
      const {material} = section.layers[layer];
      const law = material.growth!;
      const modulus = moduli[layer];
      return {
        planeStrainModulus: modulus / (1 - material.poisson ** 2),
        poisson: material.poisson,
        coefficient: growthCoefficient(law, modulus),
        exponent: law.exponent,
      };
    }),
  );
}

const TIP_COUNT = TIPS.length;

/**
 * @param laws         from `tipLaws`
 * @param shearWeight  weight of the shear terms in the tip strain [–]
 */
export function passAdvance(
  loadClass: LoadClass,
  responses: readonly Response[],
  lane: Lane,
  laws: readonly (TipLaw | null)[],
  shearWeight: number,
): PassAdvance {
  return countCycles(strainsAlong(loadClass, responses, lane, laws, shearWeight), laws);
}

/** Tip strains of one pass, [state][tip][y][position], with zero before and after. */
interface PassStrains {
  readonly strains: Float64Array;
  readonly doubtful: Uint8Array; // [state][y][position], 1 where no contact pattern agreed
  readonly offsets: number; // y
  readonly positions: number;
}

function strainsAlong(
  loadClass: LoadClass,
  responses: readonly Response[],
  lane: Lane,
  laws: readonly (TipLaw | null)[],
  shearWeight: number,
): PassStrains {
  const {space, geometry, patterns, quantities} = responses[0];
  const trains = trainsOf(loadClass, responses);
  const X = passPositions(trains);
  const ny = lane.y.length;
  const states = space.states.length;
  const weights = trains.map(t => inverseWeights(geometry.waves, lane.y, t.strips));
  const maps = closureMaps(space);

  const strains = new Float64Array(states * TIP_COUNT * ny * (X.length + 2)); // a pass begins and ends unstrained
  const open = Array.from({length: patterns}, () => new Float64Array(states * quantities * ny));
  const shear = new Float64Array(states * 2 * TIP_COUNT * ny);
  const settled = new Float64Array(states * TIP_COUNT * ny);
  const tips = new Float64Array(TIP_COUNT);
  const doubtful = new Uint8Array(states * ny * X.length);
  for (let j = 0; j < X.length; j++) {
    for (const values of open) values.fill(0);
    shear.fill(0);
    trains.forEach(({response, axles}, t) => {
      const K = geometry.waves.beta.length;
      const centres = response.patch.centres;
      const places = axles.flatMap(axle => positionWeights(centres, X[j] + axle));
      response.opening.forEach((table, p) => {
        accumulate(
          {table, states, centres: centres.length, quantities, K, places, parity: 1, odd: 0},
          weights[t],
          ny,
          open[p],
        );
      });
      accumulate(
        {
          table: response.shear,
          states,
          centres: centres.length,
          quantities: 2 * TIP_COUNT,
          K,
          places,
          parity: 2,
          odd: TIP_COUNT,
        },
        weights[t],
        ny,
        shear,
      );
    });
    settleContact(open, {states, quantities, ny}, settled, (state, i) => {
      doubtful[(state * ny + i) * X.length + j] = 1;
    });
    for (let i = 0; i < ny; i++) {
      const opening = (state: number, tip: number): number => settled[(state * TIP_COUNT + tip) * ny + i];
      for (let s = 0; s < states; s++) {
        resolveClosure(maps[s], opening, tips);
        for (let tip = 0; tip < TIP_COUNT; tip++) {
          const law = laws[s * TIP_COUNT + tip];
          if (!law) continue;
          const shearXZ = shear[(s * 2 * TIP_COUNT + tip) * ny + i];
          const shearXY = shear[(s * 2 * TIP_COUNT + TIP_COUNT + tip) * ny + i];
          const strain = tipStrain({opening: tips[tip], shearXZ, shearXY}, law, shearWeight);
          strains[((s * TIP_COUNT + tip) * ny + i) * (X.length + 2) + 1 + j] = strain;
        }
      }
    }
  }

  return {strains, doubtful, offsets: ny, positions: X.length};
}

function countCycles(pass: PassStrains, laws: readonly (TipLaw | null)[]): PassAdvance {
  const {strains, doubtful, offsets: ny, positions} = pass;
  const advance = new Float64Array(laws.length * ny);
  const peak = new Float64Array(laws.length);
  const length = positions + 2;
  const stack = new Float64Array(length);
  let points = 0;
  let unsettled = 0;
  for (let k = 0; k < laws.length; k++) {
    const law = laws[k];
    if (!law) continue;
    const own = strains.subarray(k * ny * length, (k + 1) * ny * length);
    for (const strain of own) if (strain > peak[k]) peak[k] = strain;
    for (let i = 0; i < ny; i++) {
      const series = own.subarray(i * length, (i + 1) * length);
      advance[k * ny + i] = law.coefficient * rainflowDamage(series, length, law.exponent, stack);
      for (let j = 0; j < positions; j++) {
        if (series[j + 1] < 0.5 * peak[k]) continue;
        points++;
        unsettled += doubtful[(Math.floor(k / TIP_COUNT) * ny + i) * positions + j];
      }
    }
  }
  return {advance, peak, unsettled: points ? unsettled / points : 0};
}

interface Table {
  readonly table: Float64Array; // [state][centre][quantity][wavenumber]
  readonly states: number;
  readonly centres: number;
  readonly quantities: number;
  readonly K: number;
  readonly places: readonly (readonly [number, number, number])[];
  readonly parity: 1 | 2; // which weight of a place: even (1) or odd (2) in x
  readonly odd: number; // quantities from here on are odd in y; 0: none
}

/** Adds Σ over wavenumbers and places to out[state][quantity][y]. */
function accumulate(
  t: Table,
  weights: {readonly even: Float64Array; readonly odd: Float64Array},
  ny: number,
  out: Float64Array,
): void {
  const {table, states, centres, quantities, K, places} = t;
  const row = new Float64Array(K);
  for (let s = 0; s < states; s++) {
    for (let q = 0; q < quantities; q++) {
      row.fill(0);
      for (const place of places) {
        const from = ((s * centres + place[0]) * quantities + q) * K;
        const w = place[t.parity];
        for (let k = 0; k < K; k++) row[k] += w * table[from + k];
      }
      const W = t.odd > 0 && q >= t.odd ? weights.odd : weights.even;
      const to = (s * quantities + q) * ny;
      for (let i = 0; i < ny; i++) {
        let sum = 0;
        for (let k = 0; k < K; k++) sum += W[i * K + k] * row[k];
        out[to + i] += sum;
      }
    }
  }
}

/** Layers that the tips of each state are in, [state][tip]. */
export function tipLayers(space: StateSpace, layerOfPathElement: Int32Array): (number | null)[][] {
  const hasInterlayer = space.interlayer.length > 1;
  return space.states.map(s => [
    hasInterlayer && !s.through ? layerOfPathElement[space.interlayer[s.interlayer] / 2 - 1] : null,
    layerOfPathElement[space.underside[s.underside] / 2 - 1],
    layerOfPathElement[space.surface[s.surface] / 2],
  ]);
}
