import path from "node:path";
import {assembleFatigueProgramme, type FatigueFiles} from "../../schema/laboratory/index.ts";
import {readRawFile} from "./laboratoryFile.ts";
import {readHistory} from "./readHistory.ts";

/**
 * Tables of fatigue specimens with the histories beside them, from disk.
 *
 * @param options.folder  that files are named from in what is said of them; default: by their own names
 * @param options.onFile  called before each file is read
 */
export function readFatigueProgramme(
  files: readonly string[],
  name: string,
  {folder, onFile}: {readonly folder?: string; readonly onFile?: (file: string) => void} = {},
): Promise<FatigueFiles> {
  const shown = (file: string): string =>
    folder === undefined ? path.basename(file) : path.relative(folder, file).replaceAll("\\", "/");
  const source = {
    table: (file: string) => readRawFile(file, shown(file)),
    history: (table: string, named: string, sink: Parameters<typeof readHistory>[1]) =>
      readHistory(path.resolve(path.dirname(table), named), sink),
  };
  return assembleFatigueProgramme(files, name, source, {shown, onFile});
}
