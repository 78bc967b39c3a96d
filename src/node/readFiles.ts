import {readFileSync, statSync} from "node:fs";
import path from "node:path";
import {type ReadingOptions, type ReadOutcome, readStudy, studyVariations, type Variations} from "../schema/index.ts";
import {FileError, reasonOf} from "./fileError.ts";
import {inputHash} from "./hash.ts";

/** A study as read from disk, with all that it is made of. */
export interface StudyFile {
  readonly path: string; // as given
  readonly text: string;
  readonly tables: Readonly<Record<string, string>>; // CSV and law files, by the name written in the study
  readonly hash: string; // of text and tables
  readonly outcome: ReadOutcome;
}

/** Largest file read [bytes]: a decade of hours with twenty columns has 20 MB. */
const LARGEST_FILE = 200e6;

/** A study whose values can be replaced, with all that it is made of. */
export interface VariedStudyFile extends StudyFile {
  readonly variations: Variations;
}

/**
 * Reads a study and the tables and law files beside it. What is wrong with their contents is in the outcome.
 *
 * @param laws  folder in which law files are looked for by their names alone, instead of where the study says
 * @throws FileError when the study itself cannot be read
 */
export function readStudyFile(file: string, laws?: string): StudyFile {
  const text = readText(file);
  const {tables, options} = filesOf(file, laws);
  const outcome = readStudy(text, options);
  return {path: file, text, tables, hash: inputHash(text, tables), outcome};
}

/**
 * The same for a study that is computed with many values.
 *
 * @throws FileError
 */
export function readVariedStudyFile(file: string, laws?: string): VariedStudyFile {
  const text = readText(file);
  const {tables, options} = filesOf(file, laws);
  const variations = studyVariations(text, options);
  return {path: file, text, tables, hash: inputHash(text, tables), outcome: variations.base, variations};
}

/** How the files of a study are read; the tables fill as they are. */
function filesOf(file: string, laws: string | undefined): {tables: Record<string, string>; options: ReadingOptions} {
  const tables: Record<string, string> = {};
  const reading =
    (place: (name: string) => string) =>
    (name: string): string | {readonly problem: string} => {
      try {
        tables[name] ??= textOf(place(name));
        return tables[name];
      } catch (error) {
        return {problem: reasonOf(error)};
      }
    };
  const readCsv = reading(name => path.resolve(path.dirname(file), name));
  const readLaw = laws === undefined ? readCsv : reading(name => path.join(laws, path.basename(name)));
  return {tables, options: {fileName: path.basename(file), readCsv, readLaw}};
}

/** @throws FileError also where it is not text in UTF-8 */
export function readText(file: string): string {
  try {
    return textOf(file);
  } catch (error) {
    throw new FileError("read", file, error);
  }
}

/**
 * UTF-8 with or without a byte order mark; anything else is refused rather than read with wrong letters.
 *
 * @throws Error whose message goes after "cannot be read:"
 */
function textOf(file: string): string {
  const {size} = statSync(file);
  if (size > LARGEST_FILE)
    throw new Error(`it has ${Math.round(size / 1e6)} MB; at most ${LARGEST_FILE / 1e6} MB are read`);
  const bytes = readFileSync(file);
  try {
    return new TextDecoder("utf-8", {fatal: true}).decode(bytes);
  } catch {
    throw new Error("it is not text in UTF-8; save it as UTF-8");
  }
}
