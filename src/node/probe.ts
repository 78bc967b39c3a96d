import path from "node:path";
import type {ProbeRequest, ProbeResult} from "../engine/life/index.ts";
import type {Section} from "../engine/section/types.ts";
import {runOnWorkers} from "./pool.ts";

export interface ProbeTask {
  readonly weight: number;
}

/** The worker's module stands beside this one, with the same ending: .ts as written, .js as built. */
const ENTRY = new URL(`probeWorker${path.extname(import.meta.filename)}`, import.meta.url);

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
  const [result] = await runOnWorkers<ProbeTask, ProbeResult>({
    entry: ENTRY,
    shared: {section, request},
    tasks: [{weight: 1}],
    workers: 1,
    signal,
    onProgress: onProgress && (({done}) => onProgress(done)),
  });
  return result;
}
