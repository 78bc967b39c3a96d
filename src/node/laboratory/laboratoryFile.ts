/** Laboratory files from disk as rows of cells. What is wrong with a file as a whole is a fault, never an exception. */
import {open, readFile, stat} from "node:fs/promises";
import {
  contentOf,
  HEAD_BYTES,
  readTableBytes,
  type TableRead,
  tooLarge,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {problemOf} from "./fileProblem.ts";

/**
 * All rows of a table.
 *
 * @param shown name of the file in messages
 */
export async function readRawFile(file: string, shown: string): Promise<TableRead> {
  try {
    const looked = await lookAt(file);
    if ("problem" in looked) return {fault: wholeFault(shown, null, looked)};
    const large = tooLarge(shown, (await stat(file)).size); // before all of it is in memory
    return large ? {fault: large} : readTableBytes(await readFile(file), shown);
  } catch (error) {
    return {fault: wholeFault(shown, null, problemOf(error))};
  }
}

/** What a file is, from its first bytes. */
export async function lookAt(file: string): Promise<ReturnType<typeof contentOf>> {
  const head = new Uint8Array(HEAD_BYTES);
  const handle = await open(file);
  try {
    const {bytesRead} = await handle.read(head, 0, head.length, 0);
    return contentOf(head.subarray(0, bytesRead));
  } finally {
    await handle.close();
  }
}
