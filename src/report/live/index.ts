/** Results for a page that shows them as they come: their words, numbers, maps and units, without a report around them. */
export {answer, governingReason} from "../answer.ts";
export {CAUTION_LINE} from "../cautions.ts";
export {
  beyondCap,
  figures,
  lifeText,
  money,
  percent,
  years,
  yearsNumber,
} from "../format.ts";
export {frontsAt} from "../fronts.ts";
export {type Html, html} from "../html.ts";
export {frontExponent, governingRatio, mechanismRows, reflection, rowName} from "../lives.ts";
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
export {
  costsCaption,
  lifeWords,
  livesCaption,
  pricedDesigns,
  type SearchCase,
  safetySentence,
  searchAnswer,
  searchDots,
  searchMethod,
  searchRows,
  searchWarnings,
} from "../searched.ts";
export {type SurveyCase, type SurveyInput, surveyView} from "../survey.ts";
export {costMap, lifeMaps, ratioMap} from "../surveyMaps.ts";
export {lifeRange, ratioRange} from "../surveyReport.ts";
export {interpolationSentence, regionReason, surveyAnswer} from "../surveyWords.ts";
export {displayUnit, measure, quantityText, type UnitSystem} from "../units.ts";
