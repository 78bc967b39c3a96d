/** Where a treatment pays: lives over ranges of two inputs, on a grid that gets finer until interpolation tells the rest. */
import {
  type GridLevel,
  type MissByAxis,
  missesOf,
  newNodes,
  type PointOutcome,
  type Reached,
  refinement,
  type Survey,
} from "../../engine/survey/index.ts";
import type {SurveyAxis} from "./axis.ts";
import {openPointLives, type Point, type PointLivesOptions} from "./points.ts";

export interface SurveyedPlane {
  readonly x: SurveyAxis;
  readonly y: SurveyAxis;
  readonly treatments: readonly [control: string, treated: string];
}

/** A survey as far as it is computed. */
export interface Surveyed {
  readonly survey: Survey;
  readonly points: number; // computed
  readonly missed: MissByAxis | null; // by interpolation, at the last step
}

export interface SurveyRequest extends SurveyedPlane, Omit<PointLivesOptions, "treatments" | "onSampling"> {
  /** Miss of interpolated lives and ratios at the last nodes that is accepted [–]; below 0: every point is computed. */
  readonly tolerance?: number | undefined; // default USUAL_TOLERANCE
  /** What is known after each step that computed something. It is waited for. */
  readonly onPicture?: ((surveyed: Surveyed) => void | Promise<void>) | undefined;
}

/**
 * Miss of interpolated lives and ratios at the last nodes that is accepted [–]. Then these are nodes themselves: what lies
 * between now is missed by a tenth of it or so, cubics being of fourth order, less than the accuracy of a life moves it.
 */
export const USUAL_TOLERANCE = 0.05;
/** Lives beyond are no prediction, as in every report [years]. */
const LONGEST = 100;

/** All points of the grid, which should be looked at with `pointFaults` before a survey begins. */
export function gridPoints(plane: SurveyedPlane): Point[] {
  return plane.y.values.flatMap((_, j) => plane.x.values.map((_, i) => pointAt(plane, i, j)));
}

function pointAt({x, y}: SurveyedPlane, i: number, j: number): Point {
  return [
    {input: x.input, value: x.values[i]},
    {input: y.input, value: y.values[j]},
  ];
}

/**
 * Step by step until what lies between is foretold well enough.
 *
 * @throws Cancelled, then the run has what was finished; PointFaults
 */
export async function computeSurvey(request: SurveyRequest): Promise<Surveyed> {
  const {x, y, tolerance = USUAL_TOLERANCE, onPicture} = request;
  const computer = openPointLives(request);
  const outcomes = new Map<string, PointOutcome>();
  const {next} = refinement(x.values.length, y.values.length);
  let reached: Reached = {x: -1, y: -1};
  let level: GridLevel | null = null;
  let state: Surveyed | null = null;
  try {
    for (let step = next(reached, null, tolerance); step; step = next(reached, state?.missed ?? null, tolerance)) {
      const nodes = newNodes(step.level, level);
      const points = nodes.map(({i, j}) => pointAt(request, i, j));
      const fresh = computer.missing(points) > 0;
      await computer.compute(points, (outcome, _, k) => outcomes.set(`${nodes[k].i},${nodes[k].j}`, outcome));
      const survey: Survey = {x, y, level: step.level, outcome: (i, j) => outcomes.get(`${i},${j}`)};
      const missed: MissByAxis | null = level && missesOf(survey, level, {treatment: 1, longest: LONGEST});
      [reached, level, state] = [step.reached, step.level, {survey, points: outcomes.size, missed}];
      if (fresh) await onPicture?.(state); // after a resume not every picture once more
    }
  } finally {
    await computer.close();
  }
  return state!;
}
