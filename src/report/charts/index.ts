/** Figures of a life result: numbers in, SVG out, the same in a browser and without one. */
export {type BeamPicture, beamChart, predictionChart, residualChart} from "./beams.ts";
export {binsChart, classesChart} from "./bins.ts";
export {bowlChart, bowlResidualChart, surfaceModulusChart} from "./bowl.ts";
export {costsChart} from "./costs.ts";
export {cycleBins, cycleDamageChart, cyclesChart} from "./cycles.ts";
export {envelopeChart, extremeWeeks, weekChart} from "./depth.ts";
export {comparisonChart, fatigueChart, historyChart} from "./fatigue.ts";
export {type Canvas, type ChartDocument, FONT_FAMILY} from "./frame.ts";
export {frontierChart} from "./frontier.ts";
export {frontsChart, type TimeAxis, timeAxis} from "./fronts.ts";
export {lawChart, profileChart} from "./laws.ts";
export {livesChart} from "./lives.ts";
export {fanChart, type LivesOf, ratioNumber, survivalChart, swingChart, yearsText} from "./risk.ts";
export {searchChart} from "./search.ts";
export {sectionChart} from "./section.ts";
export {
  blackChart,
  type CurveView,
  coleColeChart,
  type MarkedTime,
  masterCurveChart,
  relaxationChart,
  shiftChart,
  testTemperatures,
} from "./stiffness.ts";
export {type MapNode, type SurveyMap, surveyChart} from "./survey.ts";
export {lifeScale, type MapScale, mapKey, ratioScale} from "./surveyScale.ts";
export {dailyRange, temperatureChart} from "./temperature.ts";
export {FRONT_TEXT, strainDomain, tipStrainChart} from "./tipstrain.ts";
export {equivalenceChart, loadGroups, spectrumChart} from "./traffic.ts";
