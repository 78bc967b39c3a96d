/** Distributions, random streams, straight lines with and without censored observations. Theory: docs/theory/laboratory.md. */
export {
  type CensoredLine,
  type CensoredPoint,
  censoredLine,
  type ProfileTarget,
  profileInterval,
} from "./censored.ts";
export {
  chiSquareQuantile,
  fCdf,
  fQuantile,
  normalCdf,
  normalDensity,
  normalQuantile,
  tCdf,
  tQuantile,
  twoSidedT,
} from "./distributions.ts";
export {
  type BandKind,
  coefficientInterval,
  type Interval,
  interceptCovariance,
  inverseInterval,
  type LineEstimate,
  lineAt,
  lineBand,
  lineVariance,
} from "./line.ts";
export {type Minimum, minimize} from "./minimize.ts";
export {type RandomStream, randomStream} from "./random.ts";
export {
  type Diagnosis,
  diagnose,
  type LackOfFit,
  lackOfFit,
  type StraightLine,
  straightLine,
} from "./regression.ts";
export {type Factored, factored} from "./spd.ts";
