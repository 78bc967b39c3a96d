/** How the likelihood changes with choices that no single beam settles: the weight of shear and the interlock of crack faces. */
import {tQuantile} from "../statistics/index.ts";
import {solveBeam} from "./beam.ts";
import {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
import {beamCycles} from "./beamGrowth.ts";
import type {BeamCase} from "./beamLaws.ts";
import type {CalibrationRequest} from "./calibration.ts";

export interface ChoiceProfile {
  readonly choice: "shear weight" | "crack interlock";
  readonly values: readonly number[]; // [–] or [Pa/m]
  readonly fall: readonly number[]; // of ln likelihood from the largest of all values, ≤ 0
  readonly cut: number; // values that fall less are allowed
  readonly used: number;
  /** Values that the readings allow; both ends of the trial among them means that nothing is known. */
  readonly allowed: readonly number[];
  readonly known: boolean;
}

const SHEAR_WEIGHTS = [0, 0.25, 0.5, 1, 2];
const INTERLOCKS = [0, 10e9, 50e9, 200e9]; // [Pa/m]: 10, 50 and 200 MPa/mm

export function choiceProfiles(
  cases: readonly BeamCase[],
  request: CalibrationRequest,
  options: BeamFitOptions,
  fit: BeamFit,
  onProgress: (part: number) => boolean,
): ChoiceProfile[] {
  const cut = -0.5 * tQuantile(0.5 + request.level / 2, fit.degrees) ** 2;
  const {shearWeight, choices} = request;
  const start = {parameters: fit.parameters, scatter: fit.scatter, effects: fit.effects};
  const refit = (moved: readonly BeamCase[]): number =>
    fitBeams(moved, {origins: options.origins, exponentPrior: options.exponentPrior, start}).likelihood;
  const profile = (
    choice: ChoiceProfile["choice"],
    trials: readonly number[],
    used: number,
    likelihoodAt: (value: number) => number,
  ): ChoiceProfile => {
    const values = [...new Set([...trials, used])].sort((p, q) => p - q);
    const likelihoods = values.map(v => (v === used ? fit.likelihood : likelihoodAt(v)));
    const most = Math.max(...likelihoods);
    const fall = likelihoods.map(l => l - most);
    const allowed = values.filter((_, k) => fall[k] >= cut);
    return {
      choice,
      values,
      fall,
      cut,
      used,
      allowed,
      known: !(allowed.includes(values[0]) && allowed.includes(values[values.length - 1])),
    };
  };
  const total = SHEAR_WEIGHTS.length + INTERLOCKS.length;
  let done = 0;
  const shear = profile("shear weight", SHEAR_WEIGHTS, shearWeight, weight => {
    onProgress(done++ / total);
    return refit(cases.map(c => ({...c, cycles: beamCycles(c.solution, weight)})));
  });
  const interlock = profile("crack interlock", INTERLOCKS, choices.interlock, stiffness => {
    onProgress(done++ / total);
    return refit(
      cases.map(({test, solution: {foundation}}) => {
        const solution = solveBeam(test, foundation, {...choices, interlock: stiffness});
        return {test, solution, cycles: beamCycles(solution, shearWeight)};
      }),
    );
  });
  return [shear, interlock];
}
