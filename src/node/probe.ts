import type {ProbeRequest, ProbeResult} from "../engine/life/index.ts";
import type {Section} from "../engine/section/types.ts";
import {openPool, type PoolTask} from "../pool/index.ts";
import {workerEntry} from "./workerEntry.ts";

export interface ProbeTask extends PoolTask {
  readonly section: Section;
  readonly request: ProbeRequest;
}

const ENTRY = workerEntry(import.meta, "probeWorker");

/**
 * A probe on a thread of its own, so that an interrupt is heard.
 *
 * @throws InputError; Cancelled
 */
export async function computeProbe(
  section: Section,
  request: ProbeRequest,
  options: {readonly signal?: AbortSignal; readonly onProgress?: (done: number) => void} = {},
): Promise<ProbeResult> {
  const {signal, onProgress} = options;
  const pool = openPool(ENTRY, 1);
  try {
    const [result] = await pool.run<ProbeTask, ProbeResult>([{weight: 1, section, request}], {
      signal,
      onProgress: onProgress && (({done}) => onProgress(done)),
    });
    return result!;
  } finally {
    await pool.close();
  }
}
