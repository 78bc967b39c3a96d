/** Layer moduli from deflections of the surface. SI; deflections downward positive. */

/** A modulus that is known, or one to be found between bounds. */
export type LayerModulus =
  | {readonly kind: "fixed"; readonly value: number} // [Pa]
  | {readonly kind: "unknown"; readonly start: number; readonly low: number; readonly high: number}; // [Pa]

export interface BowlLayer {
  readonly name: string;
  readonly thickness: number; // [m]; Infinity for the last on base "half-space"
  readonly poisson: number; // ν [–], 0 to 0.5
  readonly modulus: LayerModulus;
}

/** One fall of the weight: peak deflections under one peak pressure. */
export interface Drop {
  readonly pressure: number; // mean under the plate [Pa]
  readonly deflections: readonly number[]; // by sensor [m]
}

export interface BowlTest {
  readonly radius: number; // of the plate [m]
  readonly offsets: readonly number[]; // of the sensors from the plate's centre, ascending [m]
  readonly drops: readonly Drop[];
  /** Standard deviation of one reading: the larger of a share of it and a length. */
  readonly accuracy: {readonly relative: number /* [–] */; readonly absolute: number /* [m] */};
  readonly layers: readonly BowlLayer[]; // from the surface down, fully bonded
  readonly base: "half-space" | "rigid"; // rigid: rough, below the last layer
  readonly probability: number; // of intervals [–]
}

/** One sensor: mean of the drops, each brought to their mean pressure. */
export interface Sensor {
  readonly offset: number; // [m]
  readonly measured: number; // [m]
  readonly repeatError: number | null; // standard error of that mean from drop to drop [m]; null with one drop
  readonly deviation: number; // σ by which it is weighed, of accuracy and repetition [m]
  readonly fitted: number; // [m]
  readonly surfaceModulus: number; // E₀, of the half-space with the measured deflection [Pa]
  readonly fittedSurfaceModulus: number; // the same of the fitted one [Pa]
}

/** Null where the interval does not end within the range searched: the bowl knows no bound to that side. */
export interface OpenInterval {
  readonly low: number | null;
  readonly high: number | null;
}

export interface FittedLayer {
  readonly name: string;
  readonly modulus: number; // [Pa]
  readonly fixed: boolean; // given, not found
  readonly atBound: "low" | "high" | null; // the best fit lies there or beyond
  readonly interval: OpenInterval | null; // by the profile of the sum of squares [Pa]; null when given
  readonly linear: number | null; // standard error of ln E by the Jacobian [–]; null when given or at a bound
}

/** A product of powers of the unknown moduli, ΠE^weight, that the bowl determines independently of the others. */
export interface Combination {
  readonly weights: readonly number[]; // by unknown, of unit length; eigenvector of JᵀJ [–]
  readonly factor: number; // its interval is from 1/factor to factor times the fitted one [–]
}

/** A set of moduli and how well it fits. */
export interface Solution {
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly rms: number; // relative [–]
}

export type BowlWarning =
  | {readonly code: "thin-layer"; readonly layer: number; readonly thickness: number /* [m] */}
  | {readonly code: "at-bound"; readonly layer: number; readonly side: "low" | "high"}
  | {readonly code: "wide-interval"; readonly layer: number; readonly ratio: number /* of its ends; Infinity: open */}
  | {readonly code: "other-solutions"; readonly count: number}
  | {readonly code: "no-scatter"} // as many unknowns as sensors
  | {
      readonly code: "misfit";
      readonly scatter: number; // in stated deviations
      readonly worst: number; // sensor
      readonly systematic: boolean; // residuals in long runs of one sign
    }
  | {readonly code: "stiff-bottom"; readonly rise: number; readonly from: number /* offset of the lowest E₀ [m] */}
  | {readonly code: "load-dependent"; readonly ratio: number; readonly low: number; readonly high: number /* [Pa] */};

export interface BowlResult {
  readonly test: BowlTest;
  readonly pressure: number; // that of `measured`, mean of the drops [Pa]
  readonly sensors: readonly Sensor[];
  readonly layers: readonly FittedLayer[];
  readonly unknowns: readonly number[]; // layers whose modulus was found and is not at a bound
  readonly correlation: readonly (readonly number[])[]; // of ln E, by unknown [–]
  readonly combinations: readonly Combination[]; // the best known first
  /** Ends of the interval of the modulus known worst, all others fitted anew: what the bowl takes for equal. */
  readonly alternatives: {readonly layer: number; readonly low: Solution; readonly high: Solution} | null;
  readonly others: readonly Solution[]; // distinct minima within the noise, from other starts
  readonly rms: number; // relative residual [–]
  readonly scatter: number | null; // s, root mean square of residuals over σ by degrees of freedom [–]; null without any
  readonly degrees: number; // of freedom
  readonly starts: number;
  readonly evaluations: number; // bowls computed
  readonly residual: number; // of the quadrature at the solution [–]
  readonly warnings: readonly BowlWarning[];
}
