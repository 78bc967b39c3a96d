/** From opening the page to the first answer. */
import {guardDrops} from "./dropping.ts";
import {EXAMPLES, exampleWorkbook} from "./examples.ts";
import {followWorkbook} from "./follow.ts";
import {startKeeping} from "./keeping.ts";
import {tell} from "./notices.ts";
import {openWorkbook, present, restoreLaboratory} from "./workbook.ts";

export async function startSession(): Promise<void> {
  guardDrops();
  const isUntouched = (): boolean => present().text === ""; // the user may be faster than what is fetched
  const kept = await startKeeping().catch(() => null); // a browser that keeps nothing still works
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
