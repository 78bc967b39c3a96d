import {type MasterCurve, reducedFrequency} from "../viscoelastic/index.ts";
import type {RelaxationPoint} from "./types.ts";

/** How far a curve is followed beyond what was measured; 0 within, < 0 below, > 0 above. */
export interface BeyondTests {
  readonly temperature: number; // [K]
  readonly decades: number; // of reduced frequency [–]
}

/** Two ways to the same number may differ by this [–]. */
const ROUNDING = 1e-9;

/**
 * @param temperature [°C]
 * @param frequency   [Hz]
 * @returns null for a curve that was not fitted: nothing was measured
 */
export function beyondTests(curve: MasterCurve, temperature: number, frequency: number): BeyondTests | null {
  if (curve.measured === null) return null;
  const lg = Math.log10(reducedFrequency(curve, temperature, frequency));
  const [slowest, fastest] = curve.measured.reducedFrequency.map(Math.log10);
  const [coldest, hottest] = curve.measured.temperature;
  return {temperature: outside(temperature, coldest, hottest), decades: outside(lg, slowest, fastest)};
}

/** The same for a relaxation modulus, a loading time t being the frequency 1/(2πt): ω = 1/t. */
export function relaxationBeyondTests(curve: MasterCurve, {temperature, time}: RelaxationPoint): BeyondTests | null {
  return beyondTests(curve, temperature, 1 / (2 * Math.PI * time));
}

function outside(value: number, low: number, high: number): number {
  const slack = ROUNDING * (Math.abs(low) + Math.abs(high));
  if (value < low - slack) return value - low;
  return value > high + slack ? value - high : 0;
}
