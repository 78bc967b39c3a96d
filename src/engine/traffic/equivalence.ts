import {InputError, requirePositive} from "../errors.ts";
import {axleLines} from "./axles.ts";
import type {LoadClass, Wheel} from "./types.ts";

/** The fourth-power law of the AASHO road test (Highway Research Board 1962, Special Report 61E) [–]. */
const POWER = 4;

const loadOf = (line: readonly Wheel[]): number => line.reduce((sum, wheel) => sum + wheel.load, 0);

/**
 * Passes of the standard axle that one pass of a load class is worth, Σ (P/P₀)⁴ over its axle lines [–]. Only for
 * telling a life in standard axles; damage itself is computed class by class.
 *
 * Both must be described alike: whole axles, or the wheels of one side.
 *
 * @throws InputError "shape" unless the standard axle has exactly one axle line
 */
export function standardAxleEquivalence(loadClass: LoadClass, standardAxle: LoadClass): number {
  const standard = axleLines(standardAxle.wheels);
  if (standard.length !== 1) {
    throw new InputError("shape", "standardAxle.wheels", `${standard.length} axle lines`, "wheels of exactly one");
  }
  const unit = loadOf(standard[0]);
  requirePositive("standardAxle load", unit, "N");
  return axleLines(loadClass.wheels).reduce((sum, line) => sum + (loadOf(line) / unit) ** POWER, 0);
}
