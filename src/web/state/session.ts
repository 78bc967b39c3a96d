/** From opening the page to the first answer. */
import {guardDrops} from "./dropping.ts";
import {EXAMPLES, exampleWorkbook} from "./examples.ts";
import {followWorkbook} from "./follow.ts";
import {startKeeping} from "./keeping.ts";
import {tell} from "./notices.ts";
import {openWorkbook, present, restoreLaboratory} from "./workbook.ts";

export async function startSession(): Promise<void> {
  guardDrops();
  if (!window.isSecureContext)
    return tell({
      kind: "bad",
      text: "Browsers give a page from another machine what this one computes with over https alone. Open it at an https address.",
    });
  const isUntouched = (): boolean => present().text === ""; // the user may be faster than what is fetched
  const kept = await startKeeping().catch((error: Error) => {
    tell({kind: "bad", text: `The browser does not keep your work (${error.message}): save it to a file.`});
    return null; // it still works
  });
  if (kept?.laboratory) restoreLaboratory(kept.laboratory);
  if (kept && isUntouched()) openWorkbook(kept.workbook, kept.place, kept.saved);
  else if (isUntouched()) {
    try {
      const example = await exampleWorkbook(EXAMPLES[0]);
      if (isUntouched()) openWorkbook(example);
    } catch (error) {
      tell({kind: "bad", text: (error as Error).message});
    }
  }
  followWorkbook();
}
