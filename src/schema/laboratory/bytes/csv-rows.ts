import {parse} from "csv-parse/browser/esm/sync";
import type {Delimiter, RawRow} from "../cells.ts";
import {LONGEST_ROW} from "./contents.ts";

/** How CSV is read everywhere; the delimiter and what is done with a row come to it. */
export const CSV_OPTIONS = {
  record_delimiter: "\n",
  comment: "#",
  comment_no_infix: true,
  info: true,
  max_record_size: LONGEST_ROW,
  relax_column_count: true,
  skip_empty_lines: true,
} as const;

/**
 * Gives the rows of a CSV text one after another; comments and empty lines are passed over.
 *
 * @param text line ends of any kind
 * @returns    how many lines are comments
 * @throws     what the parser throws, see `problemOfContent`, and what onRow throws
 */
export function eachCsvRow(text: string, delimiter: Delimiter, onRow: (row: RawRow) => void): number {
  const plain = text.includes("\r") ? text.replaceAll(/\r\n?/g, "\n") : text;
  let last = {comment_lines: 0, lines: 0};
  parse(plain, {
    ...CSV_OPTIONS,
    info: false, // comes with each record anyway
    delimiter,
    on_record: (cells: string[], info) => {
      last = info;
      onRow({row: info.lines, cells});
      return null; // nothing is gathered: histories are long
    },
  });
  return last.comment_lines + commentsAfter(plain, last.lines);
}

/** Comments behind the last row, which the parser no longer tells. */
function commentsAfter(text: string, line: number): number {
  let at = 0;
  for (let k = 0; k < line && at >= 0; k++) at = text.indexOf("\n", at) + 1 || -1;
  return at < 0 ? 0 : (text.slice(at).match(/^#/gm)?.length ?? 0);
}
