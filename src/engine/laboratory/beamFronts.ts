/**
 * Fronts whose growth depends on their lengths alone, followed over their advance and not over the passes, by steps that
 * change with the laws as smoothly as the fronts do: derivatives by differences need that. Theory: docs/theory/beams.md
 */
import {InputError} from "../errors.ts";
import type {Fronts} from "../life/index.ts";
import {ln} from "../numeric/index.ts";

/** Fronts at the ends of the steps, until they meet or the horizon is reached. */
export interface SteadyFronts {
  /** Ascending from 0; when the interlayer is through comes twice, with the growth before and after. */
  readonly passes: Float64Array;
  readonly fronts: readonly [interlayer: Float64Array, underside: Float64Array, surface: Float64Array]; // lengths [m]
  readonly growth: readonly [interlayer: Float64Array, underside: Float64Array, surface: Float64Array]; // there [m/pass]
  readonly broken: boolean; // the fronts met at the last of the passes
}

export interface SteadyProblem {
  readonly overlayThickness: number; // [m]
  readonly interlayerThickness: number; // 0 without [m]
  /** Growth at crack lengths; overwrites out [m/pass]. */
  readonly growth: (fronts: Fronts, out: Float64Array) => void;
  readonly horizon: number; // passes, > 0
}

const ADVANCE = 1 / 60; // of the overlay, by all fronts together in a step, where growth is even
const UNEVEN = 4; // times that ln of growth changes in a step, by which the step is shorter
const MET = 1 / 200; // of the overlay: fronts this near have met
const LARGEST_STEPS = 20_000;
const HALVINGS = 48; // of the last step, for its end

/** Fronts, passes; and their derivatives by the advance of all fronts together. */
type State = readonly [interlayer: number, underside: number, surface: number, passes: number];

/**
 * d(fronts, passes)/ds, with ds the advance of all fronts together, by Runge–Kutta of fourth order. The length of a step
 * follows from how growth changed in the one before, and none is tried again: steps come and go with no choice of whether.
 * Cracks that all but stop take more of them; those that stop wait for the horizon.
 *
 * @throws InputError "convergence" after 20,000 steps
 */
export function steadyFronts({
  overlayThickness: H,
  interlayerThickness: t,
  growth,
  horizon,
}: SteadyProblem): SteadyFronts {
  const rates = new Float64Array(3);
  let through = t === 0;
  const slopeAt = (a: number, b: number, c: number): State => {
    growth([Math.min(a, t), b, c], rates);
    if (through) rates[0] = 0;
    const sum = rates[0] + rates[1] + rates[2];
    return [rates[0] / sum, rates[1] / sum, rates[2] / sum, 1 / sum]; // where nothing grows: passes without end
  };
  /** Fronts and passes after an advance of h. */
  const stepped = (from: State, first: State, h: number): State => {
    const along = (k: State, part: number): State =>
      slopeAt(from[0] + part * k[0], from[1] + part * k[1], from[2] + part * k[2]);
    const second = along(first, h / 2);
    const third = along(second, h / 2);
    const fourth = along(third, h);
    return [0, 1, 2, 3].map(
      i => from[i] + (h / 6) * (first[i] + 2 * second[i] + 2 * third[i] + fourth[i]),
    ) as unknown as State;
  };

  const path: State[] = [];
  const slopes: State[] = [];
  let state: State = [0, 0, 0, 0];
  let slope = slopeAt(0, 0, 0);
  const keep = (): void => {
    path.push(state);
    slopes.push(slope);
  };
  keep();
  const even = ADVANCE * H;
  const short = even / 10; // of a step that knows of none before it
  let h = short;
  let [broken, ended] = [false, false];
  while (!ended) {
    if (path.length > LARGEST_STEPS)
      throw new InputError("convergence", "steps of the crack fronts", path.length, `≤ ${LARGEST_STEPS}`);
    let next = stepped(state, slope, h);
    /** Shortens the step to where something comes true, if it does by its end. */
    const endsWhere = (holds: (s: State) => boolean): boolean => {
      if (!holds(next)) return false;
      let [low, high] = [0, h];
      for (let k = 0; k < HALVINGS; k++) {
        const middle = 0.5 * (low + high);
        if (holds(stepped(state, slope, middle))) high = middle;
        else low = middle;
      }
      h = high;
      next = stepped(state, slope, h);
      return true;
    };
    const ownEnds = !through && endsWhere(s => s[0] >= t);
    broken = endsWhere(s => s[1] + s[2] >= H * (1 - MET));
    ended = endsWhere(s => !(s[3] < horizon)) || broken;
    if (!(next[3] < horizon)) {
      broken = false;
      next = Number.isFinite(next[3]) ? [next[0], next[1], next[2], horizon] : [state[0], state[1], state[2], horizon];
    }
    state = next;
    const before = slope[3];
    slope = slopeAt(state[0], state[1], state[2]);
    keep();
    if (ownEnds && !ended) {
      through = true;
      state = [t, state[1], state[2], state[3]];
      slope = slopeAt(t, state[1], state[2]);
      keep();
      h = short;
    } else {
      const uneven = Math.abs(ln(slope[3] / before)) / h;
      h = even / (1 + UNEVEN * even * uneven);
    }
  }
  const column = (of: readonly State[], k: number): Float64Array => Float64Array.from(of, s => s[k]);
  const rate = (k: number): Float64Array => Float64Array.from(slopes, s => (s[3] < Infinity ? s[k] / s[3] : 0));
  return {
    passes: column(path, 3),
    fronts: [column(path, 0), column(path, 1), column(path, 2)],
    growth: [rate(0), rate(1), rate(2)],
    broken,
  };
}
