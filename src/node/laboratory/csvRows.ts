import {Readable} from "node:stream";
import {parse} from "csv-parse";
import {CSV_OPTIONS, type Delimiter, type RawRow} from "../../schema/laboratory/index.ts";

/** Text of a stream of bytes with single line feeds, so that lines are counted alike everywhere. */
async function* decoded(bytes: AsyncIterable<Buffer>): AsyncGenerator<string> {
  const decoder = new TextDecoder("utf-8", {fatal: true});
  let pending = ""; // a carriage return whose line feed may follow
  for await (const chunk of bytes) {
    const text = pending + decoder.decode(chunk, {stream: true});
    pending = text.endsWith("\r") ? "\r" : "";
    const whole = pending ? text.slice(0, -1) : text;
    yield whole.includes("\r") ? whole.replaceAll(/\r\n?/g, "\n") : whole;
  }
  yield pending.replace("\r", "\n") + decoder.decode();
}

/** What is passed over. */
export interface CsvCounts {
  comments: number; // known once all rows have come
}

/** Rows of CSV as they come; comments and empty lines are passed over. Holds a few rows at a time. */
export async function* csvRows(
  bytes: AsyncIterable<Buffer>,
  delimiter: Delimiter,
  counts: CsvCounts,
): AsyncGenerator<RawRow> {
  const parser = parse({...CSV_OPTIONS, delimiter});
  const text = Readable.from(decoded(bytes));
  text.on("error", error => parser.destroy(error));
  text.pipe(parser);
  try {
    for await (const {record, info} of parser as AsyncIterable<{record: string[]; info: {lines: number}}>)
      yield {row: info.lines, cells: record};
    counts.comments = parser.info.comment_lines;
  } finally {
    text.destroy(); // closes the file when no one reads on
  }
}
