import {availableParallelism} from "node:os";
import {
  assembleCalibration,
  type Calibration,
  type CalibrationPiece,
  type CalibrationRequest,
  type CalibrationTask,
  calibrationTasks,
} from "../../engine/laboratory/index.ts";
import {openPool} from "../../pool/index.ts";
import {workerEntry} from "../workerEntry.ts";

export interface CalibrationOptions {
  readonly workers?: number | undefined; // default: as many as the machine has to give
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: {readonly done: number; readonly doing: string}) => void) | undefined;
}

const ENTRY = workerEntry(import.meta, "calibrationWorker");

/**
 * Growth laws of a beam programme, on several threads; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export async function computeCalibration(
  request: CalibrationRequest,
  {workers = availableParallelism(), signal, onProgress}: CalibrationOptions = {},
): Promise<Calibration> {
  const tasks = calibrationTasks(request);
  const pool = openPool(ENTRY, workers);
  try {
    const pieces = await pool.run<CalibrationTask, CalibrationPiece>(tasks, {
      signal,
      onProgress:
        onProgress && (({done, running}) => onProgress({done, doing: running.length ? tasks[running[0]].label : ""})),
    });
    return assembleCalibration(request, pieces);
  } finally {
    await pool.close();
  }
}
