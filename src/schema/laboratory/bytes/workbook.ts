import type {Cell, RawSheet} from "../cells.ts";
import type {WholeProblem} from "../fault.ts";
import {acceptedFiles} from "./contents.ts";
import {type ZipEntry, zipEntries} from "./zip.ts";

/** Largest content of a workbook once unpacked [bytes]; XML shrinks to a tenth or less. */
const LARGEST_UNPACKED = 400e6;

/** The sheets of an XLSX workbook; cells with formulas have the values that were saved with them. */
export async function readWorkbook(bytes: Uint8Array<ArrayBuffer>): Promise<RawSheet[] | WholeProblem> {
  try {
    const entries = zipEntries(bytes);
    const unpacked = entries.reduce((sum, {size}) => sum + size, 0);
    if (unpacked > LARGEST_UNPACKED)
      return {
        problem: "the workbook is too large",
        found: `${Math.round(unpacked / 1e6)} MB unpacked`,
        accepted: `at most ${LARGEST_UNPACKED / 1e6} MB unpacked`,
      };
    const {default: readXlsxFile} = await import("read-excel-file/universal"); // few laboratories send workbooks
    const sheets = await readXlsxFile(new Blob([bytes]));
    const lost = await lostCells(entries);
    return sheets.map(({sheet, data}) => {
      const rows = data.map((cells, index) => ({row: index + 1, cells: cells.map(cell => cell as unknown as Cell)}));
      for (const {row, column, error} of lost.get(sheet) ?? []) {
        while (rows.length < row) rows.push({row: rows.length + 1, cells: []});
        const {cells} = rows[row - 1];
        while (cells.length < column) cells.push(null);
        cells[column - 1] = {error};
      }
      return {name: sheet, delimiter: null, rows, comments: 0};
    });
  } catch (error) {
    return brokenWorkbook(error as Error);
  }
}

function brokenWorkbook({message}: Error): WholeProblem {
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

interface LostCell {
  readonly row: number; // from 1
  readonly column: number; // from 1
  readonly error: string;
}

/**
 * Cells that read-excel-file gives as empty although they are not: errors such as #DIV/0!, and formulas without a saved
 * value. By name of the sheet.
 *
 * @source ECMA-376 part 1, 18.3.1.4 (c): t="e" is an error, f a formula, v the saved value
 */
async function lostCells(entries: readonly ZipEntry[]): Promise<Map<string, LostCell[]>> {
  const textOf = async (name: string): Promise<string> =>
    new TextDecoder().decode(await entries.find(entry => entry.name === name)?.read());
  const targets = new Map(
    [...(await textOf("xl/_rels/workbook.xml.rels")).matchAll(/<(?:\w+:)?Relationship\s[^>]*>/g)].map(([tag]) => {
      const target = attribute(tag, "Target");
      return [attribute(tag, "Id"), target.startsWith("/") ? target.slice(1) : `xl/${target}`];
    }),
  );
  const lost = new Map<string, LostCell[]>();
  for (const [tag] of (await textOf("xl/workbook.xml")).matchAll(/<(?:\w+:)?sheet\s[^>]*>/g)) {
    const sheet = await textOf(targets.get(attribute(tag, "\\w+:id")) ?? "");
    lost.set(unescaped(attribute(tag, "name")), [...lostIn(sheet)]);
  }
  return lost;
}

function* lostIn(sheet: string): Generator<LostCell> {
  for (const [, attributes, content] of sheet.matchAll(/<(?:\w+:)?c\s([^>]*[^/])>(.*?)<\/(?:\w+:)?c>/gs)) {
    const value = /<(?:\w+:)?v>([^<]*)</.exec(content)?.[1];
    const address = /^([A-Z]{1,3})(\d{1,7})$/.exec(attribute(attributes, "r"));
    if (!address) continue;
    const isError = attribute(attributes, "t") === "e";
    const isUnsaved = /<(?:\w+:)?f[\s/>]/.test(content) && value === undefined;
    if (!isError && !isUnsaved) continue;
    const column = [...address[1]].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
    yield {
      row: Number(address[2]),
      column,
      error: isError ? unescaped(value ?? "#ERROR") : "a formula without a saved value",
    };
  }
}

const attribute = (tag: string, name: string): string =>
  new RegExp(`(?:^|\\s)${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`)
    .exec(tag)
    ?.slice(1)
    .find(text => text !== undefined) ?? "";

const unescaped = (text: string): string =>
  text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
