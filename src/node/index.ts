/** What only Node can do: files, threads, hashes. */
export {FileError} from "./fileError.ts";
export {inputHash} from "./hash.ts";
export {openLifePool} from "./life.ts";
export {computeProbe} from "./probe.ts";
export {readStudyFile, readText, readVariedStudyFile, type StudyFile, type VariedStudyFile} from "./readFiles.ts";
export {openRun, RunFileError} from "./runs/index.ts";
export {samplingHash} from "./samplingHash.ts";
export {softwareVersion} from "./version.ts";
export {type OutputFile, requireWritable, requireWritableFolder, writeFiles} from "./writeFiles.ts";
