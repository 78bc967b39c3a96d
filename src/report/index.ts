/** A life result for people: the report, the terminal table and the crack fronts as CSV. */
export type {ChartDocument} from "./charts/index.ts";
export {frontsCsv} from "./csv.ts";
export type {ReportContext} from "./page.ts";
export {lifeReport} from "./report.ts";
export {lifeTable, type TerminalOptions} from "./terminal.ts";
