/** Growth rates of the fronts as functions of the crack lengths, interpolated between the solved states. */
import {monotoneSlope} from "../numeric/index.ts";
import {type StateSpace, TIPS} from "../response/index.ts";

/** The part of a state space that survives being sent to another thread. */
export interface CrackGrid {
  readonly interlayerLength: Float64Array; // [m]
  readonly undersideLength: Float64Array; // [m]
  readonly surfaceLength: Float64Array; // [m]
  readonly number: Int32Array; // of the state, by [interlayer][underside][surface]; −1 where the fronts have met
}

export function crackGrid(space: StateSpace): CrackGrid {
  const {interlayerLength, undersideLength, surfaceLength} = space;
  const [nb, nc] = [undersideLength.length, surfaceLength.length];
  const number = Int32Array.from({length: interlayerLength.length * nb * nc}, (_, k) =>
    space.index(Math.floor(k / (nb * nc)), Math.floor(k / nc) % nb, k % nc),
  );
  return {interlayerLength, undersideLength, surfaceLength, number};
}

/** Lengths of the three cracks [m]: interlayer, underside, surface. */
export type Fronts = readonly [number, number, number];

export interface RateTable {
  readonly grid: CrackGrid;
  readonly scale: LawScale;
  /** [interlayer][underside][surface][tip], fourth roots of the rate; filled beyond the states where fronts meet. */
  readonly roots: Float64Array;
}

/** Rates grow with a power near four of a strain that varies smoothly: their fourth root is what is interpolated. */
const ROOT = 4;

/**
 * Growth per cycle at some usual strain of the law that a front at a length obeys [m]. Rates are interpolated in this
 * measure, so that a change of material on the way is a jump where it is and nowhere else.
 */
export type LawScale = (tip: number, length: number) => number;

/** @param rates [state][tip] [m per pass or per year] */
export function rateTable(grid: CrackGrid, rates: Float64Array, scale: LawScale): RateTable {
  const [na, nb, nc] = [grid.interlayerLength.length, grid.undersideLength.length, grid.surfaceLength.length];
  const index = (a: number, b: number, c: number): number => grid.number[(a * nb + b) * nc + c];
  const tips = TIPS.length;
  const roots = new Float64Array(na * nb * nc * tips);
  const put = (a: number, b: number, c: number, tip: number, state: number): void => {
    const length = [grid.interlayerLength[a], grid.undersideLength[b], grid.surfaceLength[c]][tip];
    roots[((a * nb + b) * nc + c) * tips + tip] = (rates[state * tips + tip] / scale(tip, length)) ** (1 / ROOT);
  };
  for (let a = 0; a < na; a++) {
    for (let b = 0; b < nb; b++) {
      for (let c = 0; c < nc; c++) {
        // Where the fronts have met no state exists: each front keeps the rate of its last state before that.
        let lastB = b;
        while (index(a, lastB, c) < 0) lastB--;
        let lastC = c;
        while (index(a, b, lastC) < 0) lastC--;
        // Once the interlayer is through its own tip is gone: the rate of the length before closes the interpolation.
        put(a, b, c, 0, index(na > 1 && a === na - 1 ? a - 1 : a, lastB, c));
        put(a, b, c, 1, index(a, lastB, c));
        put(a, b, c, 2, index(a, b, lastC));
      }
    }
  }
  return {grid, scale, roots};
}

/** Index of the interval of ascending levels that a length lies in; lengths outside belong to the first or last. */
function intervalOf(levels: Float64Array, length: number): number {
  let k = 0;
  while (k < levels.length - 2 && levels[k + 1] <= length) k++;
  return k;
}

/** A length among its levels, and what the slopes beside its interval need; the same for every value interpolated there. */
interface Place {
  h: number; // of the interval k … k + 1
  t: number; // part of it, 0 … 1
  hLeft: number; // of the one before; 0 without
  hRight: number; // of the one behind; 0 without
}

const newPlace = (): Place => ({h: 0, t: 0, hLeft: 0, hRight: 0});
const [ALONG_B, ALONG_C] = [newPlace(), newPlace()]; // scratch of `ratesAt`

/** @param x in the interval k … k+1 of the levels; place is overwritten */
function locate(levels: Float64Array, k: number, x: number, place: Place): void {
  place.h = levels[k + 1] - levels[k];
  place.t = Math.min(1, Math.max(0, (x - levels[k]) / place.h));
  place.hLeft = k > 0 ? levels[k] - levels[k - 1] : 0;
  place.hRight = k + 2 < levels.length ? levels[k + 2] - levels[k + 1] : 0;
}

/**
 * Piecewise cubic through four neighbouring values that has no extremum between two of them: slopes are weighted harmonic
 * means of the neighbouring secants, zero where these differ in sign.
 *
 * @param v0  value at level k−1, then those at k, k+1 and k+2; those outside the levels are not used
 * @source Fritsch & Butland 1984, doi:10.1137/0905021
 */
function monotoneCubic({h, t, hLeft, hRight}: Place, v0: number, v1: number, v2: number, v3: number): number {
  if (t === 0) return v1;
  const secant = (v2 - v1) / h;
  const left = hLeft ? monotoneSlope((v1 - v0) / hLeft, hLeft, secant, h) : secant;
  const right = hRight ? monotoneSlope((v3 - v2) / hRight, hRight, secant, h) : secant;
  const u = 1 - t;
  return v1 * u * u * (1 + 2 * t) + v2 * t * t * (1 + 2 * u) + h * t * u * (left * u - right * t);
}

/** Monotone cubic in the lengths in the overlay, linear in that in the interlayer, of the fourth root. @param out rate of each tip, overwritten */
export function ratesAt(table: RateTable, fronts: Fronts, out: Float64Array): void {
  const {grid, scale, roots} = table;
  const {interlayerLength: A, undersideLength: B, surfaceLength: C} = grid;
  const tips = TIPS.length;
  const a = A.length > 1 ? intervalOf(A, fronts[0]) : 0;
  const ta = A.length > 1 ? Math.min(1, Math.max(0, (fronts[0] - A[a]) / (A[a + 1] - A[a]))) : 0;
  const b = intervalOf(B, fronts[1]);
  const c = intervalOf(C, fronts[2]);
  locate(B, b, fronts[1], ALONG_B);
  locate(C, c, fronts[2], ALONG_C);
  const row = C.length * tips; // from one length of the underside's crack to the next
  const [b0, b1, b2, b3] = [row * Math.max(0, b - 1), row * b, row * (b + 1), row * Math.min(B.length - 1, b + 2)];
  const along = (i: number, kc: number, tip: number): number => {
    const at = (a + i) * B.length * row + kc * tips + tip;
    return monotoneCubic(ALONG_B, roots[at + b0], roots[at + b1], roots[at + b2], roots[at + b3]);
  };
  const [c0, c3] = [Math.max(0, c - 1), Math.min(C.length - 1, c + 2)];
  for (let tip = 0; tip < tips; tip++) {
    let root = 0;
    for (let i = 0; i < 2; i++) {
      const weight = i ? ta : 1 - ta;
      if (weight === 0) continue;
      const at = along(i, c, tip);
      // A crack without length stands on its level: the others do not matter.
      root +=
        weight *
        (ALONG_C.t === 0 ? at : monotoneCubic(ALONG_C, along(i, c0, tip), at, along(i, c + 1, tip), along(i, c3, tip)));
    }
    out[tip] = root ** ROOT * scale(tip, fronts[tip]);
  }
}
