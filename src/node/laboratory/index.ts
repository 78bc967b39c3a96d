/** Laboratory files from disk, and beam programmes on threads. Apart, so that other work does not load it. */
export {type CalibrationOptions, computeCalibration} from "./calibration.ts";
export {type FatigueFiles, readFatigueProgramme} from "./fatigueProgramme.ts";
export {type HistoryOutcome, type HistorySink, readHistory} from "./readHistory.ts";
export {readBeamFiles, readFatigueFile} from "./readLaboratory.ts";
