/** Points of a master curve as its charts draw them, and as its tables list them. */

import {relaxationBeyondTests} from "../../engine/section/index.ts";
import {
  type ComplexModulusPoint,
  complexModulus,
  type MasterCurve,
  modulusNorm,
  type PronySeries,
  phaseAngle,
  reducedFrequency,
  relaxationModulusAt,
  shiftFactor,
} from "../../engine/viscoelastic/index.ts";
import type {Measure} from "../units.ts";

/** What the charts of one curve need. */
export interface CurveView {
  readonly curve: MasterCurve;
  readonly points: readonly ComplexModulusPoint[]; // that it was fitted to; none: it was not
  readonly prony: PronySeries;
}

const STEPS = 160; // of a curve
const SHIFT_STEPS = 70;
/** Where a curve without tests is drawn: a slow load in summer to a fast one in frost. */
const USUAL = {temperatures: [-20, 50], frequencies: [0.01, 100]} as const; // [°C], [Hz]

/** lg of the reduced frequencies that are drawn, and those within the tests. */
export function span({curve}: CurveView): {drawn: [number, number]; measured: [number, number] | null} {
  const [slow, fast] = USUAL.frequencies;
  const [cold, warm] = USUAL.temperatures;
  const usual = [reducedFrequency(curve, warm, slow), reducedFrequency(curve, cold, fast)].map(Math.log10);
  if (curve.measured === null) return {drawn: [Math.floor(usual[0]), Math.ceil(usual[1])], measured: null};
  const [low, high] = curve.measured.reducedFrequency.map(Math.log10);
  return {
    drawn: [Math.floor(Math.min(usual[0], low)), Math.ceil(Math.max(usual[1], high))],
    measured: [low, high],
  };
}

export interface CurvePoint {
  readonly lg: number; // of the reduced frequency
  readonly modulus: number; // as shown, and so below
  readonly phase: number; // [°]
  readonly storage: number;
  readonly loss: number;
  readonly measured: boolean;
}

/** The curve at its reference temperature, evenly over lg of the reduced frequency. */
export function followed(view: CurveView, {of}: Measure): CurvePoint[] {
  const {curve} = view;
  const {drawn, measured} = span(view);
  const [low, high] = drawn;
  const even = Array.from({length: STEPS + 1}, (_, k) => low + ((high - low) * k) / STEPS);
  return [...even, ...(measured ?? [])]
    .sort((a, b) => a - b)
    .map(lg => {
      const at = [curve, curve.referenceTemperature, 10 ** lg] as const;
      const {storage, loss} = complexModulus(...at);
      return {
        lg,
        modulus: of(modulusNorm(...at)),
        phase: (phaseAngle(...at) * 180) / Math.PI,
        storage: of(storage),
        loss: of(loss),
        measured: measured !== null && lg >= measured[0] && lg <= measured[1],
      };
    });
}

export interface Reading {
  readonly series: number; // of its temperature, ascending
  readonly lg: number; // of the reduced frequency
  readonly modulus: number; // as shown, and so below
  readonly phase: number | null; // [°]
  readonly storage: number; // NaN without phase
  readonly loss: number;
}

/** Temperatures of the tests, ascending [°C]. */
export function testTemperatures(points: readonly ComplexModulusPoint[]): number[] {
  return [...new Set(points.map(p => p.temperature))].sort((a, b) => a - b);
}

export function readings({curve, points}: CurveView, {of}: Measure): Reading[] {
  const temperatures = testTemperatures(points);
  return points.map(({temperature, frequency, modulus, phase}) => ({
    series: temperatures.indexOf(temperature),
    lg: Math.log10(reducedFrequency(curve, temperature, frequency)),
    modulus: of(modulus),
    phase: phase === null ? null : (phase * 180) / Math.PI,
    storage: of(modulus) * Math.cos(phase ?? Number.NaN),
    loss: of(modulus) * Math.sin(phase ?? Number.NaN),
  }));
}

export interface ShiftPoint {
  readonly temperature: number; // [°C]
  readonly lg: number; // of the shift factor
  readonly tested: boolean; // between the temperatures of the tests, or there were none
}

/** The shift over the usual temperatures and those of the tests. */
export function shifts({curve, points}: CurveView): ShiftPoint[] {
  const temperatures = testTemperatures(points);
  const [cold, warm] = [
    Math.min(USUAL.temperatures[0], ...temperatures),
    Math.max(USUAL.temperatures[1], ...temperatures),
  ];
  return Array.from({length: SHIFT_STEPS + 1}, (_, k) => {
    const temperature = cold + ((warm - cold) * k) / SHIFT_STEPS;
    const tested = temperatures.length === 0 || (temperature >= temperatures[0] && temperature <= temperatures.at(-1)!);
    return {temperature, lg: shiftFactor(curve, temperature), tested};
  });
}

export const RELAXATION_TIMES = [-2, 8] as const; // lg s

export interface RelaxedPoint {
  readonly lg: number; // of the time [lg s]
  readonly modulus: number; // [Pa]
  readonly tested: boolean;
}

/** E(t) at one temperature [°C]. */
export function relaxed({curve, prony}: CurveView, temperature: number): RelaxedPoint[] {
  const [first, last] = RELAXATION_TIMES;
  return Array.from({length: STEPS + 1}, (_, k) => {
    const lg = first + ((last - first) * k) / STEPS;
    const time = 10 ** lg;
    const modulus = relaxationModulusAt(curve, prony, {time, temperature});
    const tested = relaxationBeyondTests(curve, {time, temperature, modulus})?.decades === 0;
    return {lg, modulus, tested};
  });
}
