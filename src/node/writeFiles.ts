import {randomBytes} from "node:crypto";
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import {FileError} from "./fileError.ts";

export type OutputFile =
  | {readonly path: string; readonly text: string}
  | {readonly path: string; readonly bytes: Uint8Array};

/**
 * Writes files, each whole or not at all: every content goes to a temporary file in its folder first, and only when all
 * are there are they renamed. Missing folders are made. Nothing of it waits, so an interrupt that the program handles
 * comes before or after the whole, never between. When it returns, all is on the disk and outlasts a power cut; who may
 * read or write a file that was there stays as it was.
 *
 * @throws FileError; then no temporary file and no folder made here is left
 */
export function writeFiles(files: readonly OutputFile[]): void {
  const temporary: string[] = [];
  const folders: string[] = []; // made here
  let at = "";
  try {
    for (const file of files) {
      at = file.path;
      requireFileName(at);
      folders.push(...makeFolder(path.dirname(path.resolve(at))));
      const beside = temporaryName(at);
      temporary.push(beside);
      writeNew(beside, file);
    }
    files.forEach((file, i) => {
      at = file.path;
      renameSync(temporary[i], file.path);
    });
    const changed = [...files.map(file => path.resolve(file.path)), ...folders].map(name => path.dirname(name));
    for (const folder of new Set(changed)) keepFolder(folder);
  } catch (error) {
    for (const name of temporary) rmSync(name, {force: true});
    for (const folder of folders.reverse()) removeIfEmpty(folder);
    throw new FileError("write", at, error);
  }
}

/**
 * Whether a file could be written there, asked before a long computation.
 *
 * @throws FileError
 */
export function requireWritable(file: string): void {
  try {
    requireFileName(file);
    requireRoom(path.dirname(path.resolve(file)));
  } catch (error) {
    throw new FileError("write", file, error);
  }
}

/**
 * The same of a folder, which need not be there yet.
 *
 * @throws FileError
 */
export function requireWritableFolder(folder: string): void {
  try {
    requireRoom(path.resolve(folder));
  } catch (error) {
    throw new FileError("write", folder, error);
  }
}

/** Asks the folder, or the nearest one above it that is there. */
function requireRoom(folder: string): void {
  let standing = folder;
  while (!existsSync(standing) && path.dirname(standing) !== standing) standing = path.dirname(standing);
  if (!statSync(standing).isDirectory()) throw Object.assign(new Error(), {code: "ENOTDIR"});
  accessSync(standing, constants.W_OK);
}

function requireFileName(file: string): void {
  if (existsSync(file) && statSync(file).isDirectory()) throw Object.assign(new Error(), {code: "EISDIR"});
}

/** By chance, as a killed program leaves its own behind and the next may have the same process number. */
function temporaryName(file: string): string {
  const name = `.${path.basename(file)}.${randomBytes(6).toString("hex")}.tmp`;
  return path.join(path.dirname(path.resolve(file)), name);
}

/** Writes the temporary file through to the disk, with the rights of the file that it is to replace. */
function writeNew(beside: string, file: OutputFile): void {
  const before = statSync(file.path, {throwIfNoEntry: false});
  const opened = openSync(beside, "wx");
  try {
    if (before) fchmodSync(opened, before.mode & 0o777);
    writeFileSync(opened, "bytes" in file ? file.bytes : file.text);
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}

/** Where a folder cannot be opened or its list of names not be written through, as on Windows and some network disks. */
const unkept = new Set(["EACCES", "EINVAL", "EISDIR", "ENOTSUP", "EPERM"]);

/** Writes a folder's list of names through to the disk, where the system can. */
function keepFolder(folder: string): void {
  let opened: number | undefined;
  try {
    opened = openSync(folder, "r");
    fsyncSync(opened);
  } catch (error) {
    if (!unkept.has((error as NodeJS.ErrnoException).code ?? "")) throw error;
  } finally {
    if (opened !== undefined) closeSync(opened);
  }
}

/** Makes a folder with its parents; returns those that were not there, outermost first. */
function makeFolder(folder: string): string[] {
  const made: string[] = [];
  for (let at = folder; !existsSync(at); at = path.dirname(at)) made.unshift(at);
  mkdirSync(folder, {recursive: true});
  return made;
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // somebody else has put something into it since: theirs to keep
  }
}
