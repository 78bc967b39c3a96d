/** Weather, the surface balance, conduction through the pavement. Theory: docs/theory/climate.md. */
export {deriveBins, meansByBin, type TemperatureShare} from "./bins.ts";
export {
  type ConductingBody,
  conductingBody,
  FLUX_WEIGHTS,
  finishStep,
  STAGE,
  setTemperatures,
  startStep,
  surfaceFlux,
  surfaceTemperature,
  temperaturesOf,
} from "./conduction.ts";
export {type DailyHours, hourlyFromDailyExtremes} from "./dailyExtremes.ts";
export type {ShownDepth} from "./depths.ts";
export {
  type ConductingLayer,
  conductionGrid,
  type Grid,
  interpolationAt,
  type Resolution,
  STANDARD_RESOLUTION,
} from "./grid.ts";
export {type OnProgress, type PavementTemperatureRun, pavementTemperatures, withoutRun} from "./profile.ts";
export {clearSkyEmissivity, clearSkyTemperature, cloudySkyEmissivity} from "./sky.ts";
export {windFilmCoefficient} from "./surface.ts";
export type * from "./types.ts";
export {type ChosenMonth, type TypicalYear, typicalYear} from "./typicalYear.ts";
