import {
  type MasterCurve,
  modulusNorm,
  type PronySeries,
  phaseAngle,
  relaxationModulusAt,
} from "../viscoelastic/index.ts";
import {type BeyondTests, beyondTests, relaxationBeyondTests} from "./beyondTests.ts";
import type {RelaxationPoint} from "./types.ts";

/** What a master curve says at one temperature. */
export interface CurveSummary {
  readonly temperature: number; // [°C]
  readonly frequency: number; // [Hz]
  readonly modulus: number; // |E*| [Pa]
  readonly phase: number; // [rad]
  readonly beyond: BeyondTests | null; // null: nothing was measured
  readonly relaxation: readonly RelaxationReading[];
}

export interface RelaxationReading extends RelaxationPoint {
  readonly beyond: BeyondTests | null; // null: nothing was measured
}

/** Modulus at one frequency and relaxation moduli at some loading times, temperature by temperature. */
export function curveSummary(
  {curve, prony}: {readonly curve: MasterCurve; readonly prony: PronySeries},
  asked: {
    readonly temperatures: readonly number[]; // [°C]
    readonly frequency: number; // [Hz]
    readonly times: readonly number[]; // of loading [s]
  },
): CurveSummary[] {
  const {temperatures, frequency, times} = asked;
  return temperatures.map(temperature => ({
    temperature,
    frequency,
    modulus: modulusNorm(curve, temperature, frequency),
    phase: phaseAngle(curve, temperature, frequency),
    beyond: beyondTests(curve, temperature, frequency),
    relaxation: times.map(time => {
      const modulus = relaxationModulusAt(curve, prony, {time, temperature});
      const point = {time, temperature, modulus};
      return {...point, beyond: relaxationBeyondTests(curve, point)};
    }),
  }));
}
