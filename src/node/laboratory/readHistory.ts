import {createHash, type Hash} from "node:crypto";
import {createReadStream} from "node:fs";
import path from "node:path";
import {
  boundedFaults,
  type Delimiter,
  type HistoryReader,
  type LaboratoryFault,
  openHistory,
  type RawFile,
  type RawRow,
  saysSomething,
  type Understanding,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {csvRows} from "./csvRows.ts";
import {problemOf} from "./fileProblem.ts";
import {lookAt, readRawFile} from "./laboratoryFile.ts";

/** Takes the rows of a history, in the order of cycles: a modulus [Pa], or amplitudes of force [N] and displacement [m]. */
export type HistorySink = (
  cycle: number,
  value: number | {readonly force: number; readonly displacement: number},
) => void;

export interface HistoryOutcome {
  readonly rows: number; // that the sink took
  readonly refused: number; // that it did not
  readonly faults: readonly LaboratoryFault[]; // the first ones, and how many more
  readonly hash: string; // SHA-256 of the file; empty when it cannot be read to its end
  readonly understanding: Understanding | null;
}

/** Rows that are looked at before the first is given away: for the header and the decimal mark. */
const HEAD_ROWS = 1000;

/**
 * Reads the history of one test, CSV of any length or a workbook, holding a few rows at a time. What is wrong with the
 * file is in the outcome; what the sink throws goes through.
 */
export async function readHistory(file: string, sink: HistorySink): Promise<HistoryOutcome> {
  const shown = path.basename(file);
  const run = historyRun(shown, sink);
  const looked = await lookAt(file).catch((error: unknown) => problemOf(error));
  if ("problem" in looked) return run.failed(wholeFault(shown, null, looked));
  if (looked.content === "text") return readText(file, looked.delimiter, run);
  const read = await readRawFile(file, shown);
  if ("fault" in read) return run.failed(read.fault);
  run.open(read.raw);
  return run.outcome(read.raw.hash);
}

interface HistoryRun {
  readonly shown: string;
  open(head: RawFile): boolean; // takes the rows of the head; false: its columns cannot be read
  take(row: RawRow): void;
  failed(fault: LaboratoryFault): HistoryOutcome;
  outcome(hash: string, comments?: number): HistoryOutcome;
}

function historyRun(shown: string, sink: HistorySink): HistoryRun {
  const faults = boundedFaults(shown);
  let rows = 0;
  let refused = 0;
  let reader: HistoryReader | null = null;
  const take = (row: RawRow): void => {
    const read = reader?.read(row);
    if (read) {
      rows++;
      sink(read.cycle, read.value);
    } else refused++;
    faults.settle();
  };
  const outcome = (hash: string, comments = 0): HistoryOutcome => ({
    rows,
    refused,
    faults: faults.all(),
    hash,
    understanding: reader && {...reader.understanding, hash, comments, rows: rows + refused},
  });
  return {
    shown,
    take,
    outcome,
    open: head => {
      reader = openHistory(head, faults.list);
      for (const row of reader?.rows ?? []) take(row);
      return reader !== null;
    },
    failed: fault => {
      faults.settle();
      faults.list.unshift(fault);
      return outcome("");
    },
  };
}

async function readText(file: string, delimiter: Delimiter, run: HistoryRun): Promise<HistoryOutcome> {
  const counts = {comments: 0};
  const hash = createHash("sha256");
  const rows = csvRows(hashed(createReadStream(file), hash), delimiter, counts);
  const head: RawRow[] = [];
  const open = () => run.open({file: run.shown, hash: "", sheets: [{name: null, delimiter, rows: head, comments: 0}]});
  let opened = false;
  try {
    while (true) {
      const next = await rows.next().catch((error: unknown) => ({error}));
      if ("error" in next) return run.failed(wholeFault(run.shown, null, problemOf(next.error)));
      if (next.done) break;
      if (opened) {
        if (saysSomething(next.value)) run.take(next.value);
        continue;
      }
      head.push(next.value);
      if (head.length < HEAD_ROWS) continue;
      opened = true;
      if (!open()) return run.outcome(""); // without its columns nothing of it can be read
    }
  } finally {
    await rows.return(undefined); // the sink may have thrown
  }
  if (!opened) open();
  return run.outcome(hash.digest("hex"), counts.comments);
}

/** Bytes as they come, into the hash as well. */
async function* hashed(bytes: AsyncIterable<Buffer>, hash: Hash): AsyncGenerator<Buffer> {
  for await (const chunk of bytes) {
    hash.update(chunk);
    yield chunk;
  }
}
