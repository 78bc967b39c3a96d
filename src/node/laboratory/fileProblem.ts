/** Problems of laboratory files as a whole: they become faults, not exceptions. */
import type {CsvError} from "csv-parse";
import type {WholeProblem} from "../../schema/laboratory/index.ts";
import {reasonOf} from "../fileError.ts";

/** Longest row of a CSV file [bytes]: beyond it a quotation mark was left open. */
export const LONGEST_ROW = 1e6;

export const acceptedFiles = "CSV text in UTF-8, or an XLSX workbook";

/** A problem as it was thrown by the file system, by the decoder or by the parser. */
export function problemOf(error: unknown): WholeProblem {
  const code: string = (error as Partial<CsvError>).code ?? "";
  if (code === "CSV_MAX_RECORD_SIZE")
    return {
      problem: `a row has more than ${LONGEST_ROW / 1e6} MB`,
      found: "no end of the row",
      accepted: acceptedFiles,
      suggestion: "look for a quotation mark that is not closed",
    };
  if (code.startsWith("CSV_") || code === "INVALID_OPENING_QUOTE")
    return {
      problem: `the file is not proper CSV: ${(error as Error).message}`,
      found: "quotation marks that do not match",
      accepted: "cells with quotation marks around all of their text, or none",
    };
  if (code === "ERR_ENCODING_INVALID_ENCODED_DATA")
    return {
      problem: "the file is not text in UTF-8",
      found: "bytes that no letter of UTF-8 has",
      accepted: acceptedFiles,
      suggestion: "save it as CSV UTF-8",
    };
  return {problem: `the file cannot be read: ${reasonOf(error)}`, found: "no rows", accepted: acceptedFiles};
}
