/** Saving: into the workspace folder where there is one, else into a file of the user's. */
import {strToU8, zipSync} from "fflate";
import {download} from "./download.ts";
import {tell} from "./notices.ts";
import {namedFiles} from "./opening.ts";
import {markSaved, useWorkbook, type Workbook} from "./workbook.ts";
import {hasWorkspace, saveToWorkspace} from "./workspace.ts";

export async function saveStudy(): Promise<void> {
  const {present, place} = useWorkbook.getState();
  try {
    if (await hasWorkspace()) {
      const at = await saveToWorkspace(present, place);
      markSaved(present, at);
      tell({kind: "good", text: `Saved as ${at.path} in the workspace folder.`});
    } else {
      downloadStudy(present);
      markSaved(present, null);
    }
  } catch (error) {
    tell({kind: "bad", text: (error as Error).message});
  }
}

/** The study alone where it names no files, else a ZIP of all that it needs. */
export function downloadStudy({name, text, files}: Workbook): void {
  const needed = namedFiles(useWorkbook.getState().raw).filter(file => files[file] !== undefined);
  if (needed.length === 0) {
    download(name, text, "application/yaml");
    return;
  }
  const all = Object.fromEntries([[name, strToU8(text)], ...needed.map(file => [safe(file), strToU8(files[file])])]);
  download(`${name.replace(/\.(ya?ml|json)$/i, "")}.zip`, zipSync(all, {level: 6}), "application/zip");
}

/** No way out of the folder in which it is unpacked. */
function safe(file: string): string {
  return file
    .split(/[/\\]/)
    .filter(part => part !== "" && part !== "." && part !== "..")
    .join("/");
}
