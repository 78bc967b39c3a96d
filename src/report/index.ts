/** Results for people: reports, terminal tables and CSV. */
export {type Answer, answer, governingReason} from "./answer.ts";
export {beamsReport} from "./beamsReport.ts";
export type {BowlCase} from "./bowl.ts";
export {bowlReport} from "./bowlReport.ts";
export {bowlTable} from "./bowlTerminal.ts";
export type {ChartDocument} from "./charts/index.ts";
export {equivalenceCsv, frontsCsv, riskCsv} from "./csv.ts";
export {fatigueReport} from "./fatigueReport.ts";
export {
  beyondCap,
  celsius,
  count,
  figures,
  LIFE_CAP,
  lifeText,
  megapascals,
  metres,
  microstrain,
  millimetres,
  money,
  percent,
  powerOfTen,
  years,
} from "./format.ts";
export {type Html, html} from "./html.ts";
export {beamsTable, fatigueTable} from "./laboratoryTerminal.ts";
export {governingRatio, MECHANISM_TEXT, type MechanismRow, mechanismRows, rowName} from "./lives.ts";
export type {ReportContext} from "./page.ts";
export {lifeReport} from "./report.ts";
export {riskReport} from "./riskReport.ts";
export {riskTable} from "./riskTerminal.ts";
export {searchCsv} from "./searchCsv.ts";
export type {SearchCase} from "./searched.ts";
export {searchReport, searchTable} from "./searchReport.ts";
export {TOLD_TEMPERATURES} from "./stiffness.ts";
export {LOADING_TIMES, type StiffnessReading, stiffnessReport, USUAL_FREQUENCY} from "./stiffnessReport.ts";
export {stiffnessTable} from "./stiffnessTerminal.ts";
export {type SurveyCase, type SurveyInput, type SurveyPoint, surveyView} from "./survey.ts";
export {surveyCsv} from "./surveyCsv.ts";
export {surveyReport} from "./surveyReport.ts";
export {surveyTable} from "./surveyTerminal.ts";
export {regionReason} from "./surveyWords.ts";
export {lifeTable} from "./terminal.ts";
export type {TerminalOptions} from "./terminalText.ts";
