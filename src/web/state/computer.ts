/** The computing thread, started when it is first needed. */
import {proxy, type Remote, wrap} from "comlink";
import type {Computer, Outcome} from "../worker/channel.ts";
import {tell} from "./notices.ts";

let thread: Remote<Computer> | undefined;

export function computer(): Remote<Computer> {
  thread ??= wrap<Computer>(started());
  return thread;
}

function started(): Worker {
  const worker = new Worker(new URL("../worker/study.worker.ts", import.meta.url), {type: "module", name: "study"});
  worker.addEventListener("error", ({message}) =>
    tell({
      kind: "bad",
      text: `The computing thread has failed${message ? `: ${message}` : " to start"}. Reload the page: the study is kept.`,
    }),
  );
  return worker;
}

/** What nobody foresaw is told as well: a computation that has broken off must not look as if it went on. */
export async function settled<T>(outcome: Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await outcome;
  } catch (error) {
    console.error(error); // with its stack, for whoever mends it
    return {kind: "failed", message: (error as Error).message};
  }
}

/** A function of the page's that the thread may call. */
export function callback<Args extends unknown[]>(call: (...args: Args) => void): (...args: Args) => void {
  return proxy(call);
}
