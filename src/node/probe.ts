import {computeProbe as compute, type ProbeOptions} from "../compute/index.ts";
import type {ProbeRequest, ProbeResult} from "../engine/life/index.ts";
import type {Section} from "../engine/section/types.ts";
import {workerEntry} from "./workerEntry.ts";

const entry = workerEntry(import.meta, "probeWorker");

/**
 * A probe on a thread of its own, so that an interrupt is heard.
 *
 * @throws InputError; Cancelled
 */
export function computeProbe(
  section: Section,
  request: ProbeRequest,
  options: Omit<ProbeOptions, "entry"> = {},
): Promise<ProbeResult> {
  return compute(section, request, {...options, entry});
}
