/**
 * One folder's files: listed, read, written. Nothing here waits: between looking at a file and replacing it no other
 * request comes in, so that writes to one file follow one another and each meets what the last one left.
 */
import {
  accessSync,
  closeSync,
  constants,
  type Dirent,
  fstatSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  type Stats,
} from "node:fs";
import path from "node:path";
import {writeFiles} from "../node/index.ts";
import {type Condition, etagOf, requireCondition} from "./conditions.ts";
import {DEEPEST, isKept, nameFault} from "./paths.ts";
import {fileRefusal, Refusal} from "./refusal.ts";

const MOST_ENTRIES = 5000;

/** Largest file read [bytes]: as for the command line. */
const LARGEST_READ = 200e6;

export interface WorkspaceFile {
  readonly path: string; // within the workspace, parts divided by /
  readonly size: number; // [bytes]
  readonly modified: string; // ISO 8601, UTC
}

export interface Listing {
  readonly name: string; // of the folder itself
  readonly files: readonly WorkspaceFile[]; // by path
  readonly complete: boolean; // false when there are more files and folders than are looked through
}

/** The files that could be read, nearest first until there are too many. A folder that is not there yet is empty. */
export function listWorkspace(folder: string): Listing {
  const root = realFolder(folder);
  const files: WorkspaceFile[] = [];
  const folders: string[][] = root === null ? [] : [[]];
  let complete = true;
  for (let i = 0; i < folders.length && root !== null && complete; i++) {
    for (const entry of entriesOf(path.join(root, ...folders[i]))) {
      const parts = [...folders[i], entry.name];
      if (nameFault(entry.name) !== null) continue;
      const enters = entry.isDirectory() && parts.length < DEEPEST;
      const file = entry.isFile() && isKept(entry.name) ? lookAt(path.join(root, ...parts)) : undefined;
      if (!enters && !file) continue;
      if (files.length + folders.length > MOST_ENTRIES) {
        complete = false;
        break;
      }
      if (enters) folders.push(parts);
      if (file) files.push({path: parts.join("/"), size: file.size, modified: file.mtime.toISOString()});
    }
  }
  files.sort((a, b) => (a.path < b.path ? -1 : 1));
  return {name: path.basename(path.resolve(folder)), files, complete};
}

/** @throws Refusal */
export function readWorkspaceFile(folder: string, parts: readonly string[]): {bytes: Buffer; etag: string} {
  return withoutPlaces(() => {
    const place = locate(folder, parts);
    if (!place.there) throw new Refusal(404, "not-found", "there is no such file");
    const bytes = bytesOf(place.path);
    return {bytes, etag: etagOf(bytes)};
  });
}

/**
 * Puts a content into a file, making the folders on the way; when it returns, the file is on the disk.
 *
 * @throws Refusal, after which everything is as it was
 */
export function writeWorkspaceFile(file: {
  readonly folder: string;
  readonly parts: readonly string[];
  readonly bytes: Uint8Array;
  readonly condition: Condition;
}): {etag: string; created: boolean} {
  return withoutPlaces(() => {
    const place = locate(file.folder, file.parts);
    requireCondition(file.condition, place.there ? etagOf(bytesOf(place.path)) : null);
    if (place.there) accessSync(place.path, constants.W_OK); // renaming would go over a write-protected one
    writeFiles([{path: place.path, bytes: file.bytes}]);
    return {etag: etagOf(file.bytes), created: !place.there};
  });
}

/** Where a file is or would be. Every part that is there is a folder, and the file a plain one: links are refused. */
function locate(folder: string, parts: readonly string[]): {path: string; there: boolean} {
  const root = realFolder(folder);
  if (root === null) return {path: path.resolve(folder, ...parts), there: false};
  const file = path.join(root, ...parts);
  let standing = root;
  for (const part of parts) {
    const at = path.join(standing, part);
    const found = lstatSync(at, {throwIfNoEntry: false});
    if (!found) break;
    requirePlain(found, at === file);
    standing = at;
  }
  if (!isWithin(root, realpathSync(standing))) throw new Refusal(403, "outside", "it is outside of the workspace");
  return {path: file, there: standing === file};
}

function requirePlain(found: Stats, isLast: boolean): void {
  if (found.isSymbolicLink()) throw new Refusal(403, "link", "it is a symbolic link, and links are not followed");
  if (isLast && !found.isFile()) throw new Refusal(409, "not-a-file", "it is not a file");
  if (!isLast && !found.isDirectory())
    throw new Refusal(409, "not-a-folder", "part of the path is a file, not a folder");
}

function isWithin(root: string, real: string): boolean {
  const between = path.relative(root, real);
  return between !== ".." && !between.startsWith(`..${path.sep}`) && !path.isAbsolute(between);
}

/** Opened without following a link or waiting for a pipe: either may have taken the file's place since it was looked at. */
function bytesOf(file: string): Buffer {
  const opened = openSync(file, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0));
  try {
    const {size} = requireFile(fstatSync(opened));
    if (size > LARGEST_READ)
      throw new Refusal(
        422,
        "too-large",
        `the file has ${Math.round(size / 1e6)} MB; at most ${LARGEST_READ / 1e6} are read`,
      );
    return readFileSync(opened);
  } finally {
    closeSync(opened);
  }
}

function requireFile(found: Stats): Stats {
  requirePlain(found, true);
  return found;
}

/** The workspace with links on the way to it resolved; null while it is not there. */
function realFolder(folder: string): string | null {
  try {
    return realpathSync(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw fileRefusal(error) ?? error;
  }
}

/** What is in a folder; nothing when it has gone since, or may not be looked into. */
function entriesOf(folder: string): Dirent[] {
  return unlessRefused(() => readdirSync(folder, {withFileTypes: true})) ?? [];
}

/** A file that has just been listed, unless it has gone since. */
function lookAt(file: string): Stats | undefined {
  return unlessRefused(() => lstatSync(file));
}

function unlessRefused<T>(run: () => T): T | undefined {
  try {
    return run();
  } catch (error) {
    if (fileRefusal(error)) return undefined;
    throw error;
  }
}

function withoutPlaces<T>(run: () => T): T {
  try {
    return run();
  } catch (error) {
    throw fileRefusal(error) ?? error;
  }
}
