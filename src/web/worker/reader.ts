/** Workbooks read as the command line reads files: the same words, the same hash. */
import {editedText, pathOfText} from "../../schema/editing/index.ts";
import {
  hashedText,
  type ReadingOptions,
  type ReadOutcome,
  studyReader,
  studyVariations,
  type Variations,
} from "../../schema/index.ts";
import type {Workbook} from "../state/workbook.ts";

export type ReadStudy = Extract<ReadOutcome, {kind: "study"}>;

export interface ReadWorkbook {
  readonly outcome: ReadOutcome;
  /** The study without its prices, where nothing but those is faulty: lives do not need them. */
  readonly unpriced: ReadStudy | null;
  readonly files: Readonly<Record<string, string>>; // that were asked for
}

const fileNameOf = ({name}: Workbook): string => name.split("/").at(-1) ?? name;

/** Gives out a workbook's files, and notes which were asked for. */
function filesOf({files}: Workbook, taken: Record<string, string>): ReadingOptions["readCsv"] {
  return file => {
    const text = Object.hasOwn(files, file) ? files[file] : undefined;
    if (text === undefined) return {problem: "it is not among the files of this study: add it in the view “As text”"};
    taken[file] = text;
    return text;
  };
}

/** Reads one workbook after another; records and curves that stay the same are read once. */
export function workbookReader(): (workbook: Workbook) => ReadWorkbook {
  let present: ReadingOptions["readCsv"] = () => ({problem: "there are no files yet"});
  const reader = studyReader({fileName: "study", readCsv: file => present(file)});
  return workbook => {
    const taken: Record<string, string> = {};
    present = filesOf(workbook, taken);
    const outcome = reader.read(workbook.text);
    return {outcome, unpriced: unpriced(outcome, workbook.text), files: taken};
  };

  function unpriced(outcome: ReadOutcome, text: string): ReadStudy | null {
    if (outcome.kind === "study" || !outcome.faults.every(({path}) => pathOfText(path)[0] === "costs")) return null;
    const without = reader.read(editedText(text, [{path: ["costs"], value: undefined}]));
    return without.kind === "study" ? without : null;
  }
}

export function variationsOf(workbook: Workbook): Variations {
  return studyVariations(workbook.text, {fileName: fileNameOf(workbook), readCsv: filesOf(workbook, {})});
}

export async function hashOf(text: string, files: Readonly<Record<string, string>>): Promise<string> {
  const bytes = new TextEncoder().encode(hashedText(text, files));
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), byte => byte.toString(16).padStart(2, "0")).join("");
}
