/** Numbers behind the pictures of master curves and deflection bowls. */

import type {Sensor} from "../../engine/backanalysis/types.ts";
import {reducedFrequency} from "../../engine/viscoelastic/index.ts";
import {followed, relaxed, shifts} from "../charts/curvePoints.ts";
import type {CurveView} from "../charts/index.ts";
import {csvText} from "../csv.ts";
import {measure} from "../units.ts";

const degreesOf = (radians: number): number => (radians * 180) / Math.PI;
const yesNo = (value: boolean): string => (value ? "yes" : "no");

/** One row a reduced frequency: the curve at its reference temperature. */
export function masterCurveCsv(view: CurveView): string {
  return csvText(
    [
      "reduced_frequency_Hz",
      "reference_temperature_C",
      "modulus_MPa",
      "phase_degrees",
      "storage_MPa",
      "loss_MPa",
      "within_tests",
    ],
    followed(view, measure("modulus")).map(p => [
      10 ** p.lg,
      view.curve.referenceTemperature,
      p.modulus,
      p.phase,
      p.storage,
      p.loss,
      yesNo(p.measured),
    ]),
  );
}

/** One row a reading of the tests, with the reduced frequency at which it is drawn. */
export function modulusReadingsCsv({curve, points}: Pick<CurveView, "curve" | "points">): string {
  return csvText(
    ["temperature_C", "frequency_Hz", "reduced_frequency_Hz", "modulus_MPa", "phase_degrees"],
    points.map(({temperature, frequency, modulus, phase}) => [
      temperature,
      frequency,
      reducedFrequency(curve, temperature, frequency),
      modulus / 1e6,
      phase === null ? null : degreesOf(phase),
    ]),
  );
}

/** One row a temperature. */
export function shiftCsv(view: CurveView): string {
  return csvText(
    ["temperature_C", "lg_shift_factor", "within_tests"],
    shifts(view).map(p => [p.temperature, p.lg, yesNo(p.tested)]),
  );
}

/** One row a loading time, at one temperature [°C]. */
export function relaxationCsv(view: CurveView, temperature: number): string {
  return csvText(
    ["loading_time_s", "temperature_C", "relaxation_modulus_MPa", "within_tests"],
    relaxed(view, temperature).map(p => [10 ** p.lg, temperature, p.modulus / 1e6, yesNo(p.tested)]),
  );
}

/** One row a sensor of a deflection bowl. */
export function bowlCsv(sensors: readonly Sensor[]): string {
  return csvText(
    [
      "offset_mm",
      "measured_micrometres",
      "deviation_micrometres",
      "fitted_micrometres",
      "surface_modulus_MPa",
      "fitted_surface_modulus_MPa",
    ],
    sensors.map(s => [
      s.offset * 1e3,
      s.measured * 1e6,
      s.deviation * 1e6,
      s.fitted * 1e6,
      s.surfaceModulus / 1e6,
      s.fittedSurfaceModulus / 1e6,
    ]),
  );
}
