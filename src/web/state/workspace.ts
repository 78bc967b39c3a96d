/** The workspace folder of the local server. A page from any other web server has none. */

import {parsedText} from "../../schema/editing/index.ts";
import {tell} from "./notices.ts";
import {namedFiles} from "./opening.ts";
import {openWorkbook, type Place, type Workbook} from "./workbook.ts";

export interface WorkspaceFile {
  readonly path: string;
  readonly size: number; // [bytes]
  readonly modified: string; // ISO 8601
}

export interface Listing {
  readonly files: readonly WorkspaceFile[];
  readonly complete: boolean; // false: the folder holds more than is looked through
}

let listing: Promise<Listing | null> | undefined;

/** Studies in the workspace folder; null where there is no such folder. */
export async function listWorkspace(): Promise<Listing | null> {
  const all = await listed();
  return all && {...all, files: all.files.filter(({path}) => /\.(ya?ml|json)$/i.test(path))};
}

export async function hasWorkspace(): Promise<boolean> {
  listing ??= listed();
  const found = (await listing) !== null;
  if (!found) listing = undefined; // a server that was away may be there again
  return found;
}

async function listed(): Promise<Listing | null> {
  try {
    const answer = await fetch("./api/workspace", {headers: {Accept: "application/json"}});
    if (!answer.ok || !answer.headers.get("Content-Type")?.includes("json")) return null;
    return (await answer.json()) as Listing;
  } catch {
    return null;
  }
}

const addressOf = (path: string): string => `./api/files/${path.split("/").map(encodeURIComponent).join("/")}`;

interface Kept {
  readonly text: string;
  readonly version: string;
}

async function read(path: string): Promise<Kept> {
  const found = await readIfThere(path);
  if (!found) throw new Error(`${path} cannot be read: it is not there any more.`);
  return found;
}

async function readIfThere(path: string): Promise<Kept | null> {
  const answer = await fetch(addressOf(path));
  if (answer.status === 404) return null;
  if (!answer.ok) throw new Error(`${path} cannot be read: ${await reason(answer)}`);
  return {text: await answer.text(), version: answer.headers.get("ETag") ?? ""};
}

/** @throws Error in words */
export async function openFromWorkspace({path}: WorkspaceFile): Promise<void> {
  const {text, version} = await read(path);
  const folder = path.includes("/") ? path.slice(0, path.lastIndexOf("/") + 1) : "";
  const files: Record<string, string> = {};
  const versions: Record<string, string> = {[path]: version};
  const refused: string[] = [];
  for (const name of namedFiles(parsedText(text))) {
    try {
      const found = await readIfThere(folder + name);
      if (!found) continue; // the study says itself that the file is missing, beside the field that names it
      files[name] = found.text;
      versions[folder + name] = found.version;
    } catch (error) {
      refused.push((error as Error).message);
    }
  }
  openWorkbook({name: path, text, files}, {path, versions});
  if (refused.length > 0) tell({kind: "bad", text: refused.join(" ")});
}

/**
 * Writes the study and the files that it names; what the folder has already is left alone.
 *
 * @throws Error in words, also where a file has been changed by others since it was opened
 */
export async function saveToWorkspace(workbook: Workbook, place: Place | null): Promise<Place> {
  const path = place?.path ?? workbook.name;
  const folder = path.includes("/") ? path.slice(0, path.lastIndexOf("/") + 1) : "";
  const versions: Record<string, string> = {...place?.versions};
  for (const name of namedFiles(parsedText(workbook.text))) {
    const text = workbook.files[name];
    if (text !== undefined) versions[folder + name] = await write(folder + name, text, versions[folder + name]);
  }
  versions[path] = await write(path, workbook.text, versions[path]);
  listing = undefined;
  return {path, versions};
}

async function write(path: string, text: string, version: string | undefined): Promise<string> {
  const own = await hashOf(text);
  if (version === own) return own;
  const answer = await fetch(addressOf(path), {
    method: "PUT",
    headers: {"X-Seamwright": "1", ...(version === undefined ? {"If-None-Match": "*"} : {"If-Match": version})},
    body: new Blob([text], {type: "application/octet-stream"}),
  });
  if (answer.ok) return answer.headers.get("ETag") ?? own;
  if (answer.status === 412) {
    const present = await read(path).catch(() => null);
    if (present?.version === own) return own; // the same has been saved already
    throw new Error(
      version === undefined
        ? `${path} is in the workspace folder already, with other content, and nothing was written over it. Call yours otherwise: the study in the view “As text”, a table or a law where the study names it.`
        : `${path} was changed in the workspace folder since it was opened here. Nothing was written: save under another name, or open it anew.`,
    );
  }
  throw new Error(`${path} cannot be saved: ${await reason(answer)}`);
}

async function hashOf(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return `"sha256:${Array.from(new Uint8Array(digest), b => b.toString(16).padStart(2, "0")).join("")}"`;
}

async function reason(answer: Response): Promise<string> {
  try {
    return ((await answer.json()) as {error: {message: string}}).error.message;
  } catch {
    return `${answer.status} ${answer.statusText}`;
  }
}
