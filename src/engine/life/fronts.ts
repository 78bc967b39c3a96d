/** Fronts against time: dc/dt of all three together, integrated until they meet. */
import {InputError} from "../errors.ts";
import type {Fronts} from "./rates.ts";

export interface FrontPath {
  readonly years: Float64Array;
  readonly fronts: readonly Fronts[]; // at the accepted steps [m]
  readonly failed: boolean;
}

export interface FrontProblem {
  readonly overlayThickness: number; // [m]
  readonly interlayerThickness: number; // 0 without [m]
  /** Rates at a time and crack lengths; overwrites out [m/year]. */
  readonly rates: (years: number, fronts: Fronts, out: Float64Array) => void;
  readonly horizon: number; // [years]
  /** Rates do not change with time but through the lengths: no step is too long for that. */
  readonly steady?: boolean;
}

const LENGTH_TOLERANCE = 2e-6; // error of a step [m]
const LARGEST_ADVANCE = 1 / 30; // of the overlay, in one step: a rate table's cell is never jumped
const MET = 1 / 200; // of the overlay: fronts this near have met
const LARGEST_STEPS = 20_000;

/** Weights of the stages. */
const HALF = [1 / 2];
const THREE_QUARTERS = [3 / 4];
const THIRD_ORDER = [2 / 9, 1 / 3, 4 / 9];
const SECOND_ORDER = [7 / 24, 1 / 4, 1 / 3, 1 / 8];

/**
 * Bogacki–Shampine 3(2) with step control. A step also never advances a front by more than a thirtieth of the overlay, nor
 * time by more than a tenth of the age or a quarter of a year, whichever is longer, so that growing traffic is followed (but
 * where rates are steady).
 *
 * @throws InputError "convergence" after 20,000 steps
 * @source Bogacki & Shampine 1989, doi:10.1016/0893-9659(89)90079-7
 */
export function integrateFronts(problem: FrontProblem): FrontPath {
  const {overlayThickness: H, interlayerThickness: t, rates, horizon, steady = false} = problem;
  /** f + h·Σ wᵢ·kᵢ; the interlayer's own front ends with it. */
  const add = (f: Fronts, h: number, weights: readonly number[], ks: readonly Float64Array[]): Fronts => {
    const moved = (i: 0 | 1 | 2): number => {
      let x = f[i];
      for (let j = 0; j < weights.length; j++) x += h * weights[j] * ks[j][i];
      return x;
    };
    return [Math.min(moved(0), t), moved(1), moved(2)];
  };
  const rate = (time: number, f: Fronts): Float64Array => {
    const out = new Float64Array(3);
    rates(time, f, out);
    if (f[0] >= t) out[0] = 0;
    return out;
  };
  const met = (f: Fronts): boolean => f[1] + f[2] >= H * (1 - MET);

  let time = 0;
  let fronts: Fronts = [0, 0, 0];
  let k1 = rate(0, fronts);
  const years = [0];
  const path: Fronts[] = [fronts];
  let step = 0.01;
  for (let count = 0; time < horizon; count++) {
    if (count > LARGEST_STEPS)
      throw new InputError("convergence", "steps of the crack fronts", count, `≤ ${LARGEST_STEPS}`);
    const fastest = Math.max(k1[0], k1[1], k1[2]);
    const longest = Math.min(
      steady ? Infinity : Math.max(0.25, 0.1 * time),
      horizon - time,
      fastest > 0 ? (LARGEST_ADVANCE * H) / fastest : Infinity,
    );
    // The interlayer's own front stops when it is through: a step ends just behind that point.
    const through = fronts[0] < t && k1[0] > 0 ? (1.0001 * (t - fronts[0])) / k1[0] : Infinity;
    const h = Math.min(step, longest, through);
    const k2 = rate(time + h / 2, add(fronts, h, HALF, [k1]));
    const k3 = rate(time + (3 * h) / 4, add(fronts, h, THREE_QUARTERS, [k2]));
    const next = add(fronts, h, THIRD_ORDER, [k1, k2, k3]);
    const k4 = rate(time + h, next);
    const low = add(fronts, h, SECOND_ORDER, [k1, k2, k3, k4]);
    const error = Math.max(Math.abs(next[0] - low[0]), Math.abs(next[1] - low[1]), Math.abs(next[2] - low[2]));
    const advance = Math.max(next[0] - fronts[0], next[1] - fronts[1], next[2] - fronts[2]);
    const scale = Math.min(3, Math.max(0.2, 0.9 * (LENGTH_TOLERANCE / Math.max(error, 1e-30)) ** (1 / 3)));
    if (error > LENGTH_TOLERANCE || advance > 2 * LARGEST_ADVANCE * H) {
      step = h * Math.min(scale, 0.5);
      if (step > 1e-12 * Math.max(time, 1e-6)) continue; // else the rates are steeper than time can resolve: take it
    }
    const before = fronts[1] + fronts[2];
    const after = next[1] + next[2];
    if (met(next)) {
      // The last step ends where they meet, linear within it.
      const part = (H * (1 - MET) - before) / (after - before);
      years.push(time + part * h);
      path.push([0, 1, 2].map(i => fronts[i] + part * (next[i] - fronts[i])) as unknown as Fronts);
      return {years: Float64Array.from(years), fronts: path, failed: true};
    }
    time += h;
    fronts = next;
    k1 = k4;
    step = h * scale;
    years.push(time);
    path.push(fronts);
  }
  return {years: Float64Array.from(years), fronts: path, failed: false};
}

/** Time at which a quantity along the path first reaches a value, linear between steps [years]; Infinity when it does not. */
export function timeOf(path: FrontPath, quantity: (f: Fronts) => number, value: number): number {
  for (let k = 0; k < path.fronts.length; k++) {
    const q = quantity(path.fronts[k]);
    if (q < value) continue;
    if (k === 0) return path.years[0];
    const before = quantity(path.fronts[k - 1]);
    return path.years[k - 1] + ((path.years[k] - path.years[k - 1]) * (value - before)) / (q - before);
  }
  return Infinity;
}
