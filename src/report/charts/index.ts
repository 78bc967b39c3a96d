/** Figures of results: numbers in, SVG out, the same in a browser and without one. A figure carries its scales. */

export {DARK_PAPER, darkChartCss, darkColours} from "../palette.ts";
export {type BeamPicture, beamChart, predictionChart, residualChart} from "./beams.ts";
export {binsChart, classesChart} from "./bins.ts";
export {bowlChart, bowlResidualChart, surfaceModulusChart} from "./bowl.ts";
export {costsChart, cumulated} from "./costs.ts";
export {type CurveView, testTemperatures} from "./curvePoints.ts";
export {cycleBins, cycleDamageChart, cyclesChart} from "./cycles.ts";
export {envelopeChart, extremeWeeks, weekChart} from "./depth.ts";
export {comparisonChart, fatigueChart, historyChart} from "./fatigue.ts";
export {type Canvas, type ChartDocument, FONT_FAMILY} from "./frame.ts";
export {type FrontierPicture, frontierChart} from "./frontier.ts";
export {type FrontsView, frontsChart, type TimeAxis, timeAxis} from "./fronts.ts";
export {type LawCurve, lawChart, type ProfileCurve, profileChart} from "./laws.ts";
export {livesChart} from "./lives.ts";
export {fanChart, type LivesOf, ratioNumber, survivalChart, swingChart, yearsText} from "./risk.ts";
export {
  type BandReading,
  type ChartScales,
  chartScales,
  type NumberReading,
  type ScaleReading,
  type WithAttributes,
} from "./scales.ts";
export {divergingColour, sequentialColour} from "./scheme.ts";
export {type SearchPicture, searchChart} from "./search.ts";
export {sectionChart} from "./section.ts";
export {
  blackChart,
  coleColeChart,
  type MarkedTime,
  masterCurveChart,
  relaxationChart,
  shiftChart,
} from "./stiffness.ts";
export {type MapAxis, type MapNode, type SurveyMap, surveyChart} from "./survey.ts";
export {lifeScale, type MapScale, mapKey, ratioScale} from "./surveyScale.ts";
export {type DayWindow, dailyRange, type TemperatureView, temperatureChart} from "./temperature.ts";
export {type TipAlong, tipAlongChart} from "./tipAlong.ts";
export {FRONT_TEXT, strainDomain, tipStrainChart} from "./tipstrain.ts";
export {equivalenceChart, loadGroups, spectrumChart} from "./traffic.ts";
