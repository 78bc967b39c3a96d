import {type OutputFile, requireWritable, requireWritableFolder, writeFiles} from "../node/index.ts";
import type {Terminal} from "./terminal.ts";

/**
 * Whether a report and a folder of files could be written, asked before a long computation.
 *
 * @throws FileError
 */
export function requireOutputs(report: string | undefined, folder: string | undefined): void {
  if (report !== undefined) requireWritable(report);
  if (folder !== undefined) requireWritableFolder(folder);
}

/** Files first, so that nobody reads an answer of which a file is missing; then the answer, then what was written. */
export function deliver(files: readonly OutputFile[], answer: string, terminal: Terminal): void {
  writeFiles(files);
  terminal.print(answer);
  for (const {path} of files) terminal.say(`Wrote ${path}\n`);
}
