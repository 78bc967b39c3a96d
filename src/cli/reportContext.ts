import {softwareVersion} from "../node/index.ts";
import type {ChartDocument, ReportContext} from "../report/index.ts";
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
