export type {Input} from "./inputs.ts";

/** What is kept of a distribution: values from `low` to `high`, either of which may be infinite. */
export interface Truncation {
  readonly low: number;
  readonly high: number;
}

/** What a distribution is described by; values have the unit of the quantity. Without spread it is its one value. */
export type Distribution = (
  | {readonly kind: "constant"; readonly value: number}
  | {readonly kind: "normal"; readonly mean: number; readonly deviation: number}
  | {
      readonly kind: "lognormal";
      readonly median: number; // > 0
      readonly coefficientOfVariation: number; // standard deviation over mean, before any truncation [–]
    }
  | {readonly kind: "uniform"; readonly low: number; readonly high: number}
  | {readonly kind: "triangular"; readonly low: number; readonly mode: number; readonly high: number}
  | {readonly kind: "discrete"; readonly values: readonly number[]; readonly weights: readonly number[]} // any sum > 0
  | {readonly kind: "sample"; readonly values: readonly number[]} // measured, each equally likely
) & {readonly truncated?: Truncation};

export interface Moments {
  readonly mean: number;
  readonly deviation: number; // standard deviation
}

/** Several normal quantities that vary together, such as ln A and n of a growth law. */
export interface JointNormal {
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[]; // symmetric, positive definite
}

/** A life, or what is known of it: a censored one is longer than `years`. */
export interface SampledLife {
  readonly years: number; // [years]
  readonly censored: boolean;
}

/** What is known of a number: it lies from `low` to `high`. Known exactly when they are equal; high may be Infinity. */
export interface Bounded {
  readonly low: number;
  readonly high: number;
}
