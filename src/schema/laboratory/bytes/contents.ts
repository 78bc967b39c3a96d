/** What a file is, by its first bytes: its name may be wrong. And problems of files as a whole. */
import {type Delimiter, delimiterOf} from "../cells.ts";
import type {WholeProblem} from "../fault.ts";

export type Content = "text" | "workbook";

/** So many bytes tell what a file is. */
export const HEAD_BYTES = 65_536;

/** Longest row of a CSV file [bytes]: beyond it a quotation mark was left open. */
export const LONGEST_ROW = 1e6;

export const acceptedFiles = "CSV text in UTF-8, or an XLSX workbook";

/** What a file is, or why it cannot be used. */
export function contentOf(
  start: Uint8Array,
): WholeProblem | {readonly content: Content; readonly delimiter: Delimiter} {
  const head = start.subarray(0, HEAD_BYTES);
  const problem = refusedContent(head);
  if (problem) return problem;
  return {content: isZip(head) ? "workbook" : "text", delimiter: delimiterOf(new TextDecoder().decode(head))};
}

const startsWith = (bytes: Uint8Array, ...first: readonly number[]): boolean => first.every((b, i) => bytes[i] === b);

const isZip = (bytes: Uint8Array): boolean => startsWith(bytes, 0x50, 0x4b); // PK

const ENCRYPTED = Uint8Array.from("EncryptedPackage", letter => letter.charCodeAt(0)); // in UTF-16

/** Whether a word of UTF-16 stands anywhere. */
function holdsWide(bytes: Uint8Array, word: Uint8Array): boolean {
  return bytes.some((_, at) => word.every((letter, i) => bytes[at + 2 * i] === letter && bytes[at + 2 * i + 1] === 0));
}

function refusedContent(bytes: Uint8Array): WholeProblem | null {
  const accepted = acceptedFiles;
  if (bytes.length === 0) return {problem: "the file is empty", found: "0 bytes", accepted};
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0))
    return holdsWide(bytes, ENCRYPTED)
      ? {
          problem: "the workbook is encrypted",
          found: "a workbook under a password",
          accepted,
          suggestion: "save it without a password",
        }
      : {
          problem: "the workbook is encrypted or in the old XLS format",
          found: "an OLE container",
          accepted,
          suggestion: "save it as XLSX, without a password",
        };
  const isWide = startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0xfe, 0xff);
  if (isWide || (bytes.includes(0) && !isZip(bytes)))
    return {
      problem: "the file is not text in UTF-8",
      found: isWide ? "text in UTF-16" : "bytes of zero, as in UTF-16 or in data that is no text",
      accepted,
      suggestion: "save it as CSV UTF-8",
    };
  return null;
}

/** A file that cannot be read for this reason. */
export function unreadable(reason: string): WholeProblem {
  return {problem: `the file cannot be read: ${reason}`, found: "no rows", accepted: acceptedFiles};
}

export const notUtf8: WholeProblem = {
  problem: "the file is not text in UTF-8",
  found: "bytes that no letter of UTF-8 has",
  accepted: acceptedFiles,
  suggestion: "save it as CSV UTF-8",
};

/** The problem that a decoder or the parser of CSV threw; null: it was thrown by something else. */
export function problemOfContent(error: unknown): WholeProblem | null {
  const {code = "", message = ""} = error as {readonly code?: string; readonly message?: string};
  if (code === "CSV_MAX_RECORD_SIZE")
    return {
      problem: `a row has more than ${LONGEST_ROW / 1e6} MB`,
      found: "no end of the row",
      accepted: acceptedFiles,
      suggestion: "look for a quotation mark that is not closed",
    };
  if (code.startsWith("CSV_") || code === "INVALID_OPENING_QUOTE")
    return {
      problem: `the file is not proper CSV: ${message}`,
      found: "quotation marks that do not match",
      accepted: "cells with quotation marks around all of their text, or none",
    };
  return code === "ERR_ENCODING_INVALID_ENCODED_DATA" ? notUtf8 : null;
}
