/** How the likelihood changes with choices that no single beam settles: the weight of shear and the interlock of crack faces. */
import {solveBeam} from "./beam.ts";
import {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
import {beamCycles} from "./beamGrowth.ts";
import type {BeamCase} from "./beamLaws.ts";
import {likelihoodCut} from "./beamProfile.ts";
import type {CalibrationRequest} from "./calibration.ts";

export const CHOICES = ["shear weight", "crack interlock"] as const;
export type Choice = (typeof CHOICES)[number];

export interface ChoiceProfile {
  readonly choice: Choice;
  readonly values: readonly number[]; // [–] or [Pa/m]
  readonly fall: readonly number[]; // of ln likelihood from the largest of all values, ≤ 0
  readonly cut: number; // values that fall less are allowed
  readonly used: number;
  /** Values that the readings allow; both ends of the trial among them means that nothing is known. */
  readonly allowed: readonly number[];
  readonly known: boolean;
}

const TRIALS: Readonly<Record<Choice, readonly number[]>> = {
  "shear weight": [0, 0.25, 0.5, 1, 2],
  "crack interlock": [0, 10e9, 50e9, 200e9], // [Pa/m]: 10, 50 and 200 MPa/mm
};

const SETTLED = 0.05; // standard errors: what is compared are falls of many units of likelihood, or none

function usedValue(choice: Choice, {shearWeight, choices}: CalibrationRequest): number {
  return choice === "shear weight" ? shearWeight : choices.interlock;
}

/** Values to be tried besides the one used. */
export function trials(choice: Choice, request: CalibrationRequest): number[] {
  return TRIALS[choice].filter(v => v !== usedValue(choice, request));
}

/** ln likelihood of the laws fitted anew with another value. */
export function choiceLikelihood(
  cases: readonly BeamCase[],
  {choices, shearWeight}: CalibrationRequest,
  options: BeamFitOptions,
  {parameters, scatter, effects}: BeamFit,
  {choice, value}: {readonly choice: Choice; readonly value: number},
): number {
  const moved = cases.map(({test, solution}): BeamCase => {
    if (choice === "shear weight") return {test, solution, cycles: beamCycles(solution, value)};
    const other = solveBeam(test, solution.foundation, {...choices, interlock: value});
    return {test, solution: other, cycles: beamCycles(other, shearWeight)};
  });
  return fitBeams(moved, {...options, start: {parameters, scatter, effects}, settled: SETTLED}).likelihood;
}

export function choiceProfile(
  choice: Choice,
  tried: readonly {readonly value: number; readonly likelihood: number}[],
  request: CalibrationRequest,
  fit: BeamFit,
): ChoiceProfile {
  const used = usedValue(choice, request);
  const all = [...tried, {value: used, likelihood: fit.likelihood}].sort((p, q) => p.value - q.value);
  const most = Math.max(...all.map(p => p.likelihood));
  const values = all.map(p => p.value);
  const fall = all.map(p => p.likelihood - most);
  const cut = likelihoodCut(request.level, fit.degrees);
  const allowed = values.filter((_, k) => fall[k] >= cut);
  const known = !(allowed.includes(values[0]) && allowed.includes(values[values.length - 1]));
  return {choice, values, fall, cut, used, allowed, known};
}
