/** Fields around a joint take seconds: a thread of their own, so that edits are answered meanwhile. */
import {wrap} from "comlink";
import type {FieldRequest, JointField} from "../../engine/life/index.ts";
import type {Outcome} from "./channel.ts";
import type {Around} from "./field.worker.ts";
import entry from "./field.worker.ts?worker&url";

let idle: Worker | null = null;
let cancel: (() => void) | null = null; // what is under way

/** One that is still under way is broken off: whoever asks anew has no more use for it. */
export function fieldApart(request: FieldRequest): Promise<Outcome<JointField>> {
  cancel?.();
  const thread = idle ?? new Worker(entry, {type: "module", name: "field"});
  idle = null;
  return new Promise((resolve, reject) => {
    const failed = (error: unknown): void => {
      thread.terminate();
      cancel = null;
      reject(error);
    };
    cancel = () => {
      thread.terminate();
      resolve({kind: "cancelled"});
    };
    thread.onerror = ({message}) => failed(new Error(message || "the thread did not start"));
    wrap<Around>(thread)(request).then(outcome => {
      idle = thread;
      cancel = null;
      resolve(outcome);
    }, failed);
  });
}
