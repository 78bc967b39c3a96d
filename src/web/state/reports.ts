/** Reports as the command line writes them, made in the page. */
import type {LifeResult} from "../../engine/life/types.ts";
import type {RiskResult} from "../../engine/uncertainty/index.ts";
import type {ReportContext, SearchCase, SurveyCase} from "../../report/index.ts";
import {faultLine} from "../../schema/editing/index.ts";
import {useAnswers} from "./answers.ts";
import {useWorkbook} from "./workbook.ts";

declare const __VERSION__: string; // put in when the page is built

/** The day as it is printed. */
export function today(): string {
  return new Date().toLocaleDateString("en-GB", {day: "numeric", month: "long", year: "numeric"});
}

/** @param told  by the points of a survey, after the warnings of the study */
function context(told: readonly string[] = []): ReportContext {
  const {study} = useAnswers.getState();
  const {present} = useWorkbook.getState();
  return {
    document,
    software: __VERSION__,
    date: today(),
    inputHash: study?.hash ?? "",
    sources: {[present.name.split("/").at(-1) ?? present.name]: present.text},
    warnings: [...(study?.warnings.map(faultLine) ?? []), ...told],
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
  const {surveyReport, surveyWarnings} = await import("../../report/index.ts");
  return surveyReport(one, context(surveyWarnings(one)));
}

export async function makeSearchReport(one: SearchCase): Promise<string> {
  const {searchReport, searchWarnings} = await import("../../report/index.ts");
  return searchReport(one, context(searchWarnings(one)));
}
