/** How results are told on a page: numbers and their units, lives by mechanism, fronts at a time, maps of a survey. No reports. */
export {
  beyondCap,
  celsius,
  count,
  figures,
  intervalText,
  LIFE_CAP,
  type LifeText,
  lifeText,
  money,
  percent,
  powerOfTen,
  ratio,
  years,
  yearsNumber,
} from "../format.ts";
export {type FrontsAtTime, frontsAt} from "../fronts.ts";
export {
  control,
  driver,
  governingRatio,
  MECHANISM_TEXT,
  type MechanismRow,
  mechanismRows,
  type RatioText,
  reflection,
  rowName,
} from "../lives.ts";
export {type SurveyCase, type SurveyInput, type SurveyPoint, type SurveyView, surveyView} from "../survey.ts";
export {costMap, lifeMaps, type MapLook, ratioMap} from "../surveyMaps.ts";
export {
  type DisplayUnit,
  displayUnit,
  type Measure,
  measure,
  type QuantityKind,
  quantityText,
  type UnitSystem,
} from "../units.ts";
