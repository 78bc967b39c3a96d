/** Lives with inputs varied: at points, and over ranges of two inputs. */
export {type AskedRange, type AxisOutcome, type SurveyAxis, surveyAxis, USUAL_COUNT} from "./axis.ts";
export {
  keyOf,
  openPointLives,
  type Point,
  type PointComputer,
  PointFaults,
  type PointLivesOptions,
  type PointSample,
  planAt,
  pointFaults,
  pointWarnings,
  type Sampling,
} from "./points.ts";
export {
  computeSurvey,
  gridPoints,
  type Surveyed,
  type SurveyedPlane,
  type SurveyRequest,
  USUAL_TOLERANCE,
} from "./survey.ts";
