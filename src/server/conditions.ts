/** Writing only over what one has seen: If-Match and If-None-Match of RFC 9110, sections 13.1.1 and 13.1.2. */
import {createHash} from "node:crypto";
import type {IncomingHttpHeaders} from "node:http";
import {Refusal} from "./refusal.ts";

export type Condition =
  | {readonly kind: "new"}
  | {readonly kind: "there"}
  | {readonly kind: "unchanged"; readonly etags: readonly string[]};

/** Entity tag of a content; the same bytes always have the same. */
export function etagOf(bytes: Uint8Array): string {
  return `"sha256:${createHash("sha256").update(bytes).digest("hex")}"`;
}

/** @throws Refusal 400 | 428 */
export function conditionOf(headers: IncomingHttpHeaders): Condition {
  const match = headers["if-match"]?.trim();
  const noneMatch = headers["if-none-match"]?.trim();
  if (match === undefined && noneMatch === undefined)
    throw new Refusal(428, "condition-missing", "writing needs If-Match with the ETag last seen, or If-None-Match: *");
  if (match === undefined) {
    if (noneMatch === "*") return {kind: "new"};
    throw new Refusal(400, "condition", "If-None-Match has to be *");
  }
  if (noneMatch !== undefined) throw new Refusal(400, "condition", "either If-Match or If-None-Match, not both");
  if (match === "*") return {kind: "there"};
  const etags = match.match(/(?:W\/)?"[^"]*"/g); // a weak one keeps its W/, and so never matches
  if (!etags) throw new Refusal(400, "condition", "If-Match has to be an ETag in quotation marks");
  return {kind: "unchanged", etags};
}

/**
 * @param present entity tag of the file as it is now, null when there is none
 * @throws Refusal 412 with that tag
 */
export function requireCondition(condition: Condition, present: string | null): void {
  switch (condition.kind) {
    case "new":
      if (present !== null) throw new Refusal(412, "exists", "there is a file of this name already", present);
      return;
    case "there":
      if (present === null) throw new Refusal(412, "gone", "the file is no longer there", present);
      return;
    case "unchanged":
      if (present === null) throw new Refusal(412, "gone", "the file is no longer there", present);
      if (!condition.etags.includes(present))
        throw new Refusal(412, "changed", "the file has changed since it was read", present);
  }
}
