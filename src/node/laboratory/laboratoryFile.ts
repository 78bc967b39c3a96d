/** Laboratory files from disk as rows of cells. What is wrong with a file as a whole is a fault, never an exception. */
import {createHash} from "node:crypto";
import {open, readFile, stat} from "node:fs/promises";
import {Readable} from "node:stream";
import {
  type Delimiter,
  delimiterOf,
  type LaboratoryFault,
  type RawFile,
  type RawRow,
  type WholeProblem,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {csvRows} from "./csvRows.ts";
import {acceptedFiles, problemOf} from "./fileProblem.ts";
import {readWorkbook} from "./workbook.ts";

/** Largest table read [bytes]: ten thousand specimens have 2 MB. Histories may be longer. */
const LARGEST_TABLE = 20e6;

/** What is in a file, by its first bytes: its name may be wrong. */
export type Content = "text" | "workbook";

/**
 * All rows of a table.
 *
 * @param shown name of the file in messages
 */
export async function readRawFile(
  file: string,
  shown: string,
): Promise<{readonly raw: RawFile} | {readonly fault: LaboratoryFault}> {
  try {
    const looked = await lookAt(file);
    if ("problem" in looked) return {fault: wholeFault(shown, null, looked)};
    if (looked.size > LARGEST_TABLE)
      return {
        fault: wholeFault(shown, null, {
          problem: "the file is too large for a table",
          found: `${Math.round(looked.size / 1e6)} MB`,
          accepted: `at most ${LARGEST_TABLE / 1e6} MB; only history files may be larger`,
        }),
      };
    const bytes = await readFile(file);
    const hash = createHash("sha256").update(bytes).digest("hex");
    if (looked.content === "workbook") {
      const sheets = await readWorkbook(bytes);
      return "problem" in sheets ? {fault: wholeFault(shown, null, sheets)} : {raw: {file: shown, hash, sheets}};
    }
    const rows: RawRow[] = [];
    const counts = {comments: 0};
    const {delimiter} = looked;
    for await (const row of csvRows(Readable.from([bytes]), delimiter, counts)) rows.push(row);
    return {raw: {file: shown, hash, sheets: [{name: null, delimiter, rows, ...counts}]}};
  } catch (error) {
    return {fault: wholeFault(shown, null, problemOf(error))};
  }
}

/** What a file is, from its size and first bytes. */
export async function lookAt(
  file: string,
): Promise<WholeProblem | {readonly content: Content; readonly size: number; readonly delimiter: Delimiter}> {
  const {size} = await stat(file);
  const head = Buffer.alloc(65_536);
  const handle = await open(file);
  let length: number;
  try {
    length = (await handle.read(head, 0, head.length, 0)).bytesRead;
  } finally {
    await handle.close();
  }
  const bytes = head.subarray(0, length);
  const problem = refusedContent(bytes);
  if (problem) return problem;
  return {
    content: bytes.toString("latin1", 0, 2) === "PK" ? "workbook" : "text",
    size,
    delimiter: delimiterOf(bytes.toString("utf8")),
  };
}

function refusedContent(bytes: Buffer): WholeProblem | null {
  const accepted = acceptedFiles;
  if (bytes.length === 0) return {problem: "the file is empty", found: "0 bytes", accepted};
  if (bytes.toString("hex", 0, 4) === "d0cf11e0") {
    const encrypted = bytes.includes(Buffer.from("EncryptedPackage", "utf16le"));
    return encrypted
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
  }
  const start = bytes.toString("hex", 0, 2);
  if (start === "fffe" || start === "feff" || (bytes.includes(0) && bytes.toString("latin1", 0, 2) !== "PK"))
    return {
      problem: "the file is not text in UTF-8",
      found:
        start === "fffe" || start === "feff"
          ? "text in UTF-16"
          : "bytes of zero, as in UTF-16 or in data that is no text",
      accepted,
      suggestion: "save it as CSV UTF-8",
    };
  return null;
}
