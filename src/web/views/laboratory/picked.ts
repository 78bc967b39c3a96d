/** Files as they are dropped or chosen, folders too, with the names of the folders that they were in. */
import type {DirectoryDropItem, DropItem} from "react-aria-components";
import type {LaboratoryFile} from "../../../schema/laboratory/index.ts";

/** Files that may be tables or a programme; a spreadsheet program's lock files begin with ~$. */
const isWanted = (name: string): boolean =>
  /\.(csv|tsv|txt|xlsx|xls|ya?ml)$/i.test(name) && !/^[.~]/.test(name.replace(/^.*\//, ""));

async function named(file: File, name: string): Promise<LaboratoryFile> {
  return {name, bytes: new Uint8Array(await file.arrayBuffer())};
}

/** Files chosen in the browser's own dialog; from a folder they know their path in it. */
export function chosenFiles(list: FileList | null): Promise<LaboratoryFile[]> {
  const files = [...(list ?? [])]
    .map(file => ({file, name: inFolder(file.webkitRelativePath) || file.name}))
    .sort((a, b) => a.name.localeCompare(b.name)); // folders come in any order
  const isOneByOne = files.length > 0 && files.every(({file}) => !file.webkitRelativePath);
  return Promise.all(files.filter(({name}) => isOneByOne || isWanted(name)).map(({file, name}) => named(file, name)));
}

/** A path in the folder that was chosen: names in tables are relative to it. */
const inFolder = (path: string): string => path.replace(/^[^/]*\//, "");

export async function droppedFiles(items: readonly DropItem[]): Promise<LaboratoryFile[]> {
  const found = await Promise.all(
    items.map(async item => {
      if (item.kind === "file") return [await named(await item.getFile(), item.name)];
      return item.kind === "directory" ? folderFiles(item, "") : [];
    }),
  );
  return found.flat().sort((a, b) => a.name.localeCompare(b.name));
}

async function folderFiles(folder: DirectoryDropItem, path: string): Promise<LaboratoryFile[]> {
  const found: LaboratoryFile[] = [];
  for await (const entry of folder.getEntries()) {
    const name = `${path}${entry.name}`;
    if (entry.kind === "directory") found.push(...(await folderFiles(entry, `${name}/`)));
    else if (isWanted(name)) found.push(await named(await entry.getFile(), name));
  }
  return found;
}
