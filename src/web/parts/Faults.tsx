import type {Fault} from "../../schema/index.ts";

/** What is wrong with one field, or what to look at, in the words of the command line. */
export function FaultText({fault, kind}: {readonly fault: Fault; readonly kind: "fault" | "warning"}) {
  return (
    <span className={kind} role={kind === "fault" ? "alert" : undefined}>
      {fault.problem}; found {fault.found}; accepted: {fault.accepted}
      {fault.suggestion && <> — {fault.suggestion}</>}
    </span>
  );
}
