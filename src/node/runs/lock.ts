/** One process at a time: a file beside the run file that names the process which holds it. */
import {closeSync, openSync, readFileSync, rmSync, writeSync} from "node:fs";
import {hostname} from "node:os";
import {FileError} from "../fileError.ts";
import {RunFileError} from "./runFileError.ts";

/**
 * Takes the lock; that of a process of this machine that no longer runs is taken over.
 *
 * @returns gives the lock back
 * @throws RunFileError while another process holds it; FileError
 */
export function lockRun(file: string): () => void {
  const lock = `${file}.lock`;
  for (let tries = 0; ; tries++) {
    try {
      const handle = openSync(lock, "wx");
      writeSync(handle, `${process.pid} ${hostname()}\n`);
      closeSync(handle);
      return () => rmSync(lock, {force: true});
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw new FileError("write", lock, error);
      const holder = holderOf(lock);
      if (tries > 0 || isRunning(holder)) throw new RunFileError(file, [inUse(holder, lock)]);
      rmSync(lock, {force: true});
    }
  }
}

interface Holder {
  readonly pid: number; // NaN: not told
  readonly host: string;
}

function holderOf(lock: string): Holder {
  try {
    const [pid, host] = readFileSync(lock, "utf8").trim().split(" ");
    return {pid: Number(pid || Number.NaN), host: host ?? ""};
  } catch {
    return {pid: Number.NaN, host: ""}; // just given back
  }
}

/** Of another machine nothing can be known: it may run. */
function isRunning({pid, host}: Holder): boolean {
  if (host !== "" && host !== hostname()) return true;
  if (!Number.isInteger(pid)) return false;
  try {
    process.kill(pid, 0); // asks, and ends nothing
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function inUse({pid, host}: Holder, lock: string): string {
  const who = Number.isInteger(pid) ? `process ${pid} on ${host}` : "another process";
  return `${who} is writing it; if that is not so, delete ${lock}`;
}
