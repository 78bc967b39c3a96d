import {twoSidedT} from "../statistics/index.ts";
import {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
import type {BeamCase} from "./beamLaws.ts";

/** How the likelihood falls when one parameter is moved away and all others follow, the scatter held. */
export interface Profile {
  readonly parameter: number;
  readonly values: Float64Array; // ascending
  readonly fall: Float64Array; // of ln likelihood from its largest, ≤ 0
  readonly cut: number; // of the fall at which the interval ends
  readonly interval: readonly [number | null, number | null]; // null: not reached within the values
}

const REACH = 3; // standard errors to either side
const STEPS = 3; // to either side
const SETTLED = 0.02; // standard errors: ln likelihood is then within 0.0002 of its top

/** How far ln likelihood may fall within an interval: t²/2, as the scatter is not known, instead of χ²/2. */
export function likelihoodCut(level: number, degrees: number): number {
  return -0.5 * twoSidedT(level, degrees) ** 2;
}

/**
 * The interval ends where ln likelihood has fallen by t²/2, t Student's for the fit's degrees of freedom: the usual cut
 * χ²/2 supposes that the scatter is known.
 *
 * @param level  of confidence, such as 0.9
 */
export function profileOf(
  cases: readonly BeamCase[],
  options: BeamFitOptions,
  fit: BeamFit,
  parameter: number,
  level: number,
): Profile {
  const size = fit.parameters.length;
  const error = Math.sqrt(fit.covariance[parameter * size + parameter]);
  const points: {value: number; likelihood: number}[] = [
    {value: fit.parameters[parameter], likelihood: fit.likelihood},
  ];
  for (const side of [-1, 1]) {
    let start: BeamFit = fit;
    for (let k = 1; k <= STEPS; k++) {
      const parameters = start.parameters.slice();
      const value = fit.parameters[parameter] + (side * k * REACH * error) / STEPS;
      // The others begin where the covariance says that they follow.
      for (let i = 0; i < size; i++)
        parameters[i] += (fit.covariance[i * size + parameter] / error ** 2) * (value - start.parameters[parameter]);
      parameters[parameter] = value;
      start = fitBeams(cases, {...options, start: {...start, parameters}, held: [parameter], settled: SETTLED});
      points.push({value, likelihood: start.likelihood});
    }
  }
  points.sort((p, q) => p.value - q.value);
  const most = Math.max(...points.map(p => p.likelihood));
  const values = Float64Array.from(points, p => p.value);
  const fall = Float64Array.from(points, p => p.likelihood - most);
  const cut = likelihoodCut(level, fit.degrees);
  return {parameter, values, fall, cut, interval: [crossing(values, fall, cut, -1), crossing(values, fall, cut, 1)]};
}

/** Where the fall first reaches the cut on one side of its top: linear in its signed root, which is nearly straight. */
function crossing(values: Float64Array, fall: Float64Array, cut: number, side: -1 | 1): number | null {
  const top = fall.indexOf(0);
  const root = (k: number): number => Math.sqrt(-2 * fall[k]);
  const wanted = Math.sqrt(-2 * cut);
  for (let k = top + side; k >= 0 && k < values.length; k += side) {
    const [near, far] = [root(k - side), root(k)];
    if (far < wanted) continue;
    return values[k - side] + ((values[k] - values[k - side]) * (wanted - near)) / (far - near);
  }
  return null;
}
