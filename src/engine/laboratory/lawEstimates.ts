/** Fitted laws as an engineer states them, with intervals. */
import {exp, ln} from "../numeric/index.ts";
import {twoSidedT} from "../statistics/index.ts";
import type {BeamFit} from "./beamFit.ts";
import {REFERENCE_STRAIN, type StrainRange} from "./beamGrowth.ts";

export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** dc/dN = A·ε^n of one material. */
export interface LawEstimate {
  readonly material: string;
  readonly rate: Interval; // advance per cycle at REFERENCE_STRAIN [m]
  readonly exponent: Interval; // n [–]
  readonly correlation: number; // of ln rate and n [–]
  readonly logCoefficient: number; // ln A, A at unit strain [ln m]
  /** Of ln A and n: variances and covariance. */
  readonly covariance: {readonly logCoefficient: number; readonly exponent: number; readonly both: number};
  /** Advance per cycle over strains, from a third below those of the beams to a third above [m]. */
  readonly curve: {
    readonly strain: Float64Array; // [–]
    readonly rate: Float64Array;
    readonly low: Float64Array;
    readonly high: Float64Array;
  };
  readonly met: readonly [number, number]; // strains of the beams [–]
}

const POINTS = 25;

/** @param level of confidence, such as 0.9; intervals by Student's t */
export function lawEstimates(fit: BeamFit, strains: readonly StrainRange[], level: number): LawEstimate[] {
  const t = twoSidedT(level, fit.degrees);
  const size = fit.parameters.length;
  return fit.materials.map((material, k): LawEstimate => {
    const [i, j] = [2 * k, 2 * k + 1];
    const [logRate, n] = [fit.parameters[i], fit.parameters[j]];
    const [rr, rn, nn] = [fit.covariance[i * size + i], fit.covariance[i * size + j], fit.covariance[j * size + j]];
    const {low, high} = strains[k];
    const [from, to] = [low / 1.5, high * 1.5];
    const strain = Float64Array.from({length: POINTS}, (_, p) => from * (to / from) ** (p / (POINTS - 1)));
    // ln rate at ε is a sum of the two parameters: so is its variance.
    const at = (s: number, side: -1 | 0 | 1): number => {
      const x = ln(s / REFERENCE_STRAIN);
      return exp(logRate + n * x + side * t * Math.sqrt(Math.max(0, rr + 2 * x * rn + x * x * nn)));
    };
    const L = ln(REFERENCE_STRAIN); // ln A = ln rate − n·L
    return {
      material,
      rate: {value: at(REFERENCE_STRAIN, 0), low: at(REFERENCE_STRAIN, -1), high: at(REFERENCE_STRAIN, 1)},
      correlation: rn / Math.sqrt(rr * nn),
      exponent: {value: n, low: n - t * Math.sqrt(nn), high: n + t * Math.sqrt(nn)},
      logCoefficient: logRate - n * L,
      covariance: {logCoefficient: rr - 2 * L * rn + L * L * nn, exponent: nn, both: rn - L * nn},
      curve: {
        strain,
        rate: strain.map(s => at(s, 0)),
        low: strain.map(s => at(s, -1)),
        high: strain.map(s => at(s, 1)),
      },
      met: [low, high],
    };
  });
}
