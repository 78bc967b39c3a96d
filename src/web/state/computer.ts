/** The computing thread, started when it is first needed. */
import {proxy, type Remote, releaseProxy, wrap} from "comlink";
import type {Computer} from "../worker/channel.ts";

let thread: Remote<Computer> | undefined;

export function computer(): Remote<Computer> {
  thread ??= wrap<Computer>(
    new Worker(new URL("../worker/study.worker.ts", import.meta.url), {type: "module", name: "study"}),
  );
  return thread;
}

/** A function of the page's that the thread may call. */
export function callback<Args extends unknown[]>(call: (...args: Args) => void): (...args: Args) => void {
  return proxy(call);
}

export {releaseProxy};
