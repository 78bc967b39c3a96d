/** Invented curves, typical of dense asphalt, and exact readings of a curve. */
import {type MasterCurve, modulusNorm, phaseAngle} from "../../src/engine/viscoelastic/index.ts";
import type {ComplexModulusPoint} from "../../src/engine/viscoelastic/types.ts";

export const DEGREE = Math.PI / 180;
export const MPA = 1e6; // [Pa]

export const sigmoid = {
  model: {kind: "sigmoid", lowest: 2.1 + 6, span: 2.35, location: -0.8, slope: 0.55},
  shift: {kind: "WLF", c1: 19, c2: 160},
  referenceTemperature: 15,
  measured: null,
} as const satisfies MasterCurve;

export const twoSprings = {
  model: {
    kind: "2S2P1D",
    staticModulus: 40 * MPA,
    glassyModulus: 38_000 * MPA,
    delta: 2,
    k: 0.18,
    h: 0.55,
    beta: 250,
    time: 0.08,
  },
  shift: {kind: "WLF", c1: 19, c2: 160},
  referenceTemperature: 15,
  measured: null,
} as const satisfies MasterCurve;

export const TEMPERATURES = [-10, 0, 10, 20, 30, 40]; // [°C]
export const FREQUENCIES = [0.1, 0.3, 1, 3, 10, 25]; // [Hz]

export function readings(
  curve: MasterCurve,
  temperatures = TEMPERATURES,
  frequencies = FREQUENCIES,
): ComplexModulusPoint[] {
  return temperatures.flatMap(temperature =>
    frequencies.map(frequency => ({
      temperature,
      frequency,
      modulus: modulusNorm(curve, temperature, frequency),
      phase: phaseAngle(curve, temperature, frequency),
    })),
  );
}
