/** The history of one test as it goes by: rows into a sink, what is wrong with them into faults. */
import {contentOf, decoded, eachCsvRow, notUtf8, problemOfContent, readTableBytes, sha256} from "./bytes/index.ts";
import {type Delimiter, type RawFile, type RawRow, saysSomething} from "./cells.ts";
import {type LaboratoryFault, wholeFault} from "./fault.ts";
import {boundedFaults, type HistoryReader, openHistory} from "./history.ts";
import type {Understanding} from "./understanding.ts";

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

/** One history on its way from a file to a sink. */
export interface HistoryRun {
  open(head: RawFile): boolean; // takes the rows of the head; false: its columns cannot be read
  text(delimiter: Delimiter): HistoryText; // for rows of CSV that come one by one
  failed(fault: LaboratoryFault): HistoryOutcome;
  outcome(hash: string, comments?: number): HistoryOutcome;
}

/** Rows of CSV on their way: the first of them show the columns and the decimal mark. */
export interface HistoryText {
  take(row: RawRow): boolean; // false: its columns cannot be read, nor what follows
  end(): void;
}

/** Rows that are looked at before the first is given away: for the header and the decimal mark. */
const HEAD_ROWS = 1000;

/** @param shown name of the file in messages */
export function historyRun(shown: string, sink: HistorySink): HistoryRun {
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
  const open = (head: RawFile): boolean => {
    reader = openHistory(head, faults.list);
    for (const row of reader?.rows ?? []) take(row);
    return reader !== null;
  };
  return {
    open,
    outcome,
    text: delimiter => {
      const head: RawRow[] = [];
      let opened = false;
      const openHead = (): boolean => {
        opened = true;
        return open({file: shown, hash: "", sheets: [{name: null, delimiter, rows: head, comments: 0}]});
      };
      return {
        take: row => {
          if (opened) {
            if (saysSomething(row)) take(row);
            return true;
          }
          head.push(row);
          return head.length < HEAD_ROWS || openHead();
        },
        end: () => {
          if (!opened) openHead();
        },
      };
    },
    failed: fault => {
      faults.settle();
      faults.list.unshift(fault);
      return outcome("");
    },
  };
}

/**
 * The history of one test from the bytes of its file, CSV or a workbook. What is wrong with the file is in the outcome; what
 * the sink throws goes through.
 *
 * @param shown name of the file in messages
 */
export async function readHistoryBytes(
  bytes: Uint8Array<ArrayBuffer>,
  shown: string,
  sink: HistorySink,
): Promise<HistoryOutcome> {
  const run = historyRun(shown, sink);
  const looked = contentOf(bytes);
  if ("problem" in looked) return run.failed(wholeFault(shown, null, looked));
  if (looked.content === "workbook") {
    const read = await readTableBytes(bytes, shown);
    if ("fault" in read) return run.failed(read.fault);
    run.open(read.raw);
    return run.outcome(read.raw.hash);
  }
  const text = decoded(bytes);
  if (text === null) return run.failed(wholeFault(shown, null, notUtf8));
  const rows = run.text(looked.delimiter);
  let readable = true;
  try {
    const comments = eachCsvRow(text, looked.delimiter, row => {
      readable &&= rows.take(row);
    });
    if (!readable) return run.outcome(""); // without its columns nothing of it can be read
    rows.end();
    return run.outcome(await sha256(bytes), comments);
  } catch (error) {
    const problem = problemOfContent(error);
    if (problem) return run.failed(wholeFault(shown, null, problem));
    throw error;
  }
}
