/** Fields around a joint take seconds: a thread of their own, so that edits are answered meanwhile. */
import {type Remote, wrap} from "comlink";
import type {FieldRequest, JointField} from "../../engine/life/index.ts";
import type {Outcome} from "./channel.ts";
import type {Around} from "./field.worker.ts";
import entry from "./field.worker.ts?worker&url";

/** Wrapped once: a second wrapping of the same thread gets no answer. */
interface Thread {
  readonly worker: Worker;
  readonly around: Remote<Around>;
}

let idle: Thread | null = null;
let cancel: (() => void) | null = null; // what is under way

function started(): Thread {
  const worker = new Worker(entry, {type: "module", name: "field"});
  return {worker, around: wrap<Around>(worker)};
}

/** One that is still under way is broken off: whoever asks anew has no more use for it. */
export function fieldApart(request: FieldRequest): Promise<Outcome<JointField>> {
  cancel?.();
  const thread = idle ?? started();
  idle = null;
  return new Promise((resolve, reject) => {
    const failed = (error: unknown): void => {
      thread.worker.terminate();
      cancel = null;
      reject(error);
    };
    cancel = () => {
      thread.worker.terminate();
      resolve({kind: "cancelled"});
    };
    thread.worker.onerror = ({message}) => failed(new Error(message || "the thread did not start"));
    thread.around(request).then(outcome => {
      idle = thread;
      cancel = null;
      resolve(outcome);
    }, failed);
  });
}
