/**
 * Growth by temperature: the opening tractions at every tip under three unit cases, superposed hour by hour over the
 * record, closure decided, cycles counted, growth law applied. Theory: docs/theory/life.md.
 */
import type {PavementTemperatures} from "../climate/index.ts";
import {repeatingRainflow, repeatingRainflowDamage, withNext} from "../crack/index.ts";
import {
  type Condition,
  condense,
  faceSegment,
  type Geometry,
  openingCombinations,
  pathMaterial,
  type StateSpace,
  type StrainCase,
  stiffnesses,
  sweepStates,
  symmetricPart,
  THERMAL_CASES,
  TIPS,
  tieOf,
  zonesOf,
} from "../response/index.ts";
import {interfaceDepths, isPath, type Section} from "../section/index.ts";
import {type ClosureMap, closedTips, closureMaps, openingForms, resolveClosure} from "./closure.ts";
import type {TipLaw} from "./passes.ts";

export interface ThermalResponse {
  readonly space: StateSpace;
  /** [state][tip][case] ⟨σx⟩ for +1 K mean of the jointed layers, +1 K/m gradient in them, +1 K of the overlay [Pa/K, Pa·m/K, Pa/K]. */
  readonly opening: Float64Array;
  /** Full change of the joint's width without a crack, by case [m/K, m²/K, m/K]. */
  readonly jointOpening: readonly number[];
}

/**
 * Strains of the unit cases. A slab is free to shorten along y, so in plane strain its thermal strain enters as (1, 0, 1)·α
 * and a free slab shortens by exactly α·ΔT; the wide overlay is held along y and takes (1, 1, 1)·α.
 */
export function unitCases(section: Section): StrainCase[] {
  const depths = interfaceDepths(section.layers);
  const jointed = [...section.layers.keys()].filter(k => section.layers[k].role === "jointed");
  const middle = (depths[jointed[0]] + depths[jointed[jointed.length - 1] + 1]) / 2;
  const slab = (layer: number): number | null =>
    section.layers[layer].role === "jointed" ? section.layers[layer].material.expansion : null;
  return [
    {
      strain: layer => {
        const alpha = slab(layer);
        return alpha === null ? null : [alpha, 0, alpha];
      },
    },
    {
      strain: (layer, z) => {
        const alpha = slab(layer);
        return alpha === null ? null : [alpha * (z - middle), 0, alpha * (z - middle)];
      },
    },
    {
      strain: layer => {
        const {role, material} = section.layers[layer];
        return isPath(role) ? [material.expansion, material.expansion, material.expansion] : null;
      },
    },
  ];
}

/** Relaxation moduli, and no load transfer: it does not hold a joint against opening. */
export function thermalCondition({layers}: Section, loading: "daily" | "seasonal" = "daily"): Condition {
  const modulus = loading === "daily" ? "relaxationModulus" : "seasonalRelaxationModulus";
  return {moduli: layers.map(l => l.material[modulus]), transfer: 0};
}

/** @param geometry of reach 0: domain to mid-slab */
export function thermalResponse(
  geometry: Geometry,
  condition: Condition = thermalCondition(geometry.section),
): ThermalResponse {
  const {section, meshes} = geometry;
  const cases = unitCases(section);
  const states = meshes[0].space.states.length;
  const opening = new Float64Array(states * TIPS.length * THERMAL_CASES);
  const jointOpening = [0, 0, 0];
  meshes.forEach(({model, space}, m) => {
    const factor = m === 0 ? -1 : 2; // extrapolation in element size, as for wheels
    const material = pathMaterial(section, model, condition);
    const S = condense(model, stiffnesses(section, condition), 0, cases);
    const tableau = symmetricPart(
      model,
      S,
      {count: 0, values: new Float64Array(0)},
      [faceSegment(model)],
      tieOf(model, section),
    );
    const combinations = space.states.map(zonesOf(model, space, material)).map(openingCombinations);
    sweepStates(
      model.kernel,
      space,
      tableau,
      1,
      state => combinations[state],
      (state, values) => {
        const loads = tableau.loads;
        for (let tip = 0; tip < TIPS.length; tip++) {
          for (let c = 0; c < THERMAL_CASES; c++)
            opening[(state * TIPS.length + tip) * THERMAL_CASES + c] += factor * values[tip * loads + c];
        }
        if (state === 0)
          for (let c = 0; c < THERMAL_CASES; c++) jointOpening[c] += factor * 2 * values[TIPS.length * loads + c];
      },
    );
  });
  return {space: meshes[1].space, opening, jointOpening};
}

/** Hourly departures from the strain-free state. */
export interface ThermalHistory {
  readonly slabMean: Float64Array; // [K]
  readonly slabGradient: Float64Array; // [K/m]
  readonly overlayMean: Float64Array; // [K]
}

/** What the mechanism takes of the hourly temperatures. */
export type ThermalTemperatures = Pick<PavementTemperatures, "slabMean" | "slabGradient" | "overlayMean">;

/** @param neutral strain-free temperature [°C]; null: each quantity's own mean over the record */
export function thermalHistory(t: ThermalTemperatures, neutral: number | null): ThermalHistory {
  const mean = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;
  const less = (values: Float64Array, zero: number): Float64Array => values.map(v => v - zero);
  return {
    slabMean: less(t.slabMean, neutral ?? mean(t.slabMean)),
    slabGradient: less(t.slabGradient, neutral === null ? mean(t.slabGradient) : 0),
    overlayMean: less(t.overlayMean, neutral ?? mean(t.overlayMean)),
  };
}

/** A part of the temperatures with the opening tractions that they cause. */
export interface ThermalPart {
  readonly history: ThermalHistory;
  /** As in `ThermalResponse`, so scaled that over the plane-strain modulus of the daily cycle it is a strain by which the law at that modulus holds. */
  readonly opening: Float64Array;
}

export interface ThermalGrowth {
  /** [state][tip] advance per year [m/year]. */
  readonly advance: Float64Array;
  /** The same with each of the further exponents. */
  readonly further: readonly Float64Array[];
  /** [state][tip] largest range of tip strain over the record [–]. */
  readonly largestRange: Float64Array;
}

const HOURS_PER_YEAR = 8760;

/**
 * @param parts    of the temperatures, which add; see `thermalParts`
 * @param laws     [state][tip], at the relaxation moduli of the daily cycle; see `tipLaws`
 * @param further  what is added to n where growth is wanted with other exponents too [–]
 */
export function thermalGrowth(
  space: StateSpace,
  parts: readonly ThermalPart[],
  laws: readonly (TipLaw | null)[],
  further: readonly number[] = [],
): ThermalGrowth {
  const [{history, opening}] = parts;
  const hours = history.slabMean.length;
  const states = space.states.length;
  const maps = closureMaps(space);
  const advance = new Float64Array(states * TIPS.length);
  const others = further.map(() => new Float64Array(advance.length));
  const largestRange = new Float64Array(states * TIPS.length);
  const turns = TIPS.map(() => new Float64Array(hours));
  const stack = new Float64Array(hours + 1);
  const perYear = HOURS_PER_YEAR / hours;
  for (let s = 0; s < states; s++) {
    const counts =
      parts.length === 1 ? openingTurns(maps[s], opening, history, turns) : openingTurnsOfSum(maps[s], parts, turns);
    for (let tip = 0; tip < TIPS.length; tip++) {
      const k = s * TIPS.length + tip;
      const law = laws[k];
      if (!law) continue;
      const strain = turns[tip].subarray(0, counts[tip]);
      for (let i = 0; i < strain.length; i++) strain[i] /= law.planeStrainModulus;
      const growth = (exponent: number): number =>
        perYear * law.coefficient * repeatingRainflowDamage(strain, strain.length, exponent, stack);
      advance[k] = growth(law.exponent);
      for (let j = 0; j < others.length; j++) others[j][k] = growth(law.exponent + further[j]);
      const [low, high] = bounds(strain);
      largestRange[k] = high - low;
    }
  }
  return {advance, further: others, largestRange};
}

/**
 * Turning points of a state's opening tractions over the record, with closure, compression counted as none [Pa]. Cycles
 * need no more than these, and they are about a sixth of the hours.
 *
 * @param turns  by tip, each as long as the record; overwritten
 * @returns      how many there are, by tip
 */
function openingTurns(
  map: ClosureMap,
  opening: Float64Array,
  history: ThermalHistory,
  [lower, middle, upper]: readonly Float64Array[],
): readonly [number, number, number] {
  const {slabMean, slabGradient, overlayMean} = history;
  const forms = openingForms(map, opening);
  const {cracked, values} = forms;
  const [a0, a1, a2, b0, b1, b2, c0, c1, c2] = values; // all cracks open
  let [na, nb, nc] = [0, 0, 0];
  for (let h = 0; h < slabMean.length; h++) {
    const mean = slabMean[h];
    const gradient = slabGradient[h];
    const overlay = overlayMean[h];
    let a = a0 * mean + a1 * gradient + a2 * overlay;
    let b = b0 * mean + b1 * gradient + b2 * overlay;
    let c = c0 * mean + c1 * gradient + c2 * overlay;
    if (cracked & ((a < 0 ? 1 : 0) | (b < 0 ? 2 : 0) | (c < 0 ? 4 : 0))) {
      const at = TIPS.length * THERMAL_CASES * closedTips(forms, mean, gradient, overlay);
      a = values[at] * mean + values[at + 1] * gradient + values[at + 2] * overlay;
      b = values[at + 3] * mean + values[at + 4] * gradient + values[at + 5] * overlay;
      c = values[at + 6] * mean + values[at + 7] * gradient + values[at + 8] * overlay;
    }
    na = withNext(lower, na, Math.max(a, 0));
    nb = withNext(middle, nb, Math.max(b, 0));
    nc = withNext(upper, nc, Math.max(c, 0));
  }
  return [na, nb, nc];
}

/** Opening traction at a tip of a state in one hour, all cracks open: the sum over the parts [Pa]. */
function tractionAt(parts: readonly ThermalPart[], state: number, tip: number, hour: number): number {
  const k = (state * TIPS.length + tip) * THERMAL_CASES;
  let sum = 0;
  for (const {opening, history} of parts)
    sum +=
      opening[k] * history.slabMean[hour] +
      opening[k + 1] * history.slabGradient[hour] +
      opening[k + 2] * history.overlayMean[hour];
  return sum;
}

/** As `openingTurns` of the sum of several parts; closure is decided on the sum. */
function openingTurnsOfSum(
  map: ClosureMap,
  parts: readonly ThermalPart[],
  turns: readonly Float64Array[],
): readonly number[] {
  const counts = TIPS.map(() => 0);
  const tips = new Float64Array(TIPS.length);
  let hour = 0;
  const opening = (state: number, tip: number): number => tractionAt(parts, state, tip, hour);
  for (; hour < turns[0].length; hour++) {
    resolveClosure(map, opening, tips);
    for (let tip = 0; tip < TIPS.length; tip++) counts[tip] = withNext(turns[tip], counts[tip], Math.max(tips[tip], 0));
  }
  return counts;
}

/** Tip strain of one state without closure over the record, and its cycles. */
export function thermalCycles(
  parts: readonly ThermalPart[],
  place: {readonly state: number; readonly tip: number; readonly planeStrainModulus: number},
): {readonly range: Float64Array; readonly perYear: Float64Array} {
  const strain = parts[0].history.slabMean.map(
    (_, h) => Math.max(tractionAt(parts, place.state, place.tip, h), 0) / place.planeStrainModulus,
  );
  const range: number[] = [];
  const count: number[] = [];
  repeatingRainflow(strain, (r, _mean, n) => {
    if (r <= 0) return;
    range.push(r);
    count.push((n * HOURS_PER_YEAR) / strain.length);
  });
  return {range: Float64Array.from(range), perYear: Float64Array.from(count)};
}

/** Least and largest value. */
export function bounds(values: Float64Array): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let k = 0; k < values.length; k++) {
    if (values[k] < low) low = values[k];
    if (values[k] > high) high = values[k];
  }
  return [low, high];
}
