/** Entry of a worker that works out parts of a beam programme. */
import {type CalibrationPiece, type CalibrationTask, calibrationWorker} from "../../engine/laboratory/index.ts";
import {serveTasks} from "../../pool/index.ts";

serveTasks<CalibrationTask, CalibrationPiece>(calibrationWorker());
