import {problemOfContent, unreadable, type WholeProblem} from "../../schema/laboratory/index.ts";
import {reasonOf} from "../fileError.ts";

/** A problem as it was thrown by the file system, by the decoder or by the parser: a fault, not an exception. */
export function problemOf(error: unknown): WholeProblem {
  return problemOfContent(error) ?? unreadable(reasonOf(error));
}
