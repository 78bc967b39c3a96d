import {readdir, stat} from "node:fs/promises";
import path from "node:path";
import {
  type BeamOutcome,
  beamOutcome,
  type FatigueOutcome,
  fatigueOutcome,
  type TableRead,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {problemOf} from "./fileProblem.ts";
import {readRawFile} from "./laboratoryFile.ts";

/** A table of fatigue specimens, CSV or XLSX. What is wrong with it is in the outcome; never throws for that. */
export async function readFatigueFile(file: string): Promise<FatigueOutcome> {
  return fatigueOutcome(await readRawFile(file, path.basename(file)), path.basename(file, path.extname(file)));
}

/** Tables of wheel-tracked beams and of their readings: a workbook, or a folder of CSV files and workbooks. */
export async function readBeamFiles(folderOrFile: string): Promise<BeamOutcome> {
  const read: TableRead[] = [];
  try {
    const isFolder = (await stat(folderOrFile)).isDirectory();
    const names = isFolder ? (await readdir(folderOrFile)).filter(isTable).sort() : [""];
    for (const name of names)
      read.push(await readRawFile(path.join(folderOrFile, name), name || path.basename(folderOrFile)));
  } catch (error) {
    read.push({fault: wholeFault(path.basename(folderOrFile), null, problemOf(error))});
  }
  return beamOutcome(read);
}

/** Files of a folder that may be tables; a spreadsheet program's lock files begin with ~$. */
const isTable = (name: string): boolean => /\.(csv|tsv|txt|xlsx|xls)$/i.test(name) && !/^[.~]/.test(name);
