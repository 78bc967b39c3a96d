/** Beam programmes on workers. Apart, so that other work does not load it. */
export {type CalibrationOptions, computeCalibration} from "./calibration.ts";
