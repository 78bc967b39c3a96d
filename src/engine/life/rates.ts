/** Growth rates of the fronts as functions of the crack lengths, interpolated between the solved states. */
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
  /** [interlayer][underside][surface][tip], fourth roots of the rate; filled beyond the states where fronts meet. */
  readonly roots: Float64Array;
}

/** Rates grow with a power near four of a strain that varies smoothly: their fourth root is what is interpolated. */
const ROOT = 4;

/** @param rates [state][tip] [m per pass or per year] */
export function rateTable(grid: CrackGrid, rates: Float64Array): RateTable {
  const [na, nb, nc] = [grid.interlayerLength.length, grid.undersideLength.length, grid.surfaceLength.length];
  const index = (a: number, b: number, c: number): number => grid.number[(a * nb + b) * nc + c];
  const tips = TIPS.length;
  const roots = new Float64Array(na * nb * nc * tips);
  const put = (a: number, b: number, c: number, tip: number, state: number): void => {
    roots[((a * nb + b) * nc + c) * tips + tip] = rates[state * tips + tip] ** (1 / ROOT);
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
  return {grid, roots};
}

/** Place of a length among ascending levels: index of the lower one and the part of the way to the next. */
export function placeAmong(levels: Float64Array, length: number): [number, number] {
  if (levels.length === 1) return [0, 0];
  let k = 0;
  while (k < levels.length - 2 && levels[k + 1] <= length) k++;
  return [k, Math.min(1, Math.max(0, (length - levels[k]) / (levels[k + 1] - levels[k])))];
}

/** Trilinear in the fourth root. @param out rate of each tip, overwritten */
export function ratesAt(table: RateTable, fronts: Fronts, out: Float64Array): void {
  const {grid, roots} = table;
  const [nb, nc] = [grid.undersideLength.length, grid.surfaceLength.length];
  const tips = TIPS.length;
  const [a, ta] = placeAmong(grid.interlayerLength, fronts[0]);
  const [b, tb] = placeAmong(grid.undersideLength, fronts[1]);
  const [c, tc] = placeAmong(grid.surfaceLength, fronts[2]);
  for (let tip = 0; tip < tips; tip++) {
    let sum = 0;
    for (let corner = 0; corner < 8; corner++) {
      const [i, j, k] = [corner & 1, (corner >> 1) & 1, corner >> 2];
      const w = (i ? ta : 1 - ta) * (j ? tb : 1 - tb) * (k ? tc : 1 - tc);
      if (w > 0) sum += w * roots[(((a + i) * nb + b + j) * nc + c + k) * tips + tip];
    }
    out[tip] = sum ** ROOT;
  }
}
