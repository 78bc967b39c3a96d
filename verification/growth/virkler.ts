/** 68 specimens of one aluminium sheet under the same load, as bodies for the fit of growth laws. */
import {existsSync, readFileSync} from "node:fs";
import path from "node:path";
import {type FrontCurves, type GrowthCase, monotoneCurve, type Observation} from "../../src/engine/laboratory/index.ts";

/**
 * Cycles at 164 crack lengths, a column a specimen; lengths in mm in the first. The readings are not ours to pass on.
 *
 * @source Virkler, Hillberry & Goel, The Statistical Nature of Fatigue Crack Propagation, AFFDL-TR-78-43 (1978)
 */
export const DATA = [process.env.SEAMWRIGHT_VIRKLER, path.resolve(import.meta.dirname, "../../data/virkler.csv")].find(
  file => file && existsSync(file),
);

export interface Specimens {
  readonly lengths: Float64Array; // half cracks [m]
  readonly cycles: readonly Float64Array[]; // by specimen, at these lengths
}

export function readSpecimens(file: string): Specimens {
  const [, ...lines] = readFileSync(file, "utf8").trim().split("\n");
  const rows = lines.map(line => line.split(",").map(Number));
  return {
    lengths: Float64Array.from(rows, row => 1e-3 * row[0]),
    cycles: rows[0].slice(1).map((_, k) => Float64Array.from(rows, row => row[k + 1])),
  };
}

const LOAD_RANGE = 18_680; // ΔP [N]
const THICKNESS = 2.54e-3; // [m]
const WIDTH = 152.4e-3; // [m]
const FIRST = 9e-3; // half crack at which cycles are counted from [m]
export const LAST = 49.8e-3; // and the last that was read [m]

/**
 * Range of stress intensity of a central crack, ΔK = ΔP/(B·W)·√(πa·sec(πa/W)) [MPa√m].
 *
 * @param a half the crack [m], < W/2
 * @source Feddersen 1966, secant correction
 */
export function intensityRange(a: number): number {
  return (1e-6 * LOAD_RANGE * Math.sqrt((Math.PI * a) / Math.cos((Math.PI * a) / WIDTH))) / (THICKNESS * WIDTH);
}

/** In the middle of what the cracks pass through, 8.2 to 26.5 MPa√m: ln of the rate there and the exponent are fitted. */
export const MIDDLE = 15;

/** Half crack lengths between which the law is integrated; the last lies beyond every reading [m]. */
const GRID = Float64Array.from({length: 160}, (_, k) => FIRST + 46e-3 * ((k + 1) / 160) ** 1.5);

/** ln of the cycles that a crack needs to each length of GRID: ∫ da/(da/dN), by Simpson's rule. */
function logCycles([logRate, exponent]: ArrayLike<number> & Iterable<number>): Float64Array {
  const slowness = (a: number): number => Math.exp(-logRate) * (intensityRange(a) / MIDDLE) ** -exponent;
  let before = FIRST;
  let cycles = 0;
  return GRID.map(a => {
    const h = a - before;
    cycles += (h / 6) * (slowness(before) + 4 * slowness(before + h / 2) + slowness(a));
    before = a;
    return Math.log(cycles);
  });
}

function curvesOf(parameters: Float64Array): FrontCurves {
  const front = monotoneCurve(logCycles(parameters), GRID);
  return {fronts: [front, front, front], logBreak: Infinity}; // read is the front from the underside only
}

/** ln of the cycles at which a crack reaches LAST by a law [ln rate at MIDDLE in m, exponent]. */
export function logLife(parameters: Float64Array): number {
  return monotoneCurve(GRID, logCycles(parameters)).value(LAST);
}

/** Of a length: small, since crack lengths were set and cycles read; what scatters is the crack [m]. */
const READING_ERROR = 1e-5;

/**
 * ΔK at which rate and exponent of a specimen are independent, from what is published of them: with r the correlation of lg C
 * and m, cov(lg C + m·lg ΔK, m) = 0 at lg ΔK = −r·s(lg C)/s(m) [MPa√m].
 */
const PIVOT = 10 ** ((0.988 * 0.173474) / 0.165324);

/** How the law [ln rate at MIDDLE, exponent] moves with a specimen's own addition to the exponent. */
export const BY_EXPONENT = Float64Array.of(-Math.log(PIVOT / MIDDLE), 1);

export function growthCase(lengths: Float64Array, cycles: Float64Array): GrowthCase {
  return {
    observations: Array.from(
      lengths,
      (length, reading): Observation => ({
        kind: "length",
        reading,
        front: 1,
        logPasses: Math.log(cycles[reading]),
        length,
        error: READING_ERROR,
      }),
    ),
    curves: curvesOf,
    concerns: () => true,
    byExponent: BY_EXPONENT,
  };
}

/** Every seventh length and the last: 24 readings a specimen. */
export function thinned(values: Float64Array): Float64Array {
  return values.filter((_, k) => k > 0 && (k % 7 === 0 || k === values.length - 1));
}

/** Lengths of a crack that runs by a law `clock` faster, at given cycles [m]. */
export function lengthsAt(parameters: Float64Array, clock: number, cycles: Float64Array): Float64Array {
  const front = curvesOf(parameters).fronts[1];
  return cycles.map(n => front.value(Math.log(n) + clock));
}
