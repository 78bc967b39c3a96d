/** From opening the page to the first answer. */
import {EXAMPLES, exampleWorkbook} from "./examples.ts";
import {followWorkbook} from "./follow.ts";
import {startKeeping} from "./keeping.ts";
import {tell} from "./notices.ts";
import {openWorkbook} from "./workbook.ts";

export async function startSession(): Promise<void> {
  const kept = await startKeeping().catch(() => null); // a browser that keeps nothing still works
  if (kept) openWorkbook(kept.workbook, kept.place, kept.saved);
  else {
    try {
      openWorkbook(await exampleWorkbook(EXAMPLES[0]));
    } catch (error) {
      tell({kind: "bad", text: (error as Error).message});
    }
  }
  followWorkbook();
}
