/**
 * A file of finished points, one line of JSON each, only ever appended to. The first line says what they were computed from.
 * A line that a crash cut off is dropped: its point is computed again.
 */
import {closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync} from "node:fs";
import path from "node:path";
import type {Run} from "../../compute/index.ts";
import {FileError} from "../fileError.ts";
import {lockRun} from "./lock.ts";
import {RunFileError} from "./runFileError.ts";

/** Everything that results depend on. */
export interface RunHeader {
  readonly software: string; // version
  readonly inputs: string; // SHA-256 of the study and all files that it names
  readonly settings: Readonly<Record<string, string | number | boolean | null>>; // what else results depend on
}

const FORMAT = 1;
const KIND = "seamwright run";

const BATCH = 8; // lines that a power cut may cost
const BATCH_AFTER = 2000; // [ms]; however few they are

const BLOCK = 1 << 16; // read at once [bytes]

/**
 * Opens a run file, or begins one, and locks it against other processes. Only keys and places are kept in memory. A point goes to
 * disk at once, made safe against a power cut in small batches.
 *
 * @returns  closing it makes all safe and gives the lock back
 * @throws RunFileError when it is of other inputs, broken, or in use; FileError
 */
export function openRun(file: string, header: RunHeader): Run {
  const unlock = lockRun(file);
  try {
    return opened(file, header, unlock);
  } catch (error) {
    unlock();
    throw error;
  }
}

function opened(file: string, header: RunHeader, unlock: () => void): Run {
  const handle = onDisk(file, () => openSync(file, existsSync(file) ? "r+" : "w+"));
  try {
    const {places, end} = onDisk(file, () => scanned(file, handle, header));
    return appendable({file, handle, places, end, unlock});
  } catch (error) {
    closeSync(handle);
    throw error;
  }
}

interface Place {
  readonly at: number; // [bytes]
  readonly length: number; // [bytes]
}

/** Where points stand in the file; a begun file gets its header. */
function scanned(file: string, handle: number, header: RunHeader): {places: Map<string, Place>; end: number} {
  const places = new Map<string, Place>();
  let line = 0;
  let end = 0;
  for (const {text, place} of wholeLines(handle)) {
    line++;
    end = place.at + place.length + 1;
    if (line === 1) requireHeader(file, text, header);
    else places.set(keyOf(file, text, line), place);
  }
  if (line === 0) requireBegun(file, handle);
  ftruncateSync(handle, end); // what a crash cut off
  if (line === 0) {
    const text = `${JSON.stringify({kind: KIND, format: FORMAT, ...header})}\n`;
    end = writeSync(handle, text, 0);
    fsyncSync(handle);
    syncFolder(path.dirname(path.resolve(file)));
  }
  return {places, end};
}

/** A file without a line feed is written over only if it is empty or a crash cut off its first line. */
function requireBegun(file: string, handle: number): void {
  const start = Buffer.from(JSON.stringify({kind: KIND}).slice(0, -1));
  const found = Buffer.alloc(start.length);
  const size = readSync(handle, found, 0, found.length, 0);
  if (!found.subarray(0, size).equals(start.subarray(0, size))) throw new RunFileError(file, ["it is not a run file"]);
}

/** So that the file itself is found after a power cut; where folders cannot be synced, it is as safe as any. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, "r");
    fsyncSync(handle);
    closeSync(handle);
  } catch {
    // not on this system
  }
}

function keyOf(file: string, text: string, line: number): string {
  try {
    const {key} = JSON.parse(text) as {key?: unknown};
    if (typeof key === "string") return key;
  } catch {
    // told below
  }
  throw new RunFileError(file, [`its line ${line} is not one of a run; delete it or take another file`]);
}

function requireHeader(file: string, text: string, header: RunHeader): void {
  let found: (Partial<RunHeader> & {kind?: unknown; format?: unknown}) | null = null;
  try {
    found = JSON.parse(text);
  } catch {
    // told below
  }
  if (found?.kind !== KIND) throw new RunFileError(file, ["it is not a run file"]);
  if (found.format !== FORMAT)
    throw new RunFileError(file, [`it has format ${String(found.format)}; this version writes ${FORMAT}`]);
  const differences = [
    ...difference("software", found.software, header.software),
    ...(found.inputs === header.inputs ? [] : ["the study or a file that it names has changed since"]),
    ...settingDifferences(found.settings ?? {}, header.settings),
  ];
  if (differences.length > 0) throw new RunFileError(file, [...differences, "take another file"]);
}

function settingDifferences(then: RunHeader["settings"], now: RunHeader["settings"]): string[] {
  const names = new Set([...Object.keys(then), ...Object.keys(now)]);
  return [...names].flatMap(name => difference(name, then[name], now[name]));
}

function difference(name: string, then: unknown, now: unknown): string[] {
  const told = (value: unknown): string => (value === undefined ? "nothing" : String(value));
  return then === now ? [] : [`${name} was ${told(then)} and is ${told(now)}`];
}

/** Lines that end with a line feed, with their places. */
function* wholeLines(handle: number): Generator<{readonly text: string; readonly place: Place}> {
  const block = Buffer.alloc(BLOCK);
  let pending: Buffer[] = []; // of a line that goes on
  let start = 0;
  for (let at = 0; ; ) {
    const size = readSync(handle, block, 0, BLOCK, at);
    if (size === 0) return;
    let from = 0;
    for (let to = block.indexOf(10); to >= 0 && to < size; to = block.indexOf(10, from)) {
      const bytes = Buffer.concat([...pending, block.subarray(from, to)]);
      pending = [];
      yield {text: bytes.toString("utf8"), place: {at: start, length: bytes.length}};
      from = to + 1;
      start = at + from;
    }
    if (from < size) pending.push(Buffer.from(block.subarray(from, size)));
    at += size;
  }
}

interface OpenFile {
  readonly file: string;
  readonly handle: number;
  readonly places: Map<string, Place>;
  readonly end: number; // [bytes]
  readonly unlock: () => void;
}

function appendable({file, handle, places, end: begin, unlock}: OpenFile): Run {
  let end = begin;
  let unsafe = 0; // lines since the last sync
  let since = 0; // the first of them [ms]
  const sync = (): void => {
    if (unsafe > 0) fsyncSync(handle);
    unsafe = 0;
  };
  return {
    path: file,
    get count() {
      return places.size;
    },
    has: key => places.has(key),
    read: key => onDisk(file, () => resultAt(handle, places.get(key)!)),
    append: (key, result) =>
      onDisk(file, () => {
        const bytes = Buffer.from(`${JSON.stringify({key, result})}\n`);
        for (let done = 0; done < bytes.length; )
          done += writeSync(handle, bytes, done, bytes.length - done, end + done);
        places.set(key, {at: end, length: bytes.length - 1});
        end += bytes.length;
        const now = performance.now();
        if (unsafe++ === 0) since = now;
        if (unsafe >= BATCH || now - since > BATCH_AFTER) sync();
      }),
    close: () => {
      try {
        onDisk(file, sync);
      } finally {
        closeSync(handle);
        unlock();
      }
    },
  };
}

function resultAt(handle: number, {at, length}: Place): unknown {
  const bytes = Buffer.alloc(length);
  readSync(handle, bytes, 0, length, at);
  return (JSON.parse(bytes.toString("utf8")) as {result: unknown}).result;
}

/** @throws FileError in the place of what the file system throws */
function onDisk<T>(file: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    if (error instanceof RunFileError || error instanceof FileError) throw error;
    throw new FileError("write", file, error);
  }
}
