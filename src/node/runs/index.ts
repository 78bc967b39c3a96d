/** Computations of many points that can be broken off and gone on with. */
export {type LifeSlots, openLifeSlots} from "./lifeSlots.ts";
export {openRun, partOfRun, type Run, type RunHeader, unsavedRun} from "./runFile.ts";
export {RunFileError} from "./runFileError.ts";
export {type PointsProgress, type PointsRequest, runPoints} from "./runPoints.ts";
