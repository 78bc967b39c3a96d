import type {MasterCurve} from "./types.ts";

export interface FitOptions {
  readonly model: "sigmoid" | "2S2P1D" | "Huet-Sayegh";
  readonly shift: "WLF" | "Arrhenius";
  readonly referenceTemperature: number; // [°C]
}

/** Curve less reading, of one point. */
export interface PointResidual {
  readonly lgModulus: number; // lg|E*| [–]
  readonly phase: number | null; // [rad]; null where it was not measured
}

export interface MasterCurveFit {
  readonly curve: MasterCurve; // with the range of the readings
  readonly residuals: readonly PointResidual[]; // one a reading, in their order
  readonly rmsModulus: number; // root mean square of ln|E*|, curve less reading [–]
  readonly rmsPhase: number | null; // of φ [rad]; null when no phase was measured
  readonly determination: number; // R² of lg|E*| [–]
  readonly errorRatio: number | null; // S_e/S_y of lg|E*| [–]; null when there are no more readings than parameters
  readonly iterations: number;
  readonly warnings: readonly string[];
}
