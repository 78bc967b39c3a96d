import {availableParallelism} from "node:os";
import {type CalibrationOptions, computeCalibration as compute} from "../../compute/laboratory/index.ts";
import type {Calibration, CalibrationRequest} from "../../engine/laboratory/index.ts";
import {workerEntry} from "../workerEntry.ts";

const entry = workerEntry(import.meta, "calibrationWorker");

/** By default as many threads as the machine has to give. */
export type ThreadedCalibration = Omit<CalibrationOptions, "entry" | "workers"> & {
  readonly workers?: number | undefined;
};

/**
 * Growth laws of a beam programme, on several threads; the same numbers for any number of them.
 *
 * @throws InputError; Cancelled
 */
export function computeCalibration(
  request: CalibrationRequest,
  {workers = availableParallelism(), ...options}: ThreadedCalibration = {},
): Promise<Calibration> {
  return compute(request, {...options, entry, workers});
}
