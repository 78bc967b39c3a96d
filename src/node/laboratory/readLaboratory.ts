import {readdir, stat} from "node:fs/promises";
import path from "node:path";
import {
  type BeamOutcome,
  type FatigueOutcome,
  type LaboratoryFault,
  type RawFile,
  readBeamTables,
  readFatigueTable,
  wholeFault,
} from "../../schema/laboratory/index.ts";
import {problemOf} from "./fileProblem.ts";
import {readRawFile} from "./laboratoryFile.ts";

/** A table of fatigue specimens, CSV or XLSX. What is wrong with it is in the outcome; never throws for that. */
export async function readFatigueFile(file: string): Promise<FatigueOutcome> {
  const shown = path.basename(file);
  const name = path.basename(file, path.extname(file));
  const read = await readRawFile(file, shown);
  if ("raw" in read) return readFatigueTable(read.raw, name);
  return {
    programme: {name, specimens: []},
    origins: new Map(),
    hash: "",
    refused: [],
    faults: [read.fault],
    warnings: [],
    understanding: null,
  };
}

/** Tables of wheel-tracked beams and of their readings: a workbook, or a folder of CSV files and workbooks. */
export async function readBeamFiles(folderOrFile: string): Promise<BeamOutcome> {
  const broken: LaboratoryFault[] = [];
  const files: RawFile[] = [];
  try {
    const isFolder = (await stat(folderOrFile)).isDirectory();
    const names = isFolder ? (await readdir(folderOrFile)).filter(isTable).sort() : [""];
    for (const name of names) {
      const read = await readRawFile(path.join(folderOrFile, name), name || path.basename(folderOrFile));
      if ("raw" in read) files.push(read.raw);
      else broken.push(read.fault);
    }
  } catch (error) {
    broken.push(wholeFault(path.basename(folderOrFile), null, problemOf(error)));
  }
  const outcome = readBeamTables(files);
  // A file that cannot be read explains that there is no table.
  return {...outcome, faults: [...broken, ...(files.length === 0 && broken.length > 0 ? [] : outcome.faults)]};
}

/** Files of a folder that may be tables; a spreadsheet program's lock files begin with ~$. */
const isTable = (name: string): boolean => /\.(csv|tsv|txt|xlsx|xls)$/i.test(name) && !/^[.~]/.test(name);
