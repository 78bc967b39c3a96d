import {createHash, type Hash} from "node:crypto";
import {createReadStream} from "node:fs";
import path from "node:path";
import {
  type Delimiter,
  type HistoryOutcome,
  type HistoryRun,
  type HistorySink,
  historyRun,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {csvRows} from "./csvRows.ts";
import {problemOf} from "./fileProblem.ts";
import {lookAt, readRawFile} from "./laboratoryFile.ts";

/**
 * Reads the history of one test, CSV of any length or a workbook, holding a few rows at a time. What is wrong with the
 * file is in the outcome; what the sink throws goes through.
 */
export async function readHistory(file: string, sink: HistorySink): Promise<HistoryOutcome> {
  const shown = path.basename(file);
  const run = historyRun(shown, sink);
  const looked = await lookAt(file).catch((error: unknown) => problemOf(error));
  if ("problem" in looked) return run.failed(wholeFault(shown, null, looked));
  if (looked.content === "text") return readText(file, {shown, delimiter: looked.delimiter, run});
  const read = await readRawFile(file, shown);
  if ("fault" in read) return run.failed(read.fault);
  run.open(read.raw);
  return run.outcome(read.raw.hash);
}

async function readText(
  file: string,
  {shown, delimiter, run}: {readonly shown: string; readonly delimiter: Delimiter; readonly run: HistoryRun},
): Promise<HistoryOutcome> {
  const counts = {comments: 0};
  const hash = createHash("sha256");
  const rows = csvRows(hashed(createReadStream(file), hash), delimiter, counts);
  const text = run.text(delimiter);
  try {
    while (true) {
      const next = await rows.next().catch((error: unknown) => ({error}));
      if ("error" in next) return run.failed(wholeFault(shown, null, problemOf(next.error)));
      if (next.done) break;
      if (!text.take(next.value)) return run.outcome(""); // without its columns nothing of it can be read
    }
  } finally {
    await rows.return(undefined); // the sink may have thrown
  }
  text.end();
  return run.outcome(hash.digest("hex"), counts.comments);
}

/** Bytes as they come, into the hash as well. */
async function* hashed(bytes: AsyncIterable<Buffer>, hash: Hash): AsyncGenerator<Buffer> {
  for await (const chunk of bytes) {
    hash.update(chunk);
    yield chunk;
  }
}
