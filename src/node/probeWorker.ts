/** Entry of a worker thread that looks at one section closely. */
import {type ProbeRequest, type ProbeResult, probe} from "../engine/life/index.ts";
import type {Section} from "../engine/section/types.ts";
import type {ProbeTask} from "./probe.ts";
import {poolWorker} from "./worker.ts";

interface Shared {
  readonly section: Section;
  readonly request: ProbeRequest;
}

export default poolWorker<Shared, ProbeTask, ProbeResult>(({section, request}, _, onProgress) =>
  probe(section, request, onProgress),
);
