/** Long computations on pools of workers, the same in Node and in a page. Beam programmes are in laboratory/. */
export {computeLife, computeModel, type LifeOptions, type LifeProgress} from "./life.ts";
export {type LiveLives, type LiveOptions, openLiveLives, type QuickLives, type SolveOptions} from "./live/index.ts";
export {type OpenPool, openLifePool} from "./pools.ts";
export {computeProbe, type ProbeOptions, type ProbeTask} from "./probe.ts";
export {
  computeRisk,
  type RiskOptions,
  type RiskProgress,
  type SampledLives,
  sampleLives,
  samplingRules,
} from "./risk/index.ts";
export {
  type LifeSlots,
  memoryRun,
  openLifeSlots,
  type PointsProgress,
  type PointsRequest,
  partOfRun,
  type Run,
  runPoints,
  unsavedRun,
} from "./runs/index.ts";
export {
  type AskedRange,
  type AskedSearch,
  type AxisOutcome,
  computeSearch,
  computeSurvey,
  FIXED_SPREAD,
  gridPoints,
  hasFixedSpread,
  keyOf,
  openPointLives,
  type Point,
  type PointComputer,
  PointFaults,
  type PointLivesOptions,
  type PointSample,
  pointFaults,
  type Sampling,
  type SearchPlan,
  type SurveyAxis,
  type Surveyed,
  type SurveyedPlane,
  type SurveyRequest,
  searchPlan,
  surveyAxis,
  USUAL_COUNT,
  USUAL_TOLERANCE,
} from "./survey/index.ts";
