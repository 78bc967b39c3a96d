/** Stiffness of asphalt over temperature and loading frequency. SI: Pa, Hz, s, °C, radians; lg is the decimal logarithm. */

/** One reading of a complex modulus test. */
export interface ComplexModulusPoint {
  readonly temperature: number; // [°C]
  readonly frequency: number; // [Hz]
  readonly modulus: number; // |E*| [Pa]
  readonly phase: number | null; // φ, by which strain lags behind stress [rad]; null when it was not measured
}

/** Storage and loss modulus: E* = E' + i·E''. */
export interface ComplexModulus {
  readonly storage: number; // E' [Pa]
  readonly loss: number; // E'' [Pa]
}

/** lg|E*| = δ + α/(1 + exp(β − γ·lg f_r)), f_r the reduced frequency in Hz and |E*| in Pa. */
export interface SigmoidModel {
  readonly kind: "sigmoid";
  readonly lowest: number; // δ, lg of the modulus at vanishing frequency [lg Pa]
  readonly span: number; // α [–], > 0
  readonly location: number; // β [–]
  readonly slope: number; // γ [–], > 0
}

/** E* = E₀₀ + (E₀ − E₀₀)/(1 + δ·(iωτ)^−k + (iωτ)^−h + (iωβτ)^−1), ω = 2πf_r: two springs, two parabolic elements, one dashpot. */
export interface TwoSpringsModel {
  readonly kind: "2S2P1D";
  readonly staticModulus: number; // E₀₀ [Pa], ≥ 0
  readonly glassyModulus: number; // E₀ [Pa]
  readonly delta: number; // δ [–]
  readonly k: number; // [–], 0 < k < h
  readonly h: number; // [–], h < 1
  readonly beta: number; // β, of the dashpot [–]; Infinity: none, the model of Huet and Sayegh
  readonly time: number; // τ at the reference temperature [s]
}

/** lg a_T, by which the curve at a temperature is shifted along lg frequency; f_r = f·a_T. */
export type TemperatureShift =
  | {readonly kind: "WLF"; readonly c1: number; readonly c2: number} // lg a_T = −C₁(T − T_r)/(C₂ + T − T_r); C₂ [K]
  | {readonly kind: "Arrhenius"; readonly activationEnergy: number} // [J/mol]
  | {
      /** lg a_T = c·(lg η(T) − lg η(T_r)), lg lg η = A + VTS·lg T with η in centipoise, T in degrees Rankine, η ≤ highest. */
      readonly kind: "viscosity";
      readonly intercept: number; // A [–]
      readonly susceptibility: number; // VTS [–], < 0
      readonly highest: number; // lg η is held there in the cold [lg cP]; Infinity: nowhere
      readonly factor: number; // c [–]
    };

/** What a curve was fitted to; beyond it values are extrapolated. */
export interface MeasuredRange {
  readonly temperature: readonly [number, number]; // [°C]
  readonly reducedFrequency: readonly [number, number]; // [Hz]
}

export interface MasterCurve {
  readonly model: SigmoidModel | TwoSpringsModel;
  readonly shift: TemperatureShift;
  readonly referenceTemperature: number; // T_r [°C]
  readonly measured: MeasuredRange | null; // null: the parameters were given or estimated, not fitted
}
