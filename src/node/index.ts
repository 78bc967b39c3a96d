/** What only Node can do: files, threads, hashes. */
export {type CalibrationOptions, computeCalibration} from "./calibration.ts";
export {type FatigueFiles, readFatigueProgramme} from "./fatigueProgramme.ts";
export {FileError} from "./fileError.ts";
export {computeLife, type LifeOptions, type LifeProgress, openLifePool} from "./life.ts";
export {computeProbe} from "./probe.ts";
export {readStudyFile, readText, type StudyFile} from "./readFiles.ts";
export {type HistoryOutcome, type HistorySink, readHistory} from "./readHistory.ts";
export {readBeamFiles, readFatigueFile} from "./readLaboratory.ts";
export {softwareVersion} from "./version.ts";
export {type OutputFile, requireWritable, writeFiles} from "./writeFiles.ts";
