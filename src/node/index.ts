/** What only Node can do: files, threads, hashes. */
export {FileError} from "./fileError.ts";
export {inputHash} from "./hash.ts";
export {computeLife, type LifeOptions, type LifeProgress, openLifePool} from "./life.ts";
export {computeProbe} from "./probe.ts";
export {readStudyFile, readText, readVariedStudyFile, type StudyFile, type VariedStudyFile} from "./readFiles.ts";
export {
  computeRisk,
  type RiskOptions,
  type RiskProgress,
  type SampledLives,
  sampleLives,
  samplingHash,
} from "./risk.ts";
export {openRun, RunFileError} from "./runs/index.ts";
export {softwareVersion} from "./version.ts";
export {type OutputFile, requireWritable, requireWritableFolder, writeFiles} from "./writeFiles.ts";
