/** Saving: into the workspace folder where there is one, else into a file of the user's. */
import {strToU8, zipSync} from "fflate";
import {parsedText} from "../../schema/editing/index.ts";
import {download} from "./download.ts";
import {tell} from "./notices.ts";
import {namedFiles} from "./opening.ts";
import {markSaved, useWorkbook, type Workbook} from "./workbook.ts";
import {hasWorkspace, saveToWorkspace} from "./workspace.ts";

let last: Promise<void> = Promise.resolve();

/** One after another: each writes over what the one before has left. */
export function saveStudy(): Promise<void> {
  last = last.then(save);
  return last;
}

async function save(): Promise<void> {
  const {present, place, saved} = useWorkbook.getState();
  try {
    if (await hasWorkspace()) {
      const at = await saveToWorkspace(present, place);
      const now = useWorkbook.getState();
      // Another study may have been opened meanwhile: its place is not this one's.
      if (now.present.name === present.name && now.place === place && now.saved === saved) markSaved(present, at);
      tell({kind: "good", text: `Saved as ${at.path} in the workspace folder.`});
    } else {
      handOut(present);
      markSaved(present, null);
    }
  } catch (error) {
    tell({kind: "bad", text: (error as Error).message});
  }
}

/** Hands out the study alone where it names no files, else a ZIP of all that it needs; says why it cannot. */
export function downloadStudy(workbook: Workbook): void {
  try {
    handOut(workbook);
  } catch (error) {
    tell({kind: "bad", text: (error as Error).message});
  }
}

/** @throws Error in words where two files would have one name in the ZIP */
function handOut({name, text, files}: Workbook): void {
  const document = parsedText(text);
  // Of a text that cannot be read nobody knows what it names.
  const needed =
    document === null ? Object.keys(files) : namedFiles(document).filter(file => files[file] !== undefined);
  if (needed.length === 0) {
    download(name, text, "application/yaml");
    return;
  }
  const own = name.split("/").at(-1)!; // the files are named as they lie from its folder
  const all: Record<string, Uint8Array> = {[own]: strToU8(text)};
  for (const file of needed) {
    const inner = safe(file);
    if (Object.hasOwn(all, inner))
      throw new Error(
        `${file} would stand in the ZIP as ${inner}, which is there already: name it otherwise in the study.`,
      );
    all[inner] = strToU8(files[file]);
  }
  download(`${own.replace(/\.(ya?ml|json)$/i, "")}.zip`, zipSync(all, {level: 6}), "application/zip");
}

/** No way out of the folder in which it is unpacked. */
function safe(file: string): string {
  return file
    .split(/[/\\]/)
    .filter(part => part !== "" && part !== "." && part !== "..")
    .join("/");
}
