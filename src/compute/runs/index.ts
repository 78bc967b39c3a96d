/** Computations of many points that can be broken off and gone on with. */
export {type LifeSlots, openLifeSlots} from "./lifeSlots.ts";
export {memoryRun, partOfRun, type Run, unsavedRun} from "./run.ts";
export {type PointsProgress, type PointsRequest, runPoints} from "./runPoints.ts";
