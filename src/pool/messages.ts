import type {InputError} from "../engine/errors.ts";

/** What a pool asks a worker to do. */
export interface Assignment<Task, Result> {
  readonly task: Task;
  readonly inputs: readonly Result[]; // results of the tasks that it needs
  readonly keep: boolean; // its own result is needed by others
  readonly spare: readonly SharedArrayBuffer[]; // memory that nobody needs any more, for the result
}

/** Errors of our own lose their class on the way between threads, so an InputError travels as data. */
export type Outcome<Result> =
  | {readonly kind: "done"; readonly result: Result; readonly spare: readonly SharedArrayBuffer[]} // what was not used
  | {
      readonly kind: "input";
      readonly code: InputError["code"];
      readonly path: string;
      readonly got: string;
      readonly need: string;
    };
