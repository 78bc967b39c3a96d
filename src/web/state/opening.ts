/** Files that the user drops or chooses: a study with what it names, tables that a study misses, or a ZIP of them. */
import {unzipSync} from "fflate";
import {parsedText} from "../../schema/editing/index.ts";
import {tell} from "./notices.ts";
import {keysAt} from "./value.ts";
import {addFiles, openWorkbook, present} from "./workbook.ts";

const LARGEST = 60e6; // [bytes], of all that is opened at once

interface Given {
  readonly name: string;
  readonly text: string;
}

/** @throws Error with what is wrong with the files, in words */
export async function openFiles(files: readonly File[]): Promise<void> {
  const given = (await Promise.all(files.map(contents))).flat();
  if (given.length === 0) throw new Error("Nothing was chosen.");
  const studies = given.filter(isStudy);
  if (studies.length > 1)
    throw new Error(
      `${studies.length} of the files are studies (${studies.map(s => s.name).join(", ")}): open one at a time.`,
    );
  const others = given.filter(g => !isStudy(g));
  if (studies.length === 0) return addBeside(others);
  const [study] = studies;
  openWorkbook({name: baseOf(study.name), text: study.text, files: asNamed(study.text, others)});
}

async function contents(file: File): Promise<Given[]> {
  if (file.size > LARGEST)
    throw new Error(`${file.name} has ${Math.round(file.size / 1e6)} MB; at most ${LARGEST / 1e6} MB are opened.`);
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && !/\.xlsx$/i.test(file.name)) return unpacked(file.name, bytes);
  return [{name: file.name, text: textOf(file.name, bytes)}];
}

function unpacked(name: string, bytes: Uint8Array): Given[] {
  let size = 0;
  try {
    const all = unzipSync(bytes, {
      filter: ({originalSize}) => {
        size += originalSize;
        if (size > LARGEST) throw new Error(`it holds more than ${LARGEST / 1e6} MB`);
        return true;
      },
    });
    return Object.entries(all).flatMap(([inner, content]) =>
      inner.endsWith("/") || isHidden(inner) ? [] : [{name: inner, text: textOf(inner, content)}],
    );
  } catch (error) {
    throw new Error(`${name} cannot be unpacked: ${(error as Error).message}`);
  }
}

/** What systems put into a ZIP of their own accord. */
const isHidden = (path: string): boolean => path.split("/").some(part => /^(?:\.[^.]|__MACOSX$)/.test(part));

function textOf(name: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", {fatal: true}).decode(bytes);
  } catch {
    throw new Error(
      /\.xlsx?$/i.test(name)
        ? `${name} is a workbook: tables of laboratory tests go to the Laboratory view; a study's own tables are CSV.`
        : `${name} is not text in UTF-8; save it as UTF-8.`,
    );
  }
}

const STUDY_KEYS = ["section", "treatments", "traffic", "materials"];

/** By its keys; a text that is no YAML by what looks like them, so that it can be mended on the page. */
function isStudy({name, text}: Given): boolean {
  if (!isDocument(name)) return false;
  const raw = parsedText(text);
  return raw === null
    ? STUDY_KEYS.some(key => new RegExp(`^\\s*"?${key}"?\\s*:`, "m").test(text))
    : keysAt(raw, []).some(key => STUDY_KEYS.includes(key));
}

const isDocument = (name: string): boolean => /\.(ya?ml|json)$/i.test(name);

/** Files put beside the open study. One that it does not name yet is kept, and said to be; a document must be a law. */
function addBeside(files: readonly Given[]): void {
  const {text} = present();
  const wanted = namedFiles(parsedText(text)).map(baseOf);
  const unnamed = files.filter(({name}) => !wanted.includes(baseOf(name)));
  const strange = unnamed.filter(
    ({name, text: own}) => isDocument(name) && !keysAt(parsedText(own), []).includes("law_format"),
  );
  if (strange.length > 0)
    throw new Error(
      `${namesOf(strange)}: neither a study, which has ${STUDY_KEYS.join(", ")}, nor a law, which has law_format.`,
    );
  addFiles(`add ${files.map(({name}) => baseOf(name)).join(", ")}`, asNamed(text, files));
  if (unnamed.length > 0)
    tell({kind: "good", text: `${namesOf(unnamed)}: kept beside the study, which does not name it yet.`});
}

const namesOf = (files: readonly Given[]): string => files.map(({name}) => name).join(", ");

const baseOf = (name: string): string => name.split("/").at(-1) ?? name;

/** Files under the names by which the study asks for them: a file's own name is enough where only one is called so. */
function asNamed(text: string, files: readonly Given[]): Record<string, string> {
  const wanted = namedFiles(parsedText(text));
  return Object.fromEntries(
    files.map(({name, text: content}) => {
      const exact = wanted.find(w => w === name) ?? wanted.find(w => name.endsWith(`/${w}`));
      if (exact !== undefined) return [exact, content];
      const alike = wanted.filter(w => baseOf(w) === baseOf(name));
      if (alike.length > 1)
        tell({
          kind: "bad",
          text: `${name}: the study names several files so (${alike.join(", ")}). Put them into a ZIP with their folders, or name them apart.`,
        });
      return [alike.length === 1 ? alike[0] : name, content];
    }),
  );
}

/** Every file that a document names: under `file` or `law_file`, wherever it stands. */
export function namedFiles(raw: unknown): string[] {
  if (Array.isArray(raw)) return [...new Set(raw.flatMap(namedFiles))];
  if (typeof raw !== "object" || raw === null) return [];
  const own = Object.entries(raw).flatMap(([key, value]) =>
    (key === "file" || key === "law_file") && typeof value === "string" ? [value] : namedFiles(value),
  );
  return [...new Set(own)];
}
