/** Lives with inputs varied: at points, over ranges of two inputs, and where a thickness reaches a life. */
export {type AskedRange, type AxisOutcome, type SurveyAxis, surveyAxis, USUAL_COUNT} from "./axis.ts";
export {
  keyOf,
  openPointLives,
  type Point,
  type PointComputer,
  PointFaults,
  type PointLivesOptions,
  type PointSample,
  pointFaults,
  type Sampling,
} from "./points.ts";
export {
  type AskedSearch,
  computeSearch,
  FIXED_SPREAD,
  hasFixedSpread,
  type SearchPlan,
  searchPlan,
} from "./search.ts";
export {
  computeSurvey,
  gridPoints,
  type Surveyed,
  type SurveyedPlane,
  type SurveyRequest,
  USUAL_TOLERANCE,
} from "./survey.ts";
