import {softwareVersion} from "../node/index.ts";
import type {ChartDocument, ReportContext} from "../report/index.ts";
import type {Fault} from "../schema/index.ts";
import {today} from "./flags.ts";

/** What every report is made with; the document that charts are drawn in is loaded only now. */
export async function reportContext(
  own: Pick<ReportContext, "inputHash" | "sources" | "warnings">,
): Promise<ReportContext> {
  const {parseHTML} = await import("linkedom");
  return {
    document: parseHTML("<html></html>").document as unknown as ChartDocument,
    software: softwareVersion(),
    date: today(),
    ...own,
  };
}

/** A warning of a document in a list of a report. */
export function warningLine({path, problem, found, accepted}: Fault): string {
  return `${path || "document"}: ${problem}; found ${found}, accepted ${accepted}`;
}
