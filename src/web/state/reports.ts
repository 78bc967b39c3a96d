/** Reports as the command line writes them, made in the page. */
import type {LifeResult} from "../../engine/life/types.ts";
import type {RiskResult} from "../../engine/uncertainty/index.ts";
import type {ReportContext, SurveyCase} from "../../report/index.ts";
import {faultLine} from "../../schema/editing/index.ts";
import {useAnswers} from "./answers.ts";
import {useWorkbook} from "./workbook.ts";

declare const __VERSION__: string; // put in when the page is built

/** The day as it is printed. */
function today(): string {
  return new Date().toLocaleDateString("en-GB", {day: "numeric", month: "long", year: "numeric"});
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
    warnings: study?.warnings.map(faultLine) ?? [],
  };
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
