/** Uncertainty of inputs, and what it does to lives; knows nothing of pavements. Theory: docs/theory/risk.md. */
export {
  type Block,
  type Convergence,
  type ConvergencePlan,
  type ConvergenceStep,
  isBeyond,
  isSmall,
  runUntil,
  type Target,
} from "./convergence.ts";
export {quantileOf} from "./distribution.ts";
export {type DepthHistory, type Fan, fan} from "./fan.ts";
export {faultsOf, LARGEST_CUT, massCut} from "./faults.ts";
export {type Input, type InputMap, inputMap} from "./inputs.ts";
export {jointNormal} from "./joint.ts";
export {momentsOf} from "./moments.ts";
export {
  censoredAt,
  geometricMean,
  type LifeAtReliability,
  lifeAtReliability,
  type OrderedLives,
  orderedLives,
  type Ratio,
  type RatioQuantile,
  ratioOf,
  type Survival,
  survivalOf,
} from "./reliability.ts";
export {type ErrorSource, lifeOfReplicates, type Replicated, replicated, survivalOfReplicates} from "./replicates.ts";
export {MOST_SOBOL_DIMENSIONS, type PointKind, type PointPlan, points} from "./sampling.ts";
export {
  type BootstrapPlan,
  dominating,
  type GroupIndices,
  type SobolDesign,
  type SobolDesignPlan,
  type SobolIndices,
  singly,
  sobolDesign,
  sobolIndices,
} from "./sensitivity.ts";
export {type Tornado, type TornadoBar, type TornadoDesign, tornado, tornadoDesign} from "./tornado.ts";
export type {Bounded, Distribution, JointNormal, Moments, SampledLife, Truncation} from "./types.ts";
