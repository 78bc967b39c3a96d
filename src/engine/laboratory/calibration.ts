/**
 * A programme of wheel-tracked beams from readings to growth laws: beams solved, laws fitted, each beam predicted by laws
 * fitted without it, and what the programme could not tell. In parts that can be shared out to threads; each thread solves and
 * fits for itself, which is quicker than sending solutions about. Theory: docs/theory/beams.md.
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
import {CHOICES, type Choice, type ChoiceProfile, choiceLikelihood, choiceProfile, trials} from "./choiceProfiles.ts";
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

/** The laws, and all that follows from them and the readings at once. */
export interface CalibrationBase {
  readonly cases: readonly BeamCase[]; // the beams fitted
  readonly lifts: readonly number[]; // of their ends over the settlement [–], by beam
  readonly origins: Readonly<Record<string, LawOrigin>>;
  readonly fit: BeamFit;
  readonly fronts: readonly FittedFronts[]; // by beam fitted
  readonly estimates: readonly LawEstimate[]; // by fitted material
}

export interface Calibration extends CalibrationBase {
  readonly request: CalibrationRequest;
  readonly profiles: readonly Profile[]; // by parameter
  readonly reduced: readonly ReducedBeam[]; // of all beams, those set aside too
  readonly predictions: readonly BeamPrediction[]; // of each beam by laws fitted without it
  readonly unpredicted: readonly {readonly name: string; readonly reason: string}[];
  readonly choices: readonly ChoiceProfile[];
  readonly warnings: readonly CalibrationWarning[];
}

export type CalibrationPart =
  | {readonly kind: "base"}
  | {readonly kind: "profile"; readonly parameter: number}
  | {readonly kind: "leave out"; readonly beam: number}
  | {readonly kind: "choice"; readonly choice: Choice; readonly value: number};

export interface CalibrationTask {
  readonly request: CalibrationRequest;
  readonly part: CalibrationPart;
  readonly label: string;
  readonly weight: number; // of its time [–]
}

export type CalibrationPiece =
  | {readonly kind: "base"; readonly base: CalibrationBase}
  | {readonly kind: "profile"; readonly profile: Profile}
  | {readonly kind: "leave out"; readonly beam: number; readonly prediction: BeamPrediction | {readonly reason: string}}
  | {readonly kind: "choice"; readonly choice: Choice; readonly value: number; readonly likelihood: number};

/** @throws InputError "domain" when no beam is left */
export function calibrationTasks(request: CalibrationRequest): CalibrationTask[] {
  const used = usedTests(request);
  const {size} = lawVector(used, originsOf(request, used));
  const task = (part: CalibrationPart, label: string, weight: number): CalibrationTask => ({
    request,
    part,
    label,
    weight,
  });
  return [
    task({kind: "base"}, "beams and laws", 4),
    ...used.map((test, beam) => task({kind: "leave out", beam}, `${test.name} without it`, 2)),
    ...CHOICES.flatMap(choice =>
      trials(choice, request).map(value => task({kind: "choice", choice, value}, `another ${choice}`, 2)),
    ),
    ...Array.from({length: size}, (_, parameter) => task({kind: "profile", parameter}, "likelihood", 2)),
  ];
}

/** Does tasks of one request after another; what they share is computed once. */
export function calibrationWorker(): (
  task: Pick<CalibrationTask, "request" | "part">,
  inputs: readonly CalibrationPiece[],
  onProgress: (part: number) => boolean,
) => CalibrationPiece {
  let known: {readonly key: string; readonly base: CalibrationBase} | null = null;
  return ({request, part}, _, onProgress) => {
    const key = JSON.stringify(request);
    if (known?.key !== key) known = {key, base: calibrationBase(request, onProgress)};
    return pieceOf(part, request, known.base);
  };
}

/** @param pieces of `calibrationTasks`, in their order */
export function assembleCalibration(
  request: CalibrationRequest,
  pieces: readonly (CalibrationPiece | undefined)[],
): Calibration {
  const base = pieces.flatMap(p => (p?.kind === "base" ? [p.base] : []))[0];
  const {cases, lifts, origins, fit} = base;
  const predictions: BeamPrediction[] = [];
  const unpredicted: {name: string; reason: string}[] = [];
  for (const piece of pieces) {
    if (piece?.kind !== "leave out") continue;
    const {prediction} = piece;
    if ("reason" in prediction) unpredicted.push({name: cases[piece.beam].test.name, reason: prediction.reason});
    else predictions.push(prediction);
  }
  const choices = CHOICES.map(choice => {
    const tried = pieces.flatMap(p => (p?.kind === "choice" && p.choice === choice ? [p] : []));
    return choiceProfile(choice, tried, request, fit);
  });
  return {
    ...base,
    request,
    profiles: pieces.flatMap(p => (p?.kind === "profile" ? [p.profile] : [])),
    reduced: request.tests.map(t => reduceBeam(t, request.level)),
    predictions,
    unpredicted,
    choices,
    warnings: warningsOf({tests: request.tests, cases, lifts, origins, fit, choices}),
  };
}

/**
 * All of it on one thread.
 *
 * @throws InputError; Cancelled when onProgress returns false
 */
export function calibrate(
  request: CalibrationRequest,
  onProgress: (part: number, doing: string) => boolean = () => true,
): Calibration {
  const tasks = calibrationTasks(request);
  const total = tasks.reduce((sum, t) => sum + t.weight, 0);
  const work = calibrationWorker();
  let done = 0;
  const pieces = tasks.map(task => {
    const piece = work(task, [], part => onProgress((done + part * task.weight) / total, task.label));
    done += task.weight;
    return piece;
  });
  return assembleCalibration(request, pieces);
}

function usedTests({tests}: CalibrationRequest): BeamTest[] {
  const used = tests.filter(t => t.setAside === null);
  if (!used.length) throw new InputError("domain", "tests", 0, "at least one beam that is not set aside");
  return used;
}

function calibrationBase(request: CalibrationRequest, onProgress: (part: number) => boolean): CalibrationBase {
  const {choices, shearWeight, level} = request;
  const used = usedTests(request);
  const cases = used.map((test, k) => {
    if (!onProgress((0.5 * k) / used.length)) throw new Cancelled();
    const solution = solveBeam(test, beamFoundation(test, choices), choices);
    return {test, solution, cycles: beamCycles(solution, shearWeight)};
  });
  const origins = originsOf(request, used);
  const fit = fitBeams(cases, {
    origins,
    exponentPrior: request.exponentPrior,
    onProgress: part => onProgress(0.5 + 0.5 * part),
  });
  const laws = lawVector(used, origins);
  const strains = fit.materials.map(name => strainRange(cases, name));
  return {
    cases,
    lifts: cases.map(({test, solution}) => beamLift(test, solution.foundation, choices)),
    origins,
    fit,
    fronts: cases.map((one, k) => fittedFronts(one, fit, laws, fit.effects[k])),
    estimates: lawEstimates(fit, strains, level),
  };
}

function pieceOf(part: CalibrationPart, request: CalibrationRequest, base: CalibrationBase): CalibrationPiece {
  const {cases, origins, fit} = base;
  const options = {origins, exponentPrior: request.exponentPrior};
  switch (part.kind) {
    case "base":
      return {kind: "base", base};
    case "profile":
      return {kind: "profile", profile: profileOf(cases, options, fit, part.parameter, request.level)};
    case "leave out": {
      const {beam} = part;
      const without = leaveOut(cases, beam, fit, options);
      if (typeof without === "string") return {kind: "leave out", beam, prediction: {reason: without}};
      const laws = lawVector(usedTests(request), origins); // the same without this beam: others have its materials
      return {kind: "leave out", beam, prediction: predictBeam(cases[beam], without, laws, request.seed + beam)};
    }
    case "choice":
      return {...part, likelihood: choiceLikelihood(cases, request, options, fit, part)};
  }
}

/** An interlayer's own law is fitted when its front was read at least so often. */
const READINGS_FOR_A_LAW = 3;

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

const SETTLED_WITHOUT = 0.02; // standard errors: far less than moves a prediction

/** The fit to all beams but one, or why there is none. */
function leaveOut(
  cases: readonly BeamCase[],
  out: number,
  {parameters, scatter, effects, materials}: BeamFit,
  options: BeamFitOptions,
): BeamFit | string {
  const others = cases.filter((_, k) => k !== out);
  const left = new Set(others.flatMap(({test}) => [test.overlay.material, test.interlayer?.material]));
  const missing = materials.find(name => !left.has(name));
  if (missing) return `no other beam has ${missing}`;
  try {
    const start = {parameters, scatter, effects: effects.filter((_, k) => k !== out)};
    return fitBeams(others, {...options, start, settled: SETTLED_WITHOUT});
  } catch (error) {
    // The other beams alone may not tell the laws: that is an answer, not a failure of the whole.
    if (error instanceof InputError) return error.message;
    throw error;
  }
}
