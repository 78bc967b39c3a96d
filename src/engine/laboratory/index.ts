/** From laboratory tests to fatigue lines and growth laws. Theory: docs/theory/laboratory.md, docs/theory/beams.md. */
export {type BeamChoices, type BeamSolution, beamSection, solveBeam} from "./beam.ts";
export {type BeamFit, type BeamFitOptions, fitBeams} from "./beamFit.ts";
export {beamFoundation, beamLift} from "./beamFoundation.ts";
export {
  type BeamCycles,
  type BeamLaws,
  beamCycles,
  beamHistory,
  type LawAtStrain,
  REFERENCE_STRAIN,
  type StrainRange,
} from "./beamGrowth.ts";
export type {BeamCase, LawOrigin} from "./beamLaws.ts";
export type {BeamEffects, BeamScatter, FrontCurves} from "./beamLikelihood.ts";
export {isThrough, type Observation} from "./beamObservations.ts";
export type {BeamPrediction, FittedFronts, Residual, Spread} from "./beamPrediction.ts";
export type {Profile} from "./beamProfile.ts";
export type {ReducedBeam, ReducedFront} from "./beamReduction.ts";
export {
  assembleCalibration,
  type Calibration,
  type CalibrationPiece,
  type CalibrationRequest,
  type CalibrationTask,
  calibrate,
  calibrationTasks,
  calibrationWorker,
} from "./calibration.ts";
export type {CalibrationWarning} from "./calibrationWarnings.ts";
export type {ChoiceProfile} from "./choiceProfiles.ts";
export {compareLives, type LawDifference, type LifeComparison, lawDifference, ratioInterval} from "./comparison.ts";
export {type Curve, monotoneCurve} from "./curve.ts";
export {fatigueLines} from "./fatigueLine.ts";
export {type FatigueResult, fatigueResult} from "./fatigueResult.ts";
export type * from "./fatigueTypes.ts";
export {fitGrowth, type GrowthCase, type GrowthEstimate, type GrowthFit, type GrowthOptions} from "./growthFit.ts";
export {type HistoryReader, type HistoryRow, readHistory} from "./history.ts";
export type {Interval, LawEstimate} from "./lawEstimates.ts";
export {relativeLaws} from "./relativeLaws.ts";
export {
  type BendingConstants,
  type BendingReading,
  bendingConstants,
  type ComplexModulus,
  complexModulus,
  midSpanRatio,
  specimenStrain,
  swingingMass,
} from "./specimens.ts";
export type * from "./types.ts";
