import readXlsxFile from "read-excel-file/node";
import type {Cell, RawSheet} from "../schema/laboratory/index.ts";
import {acceptedFiles, type FileProblem} from "./fileProblem.ts";

/** Largest content of a workbook once unpacked [bytes]; XML shrinks to a tenth or less. */
const LARGEST_UNPACKED = 400e6;

/** The sheets of an XLSX workbook; cells with formulas have the values that were saved with them. */
export async function readWorkbook(bytes: Buffer): Promise<RawSheet[] | FileProblem> {
  const unpacked = unpackedSize(bytes);
  if (unpacked !== null && unpacked > LARGEST_UNPACKED)
    return {
      problem: "the workbook is too large",
      found: `${Math.round(unpacked / 1e6)} MB unpacked`,
      accepted: `at most ${LARGEST_UNPACKED / 1e6} MB unpacked`,
    };
  try {
    const sheets = await readXlsxFile(bytes);
    return sheets.map(({sheet, data}) => ({
      name: sheet,
      delimiter: null,
      rows: data.map((cells, index) => ({row: index + 1, cells: cells.map(cell => cell as unknown as Cell)})),
    }));
  } catch (error) {
    return brokenWorkbook(error as Error);
  }
}

function brokenWorkbook({message}: Error): FileProblem {
  const cell = /<c\/> at row (\d+), col (\d+): (\w+)/.exec(message);
  if (cell)
    return {
      problem: "a cell of the workbook cannot be read",
      found: `row ${cell[1]}, column ${cell[2]}: ${cell[3].toLowerCase().replaceAll("_", " ")}`,
      accepted: "values, or formulas whose values are saved with them",
      suggestion: "open the workbook in a spreadsheet program and save it anew",
    };
  return {
    problem: "the workbook is damaged, or is no XLSX workbook",
    found: message || "something that cannot be unpacked",
    accepted: acceptedFiles,
    suggestion: "open it in a spreadsheet program and save it as XLSX",
  };
}

/**
 * Sum of the sizes after unpacking as the central directory of a ZIP file tells them [bytes]; null when there is none.
 *
 * @source PKWARE APPNOTE.TXT 6.3, sections 4.3.12 and 4.3.16
 */
function unpackedSize(bytes: Buffer): number | null {
  const end = bytes.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  if (end < 0 || end + 22 > bytes.length) return null;
  let at = bytes.readUInt32LE(end + 16);
  let sum = 0;
  while (at + 46 <= bytes.length && bytes.readUInt32LE(at) === 0x02014b50) {
    sum += bytes.readUInt32LE(at + 24);
    at += 46 + bytes.readUInt16LE(at + 28) + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return sum;
}
