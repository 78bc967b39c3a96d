/**
 * Advance of each front per pass of a load class, for every crack state: contact and closure are decided point by point,
 * the tip strain's cycles are counted and the growth law applied.
 */
import {growthCoefficient, rainflowDamage, tipStrain} from "../crack/index.ts";
import {type ResponseTables, TIPS} from "../response/index.ts";
import type {Section} from "../section/index.ts";
import {type ClosureMap, resolveClosure} from "./closure.ts";
import {contactAlong} from "./contact.ts";
import type {PassPlan} from "./passPlan.ts";
import {type ShearAlong, shearAlong} from "./superpose.ts";
import {moveTurns} from "./turns.ts";

export interface PassAdvance {
  /** [state][tip][y] advance per pass at the lane's offsets [m]; no wander yet. */
  readonly advance: Float64Array;
  /** The same with each of the rules' further exponents. */
  readonly further: readonly Float64Array[];
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

/** How the cracks close and grow. */
export interface CrackRules {
  readonly maps: readonly ClosureMap[]; // by state
  readonly laws: readonly (TipLaw | null)[]; // [state][tip], from `tipLaws`
  readonly shearWeight: number; // of the shear terms in the tip strain [–]
  readonly further: readonly number[]; // what is added to n where growth is wanted with other exponents too [–]
}

/** @param plan  made for the wheels and wavenumbers of the tables */
export function passAdvance(plan: PassPlan, tables: ResponseTables, rules: CrackRules): PassAdvance {
  const {maps, laws} = rules;
  const points = plan.rows * plan.columns;
  const settle = contactAlong(plan, tables);
  const shear = shearAlong(plan, tables);
  const settled = new Float64Array(laws.length * points);
  const doubtful = new Uint8Array(points);
  const opening = new Float64Array(TIPS.length * points);
  const strain = new Float64Array(points);
  const advance = new Float64Array(laws.length * plan.offsets);
  const further = rules.further.map(() => new Float64Array(advance.length));
  const peak = new Float64Array(laws.length);
  const doubt = {points: 0, unsettled: 0};
  for (let state = 0; state < tables.states; state++) {
    const tips = [...TIPS.keys()].filter(tip => laws[state * TIPS.length + tip]);
    settle(state, tips, settled, doubtful);
    closeCracks(plan, maps[state], settled, opening);
    shear.solve(state, tips);
    tips.forEach((tip, place) => {
      const row = state * TIPS.length + tip;
      const law = laws[row]!;
      const own = opening.subarray(tip * points, (tip + 1) * points);
      const most = tipStrains(plan, {opening: own, shear, place, tips: tips.length}, law, rules.shearWeight, strain);
      const rowOf = (values: Float64Array): Float64Array =>
        values.subarray(row * plan.offsets, (row + 1) * plan.offsets);
      const out = [advance, ...further].map(rowOf);
      const exponents = [0, ...rules.further].map(offset => law.exponent + offset);
      peak[row] = countCycles(plan, {strain, peak: most, doubtful}, {...law, exponents}, out, doubt);
    });
  }
  return {advance, further, peak, unsettled: doubt.points ? doubt.unsettled / doubt.points : 0};
}

/** Opening tractions of one state with closure, [tip][offset][position]. */
function closeCracks(plan: PassPlan, map: ClosureMap, settled: Float64Array, out: Float64Array): void {
  const points = plan.rows * plan.columns;
  const own = map.substate[0] * TIPS.length * points;
  out.set(settled.subarray(own, own + out.length));
  if (!map.present) return;
  const tips = new Float64Array(TIPS.length);
  let point = 0;
  const opening = (state: number, tip: number): number => settled[(state * TIPS.length + tip) * points + point];
  for (point = 0; point < points; point++) {
    let compressed = false;
    for (let k = 0; k < map.cracks; k++)
      if (map.present & (1 << k) && out[map.tipOf[k] * points + point] < 0) compressed = true;
    if (!compressed) continue; // all open: nothing to resolve
    resolveClosure(map, opening, tips);
    for (let tip = 0; tip < TIPS.length; tip++) out[tip * points + point] = tips[tip];
  }
}

interface TipAlong {
  readonly opening: Float64Array; // [offset][position]
  readonly shear: ShearAlong;
  readonly place: number; // of the tip among those of `shear`
  readonly tips: number; // of `shear`
}

/** Fills strain [offset][position]; returns the largest. */
function tipStrains(
  plan: PassPlan,
  {opening, shear, place, tips}: TipAlong,
  law: TipLaw,
  shearWeight: number,
  strain: Float64Array,
): number {
  let peak = 0;
  for (let y = 0; y < plan.offsets; y++) {
    for (let x = 0; x < plan.positions; x++) {
      const point = y * plan.columns + x;
      const at = (y * tips + place) * plan.columns + x;
      const means = {opening: opening[point], shearXZ: shear.xz[at], shearXY: shear.xy[at]};
      strain[point] = tipStrain(means, law, shearWeight);
      if (strain[point] > peak) peak = strain[point];
    }
  }
  return peak;
}

/**
 * Advance by the cycles of the whole pass, at each offset; counts the points that do the damage, and those of them at
 * which no contact pattern agreed. A pass begins and ends unstrained.
 *
 * @param along.peak  largest strain at the points
 * @param advance     at the offsets, by exponent of the law; overwritten
 * @returns           the largest strain, looked for between the points too
 */
function countCycles(
  plan: PassPlan,
  along: {readonly strain: Float64Array; readonly peak: number; readonly doubtful: Uint8Array},
  law: TipLaw & {readonly exponents: readonly number[]},
  advance: readonly Float64Array[],
  doubt: {points: number; unsettled: number},
): number {
  const {order, offsets, columns} = plan;
  const {strain, doubtful} = along;
  const length = order.length + 2;
  const series = new Float64Array(length);
  const inner = series.subarray(1, length - 1);
  const known = new Float64Array(order.length);
  const stack = new Float64Array(length);
  let peak = 0;
  let damaging = 0;
  let unsettled = 0;
  for (let y = 0; y < offsets; y++) {
    for (let j = 0; j < order.length; j++) {
      const point = y * columns + order[j];
      known[j] = strain[point];
      if (strain[point] < 0.5 * along.peak) continue;
      damaging++;
      unsettled += doubtful[point];
    }
    moveTurns(plan.along, known, inner);
    for (const value of inner) if (value > peak) peak = value;
    for (let k = 0; k < advance.length; k++)
      advance[k][y] = law.coefficient * rainflowDamage(series, length, law.exponents[k], stack);
  }
  doubt.points += damaging;
  doubt.unsettled += unsettled;
  return peak;
}
