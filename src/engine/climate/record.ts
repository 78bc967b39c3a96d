import {InputError} from "../errors.ts";
import type {WeatherRecord} from "./types.ts";

/** The lowest temperature there is [°C]. */
const ABSOLUTE_ZERO = -273.15;

/**
 * A record the engine can work with: whole days, every column as long as the temperature, every value possible.
 *
 * @throws InputError "shape" | "domain", naming column and index
 */
export function requireRecord(record: WeatherRecord): void {
  const n = record.temperature.length;
  if (n < 24 || n % 24 !== 0) {
    throw new InputError("shape", "record.temperature.length", n, "whole days of 24 hours, ≥ 1 day");
  }
  if (!(record.startHour >= 0 && record.startHour < 24)) {
    throw new InputError("domain", "record.startHour", record.startHour, "0 ≤ hour < 24");
  }
  requireColumn("temperature", record.temperature, n, `finite, > ${ABSOLUTE_ZERO} [°C]`, x => x > ABSOLUTE_ZERO);
  if (record.solar !== null) requireColumn("solar", record.solar, n, "finite, ≥ 0 [W/m²]", x => x >= 0);
  if (record.wind !== null) requireColumn("wind", record.wind, n, "finite, ≥ 0 [m/s]", x => x >= 0);
  const {dewPoint, cloud} = record;
  if (dewPoint !== null)
    requireColumn("dewPoint", dewPoint, n, `finite, > ${ABSOLUTE_ZERO} [°C]`, x => x > ABSOLUTE_ZERO);
  if (cloud !== null) requireColumn("cloud", cloud, n, "0 ≤ part ≤ 1 [–]", x => x >= 0 && x <= 1);
}

function requireColumn(
  name: string,
  column: Float64Array,
  length: number,
  need: string,
  fits: (x: number) => boolean,
): void {
  if (column.length !== length) throw new InputError("shape", `record.${name}.length`, column.length, `${length}`);
  const wrong = column.findIndex(x => !(Number.isFinite(x) && fits(x)));
  if (wrong >= 0) throw new InputError("domain", `record.${name}[${wrong}]`, column[wrong], need);
}

/** Arithmetic mean, summed about the first value so that a constant gives itself exactly. */
export function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] - values[0];
  return values[0] + sum / values.length;
}
