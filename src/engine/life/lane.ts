/** Lateral offsets at which passes are computed, and the average over where vehicles drive. */
import {cellShares, isSymmetric, keepsToLine, type Traffic, type Wander} from "../traffic/index.ts";

/** The same offsets for all classes; each stands for the cell between the middles towards its neighbours. */
export interface Lane {
  readonly y: Float64Array; // ascending, relative to the groups' reference line [m]; only y ≥ 0 when mirrored
  readonly mirrored: boolean; // every group is symmetric about y = 0
}

const STEPS_PER_WIDTH = 5;
const CLOSE = 0.3; // beyond the outermost wheel's edge the steps stay as short as under it [m]
const FAR = 2.5; // and the lane ends here: a few radii of relative stiffness, for what bends the whole slab [m]
const GRADING = 1.3;

/** @param traffic at least one class with a wheel */
export function laneOf(traffic: Traffic): Lane {
  const wheels = traffic.classes.flatMap(c => c.wheels);
  const edge = Math.max(...wheels.map(w => Math.abs(w.y) + w.width / 2));
  const step = Math.min(...wheels.map(w => w.width)) / STEPS_PER_WIDTH;
  const count = Math.ceil((edge + CLOSE) / step);
  const half = Array.from({length: count + 1}, (_, k) => (k * (edge + CLOSE)) / count);
  for (let y = half[count], h = step * GRADING; y < edge + FAR; h *= GRADING) {
    y += h;
    half.push(y);
  }
  const mirrored = traffic.classes.every(({wheels: own}) => isSymmetric(own, w => ({x: w.x, y: -w.y})));
  const y = mirrored
    ? half
    : [
        ...half
          .slice(1)
          .map(v => -v)
          .reverse(),
        ...half,
      ];
  return {y: Float64Array.from(y), mirrored};
}

/**
 * Averages [row][y] over the lateral position: the point at lane coordinate y is passed at offset y − w. Exact for values
 * that are constant over each cell and nothing outside, with F the part of the passes at an offset of at most so much:
 *
 *   D̄(y) = Σ_k D_k·[F(y − e_k) − F(y − e_{k+1})]
 *
 * @param wander  on one line: gives the values back
 * @param rows    number of rows; each lane.y.length long
 * @returns the same layout
 */
export function wanderOver(lane: Lane, wander: Wander, rows: number, values: Float64Array): Float64Array {
  if (keepsToLine(wander)) return values;
  const {y, mirrored} = lane;
  const ny = y.length;
  const edges = Float64Array.from({length: ny + 1}, (_, k) => {
    if (k === 0) return mirrored ? 0 : y[0] - (y[1] - y[0]) / 2;
    return k === ny ? y[ny - 1] + (y[ny - 1] - y[ny - 2]) / 2 : (y[k - 1] + y[k]) / 2;
  });
  const kernel = new Float64Array(ny * ny);
  for (let i = 0; i < ny; i++) {
    const own = cellShares(edges, y[i], wander);
    const image = mirrored ? cellShares(edges, -y[i], wander) : null; // the cells on the other side of the axis
    for (let k = 0; k < ny; k++) kernel[i * ny + k] = own[k] + (image ? image[k] : 0);
  }
  const out = new Float64Array(values.length);
  for (let r = 0; r < rows; r++) {
    for (let i = 0; i < ny; i++) {
      let sum = 0;
      for (let k = 0; k < ny; k++) sum += kernel[i * ny + k] * values[r * ny + k];
      out[r * ny + i] = sum;
    }
  }
  return out;
}
