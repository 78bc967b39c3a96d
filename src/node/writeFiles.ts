import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";
import {FileError} from "./fileError.ts";

export interface OutputFile {
  readonly path: string;
  readonly text: string;
}

/**
 * Writes files, each whole or not at all: every text goes to a temporary file in its folder first, and only when all are
 * there are they renamed. Missing folders are made. Nothing of it waits, so an interrupt that the program handles comes
 * before or after the whole, never between.
 *
 * @throws FileError; then no temporary file and no folder made here is left
 */
export function writeFiles(files: readonly OutputFile[]): void {
  const temporary: string[] = [];
  const folders: string[] = [];
  let at = "";
  try {
    for (const file of files) {
      at = file.path;
      requireFileName(at);
      folders.push(...makeFolder(path.dirname(path.resolve(at))));
      const beside = temporaryName(at);
      temporary.push(beside);
      writeFileSync(beside, file.text, {flag: "wx"});
    }
    files.forEach((file, i) => {
      at = file.path;
      renameSync(temporary[i], file.path);
    });
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

function temporaryName(file: string): string {
  return path.join(path.dirname(path.resolve(file)), `.${path.basename(file)}.${process.pid}.tmp`);
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
