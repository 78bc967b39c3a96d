import type {ProbeRequest, ProbeResult} from "../engine/life/index.ts";
import type {Section} from "../engine/section/types.ts";
import {openPool, type PoolTask} from "../pool/index.ts";

/** What the worker of a probe is given. */
export interface ProbeTask extends PoolTask {
  readonly section: Section;
  readonly request: ProbeRequest;
}

export interface ProbeOptions {
  readonly entry: string; // module that serves probes: its path in Node, its address in a page
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((done: number) => void) | undefined;
}

/**
 * A probe on a worker of its own, so that an interrupt is heard.
 *
 * @throws InputError; Cancelled
 */
export async function computeProbe(
  section: Section,
  request: ProbeRequest,
  {entry, signal, onProgress}: ProbeOptions,
): Promise<ProbeResult> {
  const pool = openPool(entry, 1);
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
