import type {RawFile, RawRow} from "../cells.ts";
import {type LaboratoryFault, wholeFault} from "../fault.ts";
import {contentOf, notUtf8, problemOfContent, unreadable} from "./contents.ts";
import {eachCsvRow} from "./csv-rows.ts";
import {sha256} from "./sha256.ts";
import {readWorkbook} from "./workbook.ts";

/** Largest table read [bytes]: ten thousand specimens have 2 MB. Histories may be longer. */
const LARGEST_TABLE = 20e6;

/** A file as rows of cells, or what is wrong with it as a whole. */
export type TableRead = {readonly raw: RawFile} | {readonly fault: LaboratoryFault};

/** The fault of a file that is too large for a table; null: it is not. */
export function tooLarge(shown: string, size: number): LaboratoryFault | null {
  if (size <= LARGEST_TABLE) return null;
  return wholeFault(shown, null, {
    problem: "the file is too large for a table",
    found: `${Math.round(size / 1e6)} MB`,
    accepted: `at most ${LARGEST_TABLE / 1e6} MB; only history files may be larger`,
  });
}

/**
 * All rows of a table, CSV or XLSX. Never throws.
 *
 * @param shown name of the file in messages
 */
export async function readTableBytes(bytes: Uint8Array<ArrayBuffer>, shown: string): Promise<TableRead> {
  const looked = contentOf(bytes);
  if ("problem" in looked) return {fault: wholeFault(shown, null, looked)};
  const large = tooLarge(shown, bytes.length);
  if (large) return {fault: large};
  try {
    const hash = await sha256(bytes);
    if (looked.content === "workbook") {
      const sheets = await readWorkbook(bytes);
      return "problem" in sheets ? {fault: wholeFault(shown, null, sheets)} : {raw: {file: shown, hash, sheets}};
    }
    const text = decoded(bytes);
    if (text === null) return {fault: wholeFault(shown, null, notUtf8)};
    const {delimiter} = looked;
    const rows: RawRow[] = [];
    const comments = eachCsvRow(text, delimiter, row => rows.push(row));
    return {raw: {file: shown, hash, sheets: [{name: null, delimiter, rows, comments}]}};
  } catch (error) {
    return {fault: wholeFault(shown, null, problemOfContent(error) ?? unreadable((error as Error).message))};
  }
}

/** Text of UTF-8 with or without a byte order mark; null: it is none. */
export function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", {fatal: true}).decode(bytes);
  } catch {
    return null;
  }
}
