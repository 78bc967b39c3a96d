/** Unknowns of each model and shift, with their bounds, and the curve that they make. */
import type {FitOptions} from "./fitTypes.ts";
import {GAS_CONSTANT, KELVIN} from "./shift.ts";
import type {ComplexModulusPoint, MasterCurve, TemperatureShift} from "./types.ts";
import type {Unknown} from "./unknowns.ts";

/** Unknowns and what they make; values in their order. */
export interface Family<T> {
  readonly unknowns: readonly Unknown[];
  readonly make: (values: readonly number[]) => T;
}

/** How much of the shift the readings can tell. */
export type Knowledge = "all" | "one" | "nothing";

/** Where typical asphalt has the pole of its WLF equation [°C], and C₁·C₂, which does not depend on the reference [K]; from memory. */
const TYPICAL_POLE = -145;
const TYPICAL_PRODUCT = 19 * 160;
const TYPICAL_ENERGY = 200e3; // of Arrhenius [J/mol], from memory
const TWICE = Math.log(2); // a factor of two either way
const FREE_BELOW = 20; // the pole lies at least so far below the coldest reading [K]

/** With one temperature, or one frequency, nothing tells the shift; two temperatures tell one of WLF's two constants. */
export function knowledgeOf(points: readonly ComplexModulusPoint[], kind: FitOptions["shift"]): Knowledge {
  const temperatures = new Set(points.map(point => point.temperature)).size;
  const frequencies = new Set(points.map(point => point.frequency)).size;
  if (temperatures < 2 || frequencies < 2) return "nothing";
  return kind === "WLF" && temperatures === 2 ? "one" : "all";
}

/** Unknowns: WLF C₁/C₂ [1/K] and C₂ [K], as far as they can be told; Arrhenius E_a. */
export function shiftFamily(
  points: readonly ComplexModulusPoint[],
  {shift, referenceTemperature}: FitOptions,
): Family<TemperatureShift> {
  const knowledge = knowledgeOf(points, shift);
  if (shift === "Arrhenius") {
    const unknowns = [{name: "E_a", low: 2e4, high: 2e6, log: true, typical: TYPICAL_ENERGY, loose: TWICE}];
    if (knowledge === "nothing")
      return {unknowns: [], make: () => ({kind: "Arrhenius", activationEnergy: TYPICAL_ENERGY})};
    return {unknowns, make: ([activationEnergy]) => ({kind: "Arrhenius", activationEnergy})};
  }
  const coldest = Math.min(...points.map(point => point.temperature));
  const shortest = Math.max(referenceTemperature - coldest + FREE_BELOW, FREE_BELOW);
  const typical = Math.max(referenceTemperature - TYPICAL_POLE, shortest);
  const slope = {name: "C₁/C₂", low: 0.01, high: 1, log: true, typical: TYPICAL_PRODUCT / typical ** 2, loose: TWICE};
  const c2 = {
    name: "C₂",
    low: shortest,
    high: Math.max(2000, 10 * shortest),
    log: true,
    typical,
    loose: TWICE,
  };
  switch (knowledge) {
    case "nothing":
      return {unknowns: [], make: () => ({kind: "WLF", c1: TYPICAL_PRODUCT / typical, c2: typical})};
    case "one":
      return {unknowns: [slope], make: ([s]) => ({kind: "WLF", c1: s * typical, c2: typical})};
    case "all":
      return {unknowns: [slope, c2], make: ([s, c]) => ({kind: "WLF", c1: s * c, c2: c})};
  }
}

/** Values of the shift's unknowns that make lg a_T fall by `slope` [1/K] at the reference, with the rest typical. */
export function shiftStart(
  {referenceTemperature}: FitOptions,
  {unknowns}: Family<TemperatureShift>,
  slope: number,
): number[] {
  return unknowns.map(({name, typical}) => {
    if (name === "E_a") return slope * GAS_CONSTANT * Math.LN10 * (referenceTemperature + KELVIN) ** 2;
    return name === "C₁/C₂" ? slope : (typical as number);
  });
}

/** Unknowns: lg of the modulus at vanishing and at infinite frequency, β, γ. */
export function sigmoidFamily(points: readonly ComplexModulusPoint[]): Family<MasterCurve["model"]> {
  const [least, most] = extent(points).map(Math.log10);
  return {
    unknowns: [
      {name: "δ", low: least - 4, high: least + 0.1, log: false, typical: Math.min(least - 0.3, 7.8), loose: 0.3},
      {name: "δ + α", low: most - 0.1, high: most + 1.5, log: false, typical: Math.max(most + 0.1, 10.45), loose: 0.3},
      {name: "β", low: -40, high: 40, log: false, typical: null, loose: Infinity},
      {name: "γ", low: 0.02, high: 5, log: true, typical: 0.5, loose: TWICE},
    ],
    make: ([lowest, highest, location, slope]) => ({kind: "sigmoid", lowest, span: highest - lowest, location, slope}),
  };
}

const HIGHEST_H = 0.95;

/**
 * Unknowns: E₀₀, E₀, δ, k, the part of the way from k to 0.95 where h is, τ, and β unless the model is of Huet and Sayegh.
 * Typical values of asphalt, published: δ 1.8 to 2.5, k 0.16 to 0.22, h 0.5 to 0.65, β 100 to 1000 (from memory).
 */
export function twoSpringsFamily(
  points: readonly ComplexModulusPoint[],
  dashpot: boolean,
): Family<MasterCurve["model"]> {
  const [least, most] = extent(points);
  const [low, high, log, loose] = [1e-5 * least, 30 * most, true, TWICE];
  const beta = {name: "β", low: 1, high: 1e6, log, typical: 300, loose};
  return {
    unknowns: [
      {name: "E₀₀", low, high: 1.2 * least, log, typical: Math.min(0.3 * least, 5e7), loose},
      {name: "E₀", low: 0.9 * most, high, log, typical: Math.max(1.2 * most, 3e10), loose},
      {name: "δ", low: 0.05, high: 50, log, typical: 2.2, loose},
      {name: "k", low: 0.02, high: 0.6, log: false, typical: 0.2, loose: 0.1},
      {name: "h", low: 0.02, high: 1, log: false, typical: 0.5, loose: 0.2},
      {name: "τ", low: 1e-12, high: 1e12, log, typical: null, loose: Infinity},
      ...(dashpot ? [beta] : []),
    ],
    make: ([staticModulus, glassyModulus, delta, k, part, time, own = Infinity]) => {
      const h = k + part * (HIGHEST_H - k);
      return {kind: "2S2P1D", staticModulus, glassyModulus, delta, k, h, beta: own, time};
    },
  };
}

function extent(points: readonly ComplexModulusPoint[]): readonly [number, number] {
  const moduli = points.map(point => point.modulus);
  return [Math.min(...moduli), Math.max(...moduli)];
}
