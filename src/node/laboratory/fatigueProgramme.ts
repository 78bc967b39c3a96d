import path from "node:path";
import {assembleFatigueProgramme, type FatigueFiles} from "../../schema/laboratory/index.ts";
import {readRawFile} from "./laboratoryFile.ts";
import {readHistory} from "./readHistory.ts";

/**
 * Tables of fatigue specimens with the histories beside them, from disk.
 *
 * @param onFile called before each file is read
 */
export function readFatigueProgramme(
  files: readonly string[],
  name: string,
  onFile?: (file: string) => void,
): Promise<FatigueFiles> {
  const source = {
    table: (file: string) => readRawFile(file, path.basename(file)),
    history: (table: string, named: string, sink: Parameters<typeof readHistory>[1]) =>
      readHistory(path.resolve(path.dirname(table), named), sink),
  };
  return assembleFatigueProgramme(files, name, source, {shown: file => path.basename(file), onFile});
}
