/** Results for people: reports, terminal tables and CSV. */
export {beamsReport} from "./beamsReport.ts";
export type {ChartDocument} from "./charts/index.ts";
export {frontsCsv} from "./csv.ts";
export type {ReportContext} from "./page.ts";
export {lifeReport} from "./report.ts";
export {lifeTable, type TerminalOptions} from "./terminal.ts";
