/** Lives over ranges of inputs: where to compute them, what lies between, what they say. Theory: docs/where-it-pays.md. */
export {axisValues, coordinate, type Field, fieldOf, type Survey, type SurveyAxis} from "./field.ts";
export {type Design, frontierOf} from "./frontier.ts";
export {type CubicWeights, cubicWeights, weighted} from "./interpolate.ts";
export {type Cause, type Effect, type Judgement, judge} from "./judgement.ts";
export {type LeastFound, type LeastSearch, leastReaching} from "./least.ts";
export {axisLevels, type GridLevel, newNodes} from "./levels.ts";
export {LIFE_CAP} from "./lifeCap.ts";
export {type Governing, governingOf, REFLECTION, recordLives} from "./record.ts";
export {type Miss, type MissByAxis, missesOf, type Reached, type Refinement, refinement} from "./refine.ts";
export {
  evenly,
  type FieldPair,
  judgedAt,
  type Panorama,
  type PanoramaPlaces,
  panorama,
  type Region,
  regionsOf,
  variationAlong,
} from "./regions.ts";
export {
  MOST_THICKNESSES,
  type ThicknessFault,
  type ThicknessGoal,
  type ThicknessRange,
  thicknessFaults,
  thicknessSteps,
} from "./thicknesses.ts";
export type * from "./types.ts";
