import {readStudyFile, readVariedStudyFile, type StudyFile, type VariedStudyFile} from "../node/index.ts";
import {formatFaults, type ReadOutcome} from "../schema/index.ts";

/** What the user gave cannot be used; the message is all there is to say, several lines perhaps. */
export class BadInput extends Error {
  constructor(message: string) {
    super(message);
    this.name = "BadInput";
  }
}

export interface GoodStudy {
  readonly file: StudyFile;
  readonly read: Extract<ReadOutcome, {kind: "study"}>;
}

/**
 * @param laws  folder to take law files from, instead of where the study says
 * @throws BadInput with every fault and warning; FileError
 */
export function loadStudy(path: string, laws?: string): GoodStudy {
  const file = readStudyFile(path, laws);
  return {file, read: goodOutcome(path, file.outcome)};
}

export interface GoodVariedStudy extends GoodStudy {
  readonly file: VariedStudyFile;
}

/**
 * The same of a study that is computed with many values.
 *
 * @throws BadInput with every fault and warning; FileError
 */
export function loadVariedStudy(path: string, laws?: string): GoodVariedStudy {
  const file = readVariedStudyFile(path, laws);
  return {file, read: goodOutcome(path, file.outcome)};
}

function goodOutcome(path: string, outcome: ReadOutcome): GoodStudy["read"] {
  if (outcome.kind === "faults") {
    const blocks = [formatFaults(outcome.faults, {fileName: path}), warningText(outcome.warnings)];
    throw new BadInput(
      blocks
        .filter(text => text !== "")
        .join("\n")
        .trimEnd(),
    );
  }
  return outcome;
}

export function warningText(warnings: ReadOutcome["warnings"]): string {
  if (warnings.length === 0) return "";
  return formatFaults(warnings, {heading: `${warnings.length} ${warnings.length === 1 ? "warning" : "warnings"}:`});
}
