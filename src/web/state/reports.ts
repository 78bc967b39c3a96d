/** Reports as the command line writes them, made in the page. */
import type {LifeResult} from "../../engine/life/types.ts";
import type {RiskResult} from "../../engine/uncertainty/index.ts";
import type {ReportContext, SurveyCase} from "../../report/index.ts";
import type {Fault} from "../../schema/index.ts";
import {useAnswers} from "./answers.ts";
import {useWorkbook} from "./workbook.ts";

declare const __VERSION__: string; // put in when the page is built

/** The day as it is printed. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function context(): ReportContext {
  const {study} = useAnswers.getState();
  const {present} = useWorkbook.getState();
  return {
    document,
    software: __VERSION__,
    date: today(),
    inputHash: study?.hash ?? "",
    sources: {[present.name.split("/").at(-1) ?? present.name]: present.text},
    warnings: study?.warnings.map(warningLine) ?? [],
  };
}

function warningLine({path, problem, found, accepted}: Fault): string {
  return `${path || "document"}: ${problem}; found ${found}, accepted ${accepted}`;
}

export async function makeLifeReport(result: LifeResult): Promise<string> {
  const {lifeReport} = await import("../../report/index.ts");
  return lifeReport(result, context());
}

export async function makeRiskReport(result: RiskResult): Promise<string> {
  const {riskReport} = await import("../../report/index.ts");
  return riskReport(result, context());
}

export async function makeSurveyReport(one: SurveyCase): Promise<string> {
  const {surveyReport} = await import("../../report/index.ts");
  return surveyReport(one, context());
}
