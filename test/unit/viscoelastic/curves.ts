/** Invented curves, typical of dense asphalt, and readings of them. */
import {complexModulus, type MasterCurve} from "../../../src/engine/viscoelastic/index.ts";
import type {ComplexModulusPoint} from "../../../src/engine/viscoelastic/types.ts";

export const sigmoid: MasterCurve = {
  model: {kind: "sigmoid", lowest: 8.1, span: 2.35, location: -0.8, slope: 0.55},
  shift: {kind: "WLF", c1: 19, c2: 160},
  referenceTemperature: 15,
  measured: null,
};

export const twoSprings = {
  model: {
    kind: "2S2P1D",
    staticModulus: 40e6,
    glassyModulus: 38e9,
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

export const TEMPERATURES = [-10, 0, 10, 20, 30, 40];
export const FREQUENCIES = [0.1, 0.3, 1, 3, 10, 25];

export function readings(
  curve: MasterCurve,
  temperatures: readonly number[] = TEMPERATURES,
  frequencies: readonly number[] = FREQUENCIES,
): ComplexModulusPoint[] {
  return temperatures.flatMap(temperature =>
    frequencies.map(frequency => {
      const {storage, loss} = complexModulus(curve, temperature, frequency);
      return {temperature, frequency, modulus: Math.hypot(storage, loss), phase: Math.atan2(loss, storage)};
    }),
  );
}
