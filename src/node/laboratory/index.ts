/** Laboratory files from disk, and beam programmes on threads. Apart, so that other work does not load it. */

export type {FatigueFiles} from "../../schema/laboratory/index.ts";
export {computeCalibration, type ThreadedCalibration} from "./calibration.ts";
export {readFatigueProgramme} from "./fatigueProgramme.ts";
export {readHistory} from "./readHistory.ts";
export {readBeamFiles, readFatigueFile} from "./readLaboratory.ts";
