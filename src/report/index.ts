/** Results for people: reports, terminal tables and CSV. */
export {beamsReport} from "./beamsReport.ts";
export type {BowlCase} from "./bowl.ts";
export {bowlReport} from "./bowlReport.ts";
export {bowlTable} from "./bowlTerminal.ts";
export type {ChartDocument} from "./charts/index.ts";
export {equivalenceCsv, frontsCsv, riskCsv} from "./csv.ts";
export {fatigueReport} from "./fatigueReport.ts";
export {beamsTable, fatigueTable} from "./laboratoryTerminal.ts";
export type {ReportContext} from "./page.ts";
export {lifeReport} from "./report.ts";
export {riskReport} from "./riskReport.ts";
export {riskTable} from "./riskTerminal.ts";
export {TOLD_TEMPERATURES} from "./stiffness.ts";
export {LOADING_TIMES, type StiffnessReading, stiffnessReport, USUAL_FREQUENCY} from "./stiffnessReport.ts";
export {stiffnessTable} from "./stiffnessTerminal.ts";
export {lifeTable} from "./terminal.ts";
export type {TerminalOptions} from "./terminalText.ts";
