/**
 * A programme of wheel-tracked beams from readings to growth laws: beams solved, laws fitted, each beam predicted by laws
 * fitted without it, and what the programme could not tell. Theory: docs/theory/laboratory.md.
 */
import {Cancelled, InputError} from "../errors.ts";
import {type BeamChoices, solveBeam} from "./beam.ts";
import {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
import {beamFoundation, beamLift} from "./beamFoundation.ts";
import {beamCycles, strainRange} from "./beamGrowth.ts";
import {type BeamCase, type LawOrigin, lawVector} from "./beamLaws.ts";
import {observationsOf} from "./beamObservations.ts";
import {type BeamPrediction, type FittedFronts, fittedFronts, predictBeam} from "./beamPrediction.ts";
import {type Profile, profileOf} from "./beamProfile.ts";
import {type ReducedBeam, reduceBeam} from "./beamReduction.ts";
import type {BeamTest} from "./beamTypes.ts";
import {type CalibrationWarning, warningsOf} from "./calibrationWarnings.ts";
import {type ChoiceProfile, choiceProfiles} from "./choiceProfiles.ts";
import {type LawEstimate, lawEstimates} from "./lawEstimates.ts";

export interface CalibrationRequest {
  readonly tests: readonly BeamTest[];
  readonly choices: BeamChoices;
  readonly shearWeight: number; // of the shear terms in the tip strain [–]
  /** Laws of interlayers that do not crack in the beams, from fatigue lines, by material. */
  readonly relative: Readonly<Record<string, Extract<LawOrigin, {kind: "relative"}>>>;
  readonly exponentPrior: BeamFitOptions["exponentPrior"];
  readonly level: number; // of confidence, such as 0.9
  readonly seed: number; // of the draws behind predictions
}

export interface Calibration {
  readonly request: CalibrationRequest;
  readonly cases: readonly BeamCase[]; // the beams fitted
  readonly lifts: readonly number[]; // of their ends over the settlement [–], by beam
  readonly origins: Readonly<Record<string, LawOrigin>>;
  readonly fit: BeamFit;
  readonly fronts: readonly FittedFronts[]; // by beam fitted
  readonly estimates: readonly LawEstimate[]; // by fitted material
  readonly profiles: readonly Profile[]; // by parameter
  readonly reduced: readonly ReducedBeam[]; // of all beams, those set aside too
  readonly predictions: readonly BeamPrediction[]; // of each beam by laws fitted without it
  readonly unpredicted: readonly {readonly name: string; readonly reason: string}[];
  readonly choices: readonly ChoiceProfile[];
  readonly warnings: readonly CalibrationWarning[];
}

/** An interlayer's own law is fitted when its front was read at least so often. */
const READINGS_FOR_A_LAW = 3;

/** @throws InputError; Cancelled when onProgress returns false */
export function calibrate(
  request: CalibrationRequest,
  onProgress: (part: number, doing: string) => boolean = () => true,
): Calibration {
  const told = (part: number, doing: string): true => {
    if (!onProgress(part, doing)) throw new Cancelled();
    return true;
  };
  const {choices, shearWeight, level, seed} = request;
  const used = request.tests.filter(t => t.setAside === null);
  if (!used.length) throw new InputError("domain", "tests", 0, "at least one beam that is not set aside");
  const cases = used.map((test, k) => {
    told((0.15 * k) / used.length, `solving ${test.name}`);
    const solution = solveBeam(test, beamFoundation(test, choices), choices);
    return {test, solution, cycles: beamCycles(solution, shearWeight)};
  });
  const origins = originsOf(request, used);
  const options: BeamFitOptions = {
    origins,
    exponentPrior: request.exponentPrior,
    onProgress: () => told(0.2, "fitting the growth laws"),
  };
  const fit = fitBeams(cases, options);
  const laws = lawVector(used, origins);
  const fronts = cases.map((one, k) => fittedFronts(one, fit, laws.lawsOf(one.test, fit.parameters), fit.effects[k]));
  const strains = fit.materials.map(name => strainRange(cases, name));
  const estimates = lawEstimates(fit, strains, level);
  const profiles = [...fit.parameters.keys()].map(k => {
    told(0.25 + (0.25 * k) / fit.parameters.length, "profiling the likelihood");
    return profileOf(cases, {origins, exponentPrior: options.exponentPrior}, fit, k, level);
  });
  const predictions: BeamPrediction[] = [];
  const unpredicted: {name: string; reason: string}[] = [];
  cases.forEach((one, k) => {
    told(0.5 + (0.25 * k) / cases.length, `predicting ${one.test.name} without it`);
    const without = leaveOut(cases, k, fit, options);
    if (typeof without === "string") unpredicted.push({name: one.test.name, reason: without});
    else predictions.push(predictBeam(one, without.fit, origins, without.others, seed + k));
  });
  const profilesOfChoices = choiceProfiles(cases, request, options, fit, part =>
    told(0.75 + 0.25 * part, "trying the choices"),
  );
  const lifts = cases.map(({test, solution}) => beamLift(test, solution.foundation, choices));
  return {
    request,
    cases,
    lifts,
    origins,
    fit,
    fronts,
    estimates,
    profiles,
    reduced: request.tests.map(t => reduceBeam(t, level)),
    predictions,
    unpredicted,
    choices: profilesOfChoices,
    warnings: warningsOf({tests: request.tests, cases, lifts, origins, fit, choices: profilesOfChoices}),
  };
}

/** Overlays are fitted; an interlayer too when its front was read, else it goes with its fatigue line or stays whole. */
function originsOf({relative}: CalibrationRequest, tests: readonly BeamTest[]): Record<string, LawOrigin> {
  const origins: Record<string, LawOrigin> = {};
  for (const {overlay} of tests) origins[overlay.material] = {kind: "fitted"};
  for (const {interlayer} of tests) {
    if (!interlayer || origins[interlayer.material]) continue;
    const {material} = interlayer;
    const own = tests.filter(t => t.interlayer?.material === material);
    const read = own.flatMap(t => observationsOf(t, t.readingError)).filter(o => o.kind === "length" && o.front === 0);
    origins[material] = read.length >= READINGS_FOR_A_LAW ? {kind: "fitted"} : (relative[material] ?? {kind: "whole"});
  }
  return origins;
}

/** The fit to all beams but one, or why there is none. */
function leaveOut(
  cases: readonly BeamCase[],
  out: number,
  {parameters, scatter, effects, materials}: BeamFit,
  options: BeamFitOptions,
): {readonly fit: BeamFit; readonly others: readonly BeamCase[]} | string {
  const others = cases.filter((_, k) => k !== out);
  const left = new Set(others.flatMap(({test}) => [test.overlay.material, test.interlayer?.material]));
  const missing = materials.find(name => !left.has(name));
  if (missing) return `no other beam has ${missing}`;
  try {
    const start = {parameters, scatter, effects: effects.filter((_, k) => k !== out)};
    return {fit: fitBeams(others, {...options, start}), others};
  } catch (error) {
    // The other beams alone may not tell the laws: that is an answer, not a failure of the whole.
    if (error instanceof InputError) return error.message;
    throw error;
  }
}
