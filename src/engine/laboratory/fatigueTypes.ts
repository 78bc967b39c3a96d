import type {CensoredLine, Diagnosis, Interval, LackOfFit, LineEstimate, StraightLine} from "../statistics/index.ts";

/** Something a reader of the result should know. Codes are stable; texts are for people. */
export interface Finding {
  readonly code: FindingCode;
  readonly text: string;
  readonly specimens: readonly string[]; // concerned, by name; empty: the programme as a whole
}

export type FindingCode =
  | "set-aside"
  | "run-outs"
  | "few-failures"
  | "one-level"
  | "no-likelihood"
  | "not-falling"
  | "strain-extrapolated"
  | "curved"
  | "outlier"
  | "high-leverage"
  | "influential"
  | "few-levels"
  | "few-specimens"
  | "few-beyond-million"
  | "few-below-million"
  | "lives-out-of-range"
  | "mixed-temperatures"
  | "mixed-frequencies"
  | "starts-late"
  | "starts-with-jump"
  | "displacement-drifts"
  | "no-common-strains";

/** One specimen in the plane of strain and life. */
export interface FatiguePoint {
  readonly specimen: number; // index in the programme
  readonly name: string;
  readonly strain: number; // largest in the specimen, amplitude [–]
  readonly cycles: number; // to failure; of a run-out, to its stop
  readonly runOut: boolean;
  readonly setAside: string | null;
}

export interface StrainLevel {
  readonly strain: number; // mean of its points [–]
  readonly points: readonly number[]; // indices in the material's points, none set aside
}

export interface PointDiagnosis extends Diagnosis {
  readonly point: number; // index in the material's points
  readonly outlier: boolean;
  readonly highLeverage: boolean;
  readonly influential: boolean;
}

/** What both lines have in common: lg N = A₀ + A₁·lg ε, N = C·ε^(−k). */
export interface FatigueLaw {
  readonly k: number; // −A₁ [–]
  readonly strainAtMillion: number | null; // ε₆, where the line gives 10⁶ cycles [–]; null when it does not fall
}

/** Least squares over the failed specimens, as EN 12697-24 has it. */
export interface StandardLine extends StraightLine, FatigueLaw {
  readonly exponent: number; // b = 1/A₁, of ε = ε₆·(N/10⁶)^b [–]
  readonly millionError: number | null; // S₀, standard error of lg N at ε₆ [–]
  readonly strainError: number | null; // Δε₆, half width at two standard errors [–]
  readonly lackOfFit: LackOfFit | null;
  readonly diagnoses: readonly PointDiagnosis[];
}

export interface FatigueIntervals {
  readonly probability: number;
  readonly strainAtMillion: Interval | null; // null when it has no end or the line does not fall [–]
  readonly k: Interval;
}

/** Maximum likelihood over failed specimens and run-outs. Without run-outs the same as least squares. */
export interface LikelihoodLine extends CensoredLine, FatigueLaw {
  readonly intervals: readonly FatigueIntervals[];
}

/** Cycles against strain, one array an edge. */
export interface FatigueBand {
  readonly probability: number;
  readonly strains: Float64Array; // [–]
  readonly cycles: Float64Array; // of the line, the median life
  readonly confidenceLow: Float64Array; // of the line at this strain
  readonly confidenceHigh: Float64Array;
  readonly predictionLow: Float64Array; // of one more specimen
  readonly predictionHigh: Float64Array;
}

export interface MaterialFatigue {
  readonly material: string;
  readonly points: readonly FatiguePoint[]; // all, in the programme's order
  readonly levels: readonly StrainLevel[]; // ascending
  readonly testedStrains: Interval | null; // of points not set aside; null: there are none [–]
  readonly standard: StandardLine | null;
  readonly likelihood: LikelihoodLine | null;
  /** The line to work with: of likelihood, or the standard one when that has no maximum. */
  readonly line: LineEstimate | null;
  readonly bands: readonly FatigueBand[]; // about `line`, over the tested strains
  readonly findings: readonly Finding[];
}
