/** Results for a page that shows them as they come: their words, numbers, maps and units, without a report around them. */
export {type Answer, answer, governingReason} from "../answer.ts";
export {CAUTION_LINE} from "../cautions.ts";
export {
  beyondCap,
  celsius,
  count,
  figures,
  LIFE_CAP,
  lifeText,
  microstrain,
  money,
  percent,
  powerOfTen,
  years,
  yearsNumber,
} from "../format.ts";
export {type FrontsAtTime, frontsAt} from "../fronts.ts";
export type {Html} from "../html.ts";
export {governingRatio, MECHANISM_TEXT, type MechanismRow, mechanismRows, rowName} from "../lives.ts";
export {
  cheapestText,
  dependence,
  estimateText,
  intervalAt,
  lifeAt,
  mechanismText,
  ratioBoundText,
  riskHeadlines,
  samplingText,
  survivalText,
  swingsOfLife,
  swingsOfRatio,
} from "../risk.ts";
export {type SurveyCase, type SurveyInput, type SurveyView, surveyView} from "../survey.ts";
export {costMap, lifeMaps, ratioMap} from "../surveyMaps.ts";
export {lifeRange, ratioRange} from "../surveyReport.ts";
export {interpolationSentence, regionReason, surveyAnswer} from "../surveyWords.ts";
export {type DisplayUnit, displayUnit, measure, quantityText, type UnitSystem} from "../units.ts";
