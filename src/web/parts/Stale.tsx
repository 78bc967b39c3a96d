import type {ReactNode} from "react";
import {isCurrent, useAnswers} from "../state/answers.ts";
import {useWorkbook} from "../state/workbook.ts";

/** Results of an earlier state of the study are dimmed, and say so. */
export function Stale({children}: {readonly children: ReactNode}) {
  const resultOf = useAnswers(s => s.resultOf);
  const present = useWorkbook(s => s.present);
  const isFresh = isCurrent(resultOf, present);
  return (
    <div className={isFresh ? "stack" : "stack stale"} aria-busy={!isFresh}>
      {!isFresh && <span className="unseen">Of the study before the last edits.</span>}
      {children}
    </div>
  );
}
