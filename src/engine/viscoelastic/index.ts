/** Stiffness of asphalt over temperature and loading frequency. Theory: docs/theory/viscoelastic.md. */
export {
  type BinderViscosity,
  type EstimatedCurve,
  type EstimatedMix,
  estimatedCurve,
  type ViscosityLine,
  viscosityLine,
} from "./estimate.ts";
export {fitMasterCurve} from "./fit.ts";
export type {FitOptions, MasterCurveFit, PointResidual} from "./fitTypes.ts";
export {loadingFrequency, loadingTime, type PassingWheel} from "./loading.ts";
export {complexModulus, modulusNorm, phaseAngle} from "./modulus.ts";
export {
  type ModulusReading,
  type PronySeries,
  type PronyTerm,
  pronyModulus,
  pronySeries,
  pronyThrough,
  type RelaxationSeries,
  relaxationModulus,
  relaxationModulusAt,
} from "./prony.ts";
export {extrapolated, reducedFrequency, shiftFactor} from "./shift.ts";
export type {
  ComplexModulus,
  ComplexModulusPoint,
  MasterCurve,
  MeasuredRange,
  SigmoidModel,
  TemperatureShift,
  TwoSpringsModel,
} from "./types.ts";
