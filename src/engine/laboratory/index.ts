/** From laboratory tests to fatigue lines and growth laws. Theory: docs/theory/laboratory.md, docs/theory/beams.md. */
export {type BeamChoices, type BeamSolution, beamSection, solveBeam} from "./beam.ts";
export {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
export {beamFoundation, beamLift} from "./beamFoundation.ts";
export {
  type BeamCycles,
  type BeamHistory,
  type BeamLaws,
  beamCycles,
  beamHistory,
  type LawAtStrain,
  REFERENCE_STRAIN,
  type StrainRange,
} from "./beamGrowth.ts";
export type {BeamCase, LawOrigin} from "./beamLaws.ts";
export type {BeamEffects, BeamScatter, FrontCurves} from "./beamLikelihood.ts";
export type {Observation} from "./beamObservations.ts";
export type {BeamPrediction, FittedFronts, Residual, Spread} from "./beamPrediction.ts";
export type {Profile} from "./beamProfile.ts";
export type {ReducedBeam, ReducedFront} from "./beamReduction.ts";
export {type Calibration, type CalibrationRequest, calibrate} from "./calibration.ts";
export type {CalibrationWarning} from "./calibrationWarnings.ts";
export type {ChoiceProfile} from "./choiceProfiles.ts";
export {type Curve, monotoneCurve} from "./curve.ts";
export {fitGrowth, type GrowthCase, type GrowthEstimate, type GrowthFit, type GrowthOptions} from "./growthFit.ts";
export {beamFactor, type Interval, type LawEstimate} from "./lawEstimates.ts";
export type * from "./types.ts";
