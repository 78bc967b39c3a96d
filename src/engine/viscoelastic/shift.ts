import {InputError, requirePositive} from "../errors.ts";
import type {MasterCurve, TemperatureShift} from "./types.ts";

export const KELVIN = 273.15; // 0 °C [K]
export const GAS_CONSTANT = 8.31446261815324; // [J/(mol·K)], exact by the definition of the units of 2019
const RANKINE = 1.8; // degrees Rankine in a kelvin
/** Two ways to the same number may differ by this [–]: readings at the very end of a range are within it. */
const ROUNDING = 1e-9;

/**
 * lg a_T of a curve [–]: 0 at its reference temperature, negative above. f_r = f·a_T, and a time t is t/a_T at the reference.
 *
 *   WLF        −C₁·(T − T_r)/(C₂ + T − T_r), for T > T_r − C₂
 *   Arrhenius  E_a/(R·ln 10)·(1/T − 1/T_r), T in K
 *   viscosity  c·(lg η(T) − lg η(T_r)), lg lg η = A + VTS·lg T, T in °R, η held at its highest
 *
 * @param temperature [°C]
 * @throws InputError "domain" at absolute zero and below, and for WLF at its pole T_r − C₂ and below
 * @source Williams, Landel & Ferry 1955 (from memory); viscosity: Andrei, Witczak & Mirza 1999 (from memory)
 */
export function shiftFactor(
  {shift, referenceTemperature}: Pick<MasterCurve, "shift" | "referenceTemperature">,
  temperature: number,
): number {
  requireTemperature("temperature", temperature);
  if (shift.kind === "viscosity") {
    const held = (at: number): number => Math.min(lgViscosity(shift, at), shift.highest);
    return shift.factor * (held(temperature) - held(referenceTemperature));
  }
  const warmer = temperature - referenceTemperature;
  if (shift.kind === "Arrhenius") {
    const [hot, reference] = [temperature + KELVIN, referenceTemperature + KELVIN];
    return (-shift.activationEnergy / (GAS_CONSTANT * Math.LN10)) * (warmer / (hot * reference));
  }
  if (!(shift.c2 + warmer > 0)) {
    const pole = referenceTemperature - shift.c2;
    throw new InputError("domain", "temperature", temperature, `> ${pole} °C, where the WLF equation has its pole`);
  }
  return (-shift.c1 * warmer) / (shift.c2 + warmer);
}

/**
 * lg of the binder's viscosity in centipoise: lg η = 10^(A + VTS·lg T), T in degrees Rankine.
 *
 * @param temperature [°C]
 * @source ASTM D2493 (from memory)
 */
export function lgViscosity(
  line: Pick<TemperatureShift & {kind: "viscosity"}, "intercept" | "susceptibility">,
  temperature: number,
): number {
  return 10 ** (line.intercept + line.susceptibility * lgRankine(temperature));
}

/** lg of a temperature [°C] in degrees Rankine. */
export function lgRankine(temperature: number): number {
  return Math.log10(RANKINE * (temperature + KELVIN));
}

/** f_r = f·a_T [Hz], at which the curve of the reference temperature has the modulus of this temperature and frequency. */
export function reducedFrequency(
  curve: Pick<MasterCurve, "shift" | "referenceTemperature">,
  temperature: number,
  frequency: number,
): number {
  requirePositive("frequency", frequency, "Hz");
  return frequency * 10 ** shiftFactor(curve, temperature);
}

/**
 * Does a curve say more here than was measured: is the temperature, or the reduced frequency, out of the range of the readings?
 * False for a curve of given or estimated parameters, which has no such range.
 */
export function extrapolated(curve: MasterCurve, temperature: number, frequency: number): boolean {
  if (curve.measured === null) return false;
  const [coldest, warmest] = curve.measured.temperature;
  const [slowest, fastest] = curve.measured.reducedFrequency;
  const reduced = reducedFrequency(curve, temperature, frequency);
  const slack = ROUNDING * (KELVIN + warmest);
  if (temperature < coldest - slack || temperature > warmest + slack) return true;
  return reduced < slowest * (1 - ROUNDING) || reduced > fastest * (1 + ROUNDING);
}

/** @throws InputError "domain" unless the temperature [°C] is finite and above absolute zero */
export function requireTemperature(path: string, temperature: number): void {
  if (!(temperature > -KELVIN && temperature < Infinity))
    throw new InputError("domain", path, temperature, `finite, > ${-KELVIN} °C`);
}
