import {
  assembleCalibration,
  type Calibration,
  type CalibrationPiece,
  type CalibrationRequest,
  type CalibrationTask,
  calibrationTasks,
} from "../../engine/laboratory/index.ts";
import {openPool} from "../../pool/index.ts";

export interface CalibrationOptions {
  readonly entry: string; // module that serves parts of a beam programme: its path in Node, its address in a page
  readonly workers: number; // ≥ 1
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: {readonly done: number; readonly doing: string}) => void) | undefined;
}

/**
 * Growth laws of a beam programme, on several workers; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export async function computeCalibration(
  request: CalibrationRequest,
  {entry, workers, signal, onProgress}: CalibrationOptions,
): Promise<Calibration> {
  const tasks = calibrationTasks(request);
  const pool = openPool(entry, workers);
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
