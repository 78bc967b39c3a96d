/** Entry of a worker thread that looks at one section closely. */
import type {ProbeTask} from "../compute/index.ts";
import {type ProbeResult, probe} from "../engine/life/index.ts";
import {serveTasks} from "../pool/index.ts";

serveTasks<ProbeTask, ProbeResult>(({section, request}, _, onProgress) => probe(section, request, onProgress));
