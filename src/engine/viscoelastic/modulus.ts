import {reducedFrequency} from "./shift.ts";
import type {ComplexModulus, MasterCurve, SigmoidModel, TwoSpringsModel} from "./types.ts";

/**
 * E* of the mixture. The model 2S2P1D gives it as it is. The sigmoid is of |E*| only; its phase is the slope of the curve,
 *
 *   φ ≈ (π/2)·d lg|E*|/d lg f_r
 *
 * which is an approximation: exact for a power law, a few degrees off where the slope changes fast.
 *
 * @param temperature [°C]
 * @param frequency   [Hz], > 0
 * @source Olard & Di Benedetto 2003 (2S2P1D); Booij & Thoone 1982 (phase); both from memory
 */
export function complexModulus(curve: MasterCurve, temperature: number, frequency: number): ComplexModulus {
  return modulusOf(curve.model, reducedFrequency(curve, temperature, frequency));
}

/** |E*| [Pa] */
export function modulusNorm(curve: MasterCurve, temperature: number, frequency: number): number {
  const reduced = reducedFrequency(curve, temperature, frequency);
  if (curve.model.kind === "sigmoid") return 10 ** lgSigmoid(curve.model, reduced);
  const {storage, loss} = twoSprings(curve.model, reduced);
  return Math.hypot(storage, loss);
}

/** φ [rad], by which strain lags behind stress; for the sigmoid an approximation, see `complexModulus`. */
export function phaseAngle(curve: MasterCurve, temperature: number, frequency: number): number {
  const {storage, loss} = complexModulus(curve, temperature, frequency);
  return Math.atan2(loss, storage);
}

/** E* at a reduced frequency [Hz]. */
export function modulusOf(model: MasterCurve["model"], reduced: number): ComplexModulus {
  if (model.kind === "2S2P1D") return twoSprings(model, reduced);
  const norm = 10 ** lgSigmoid(model, reduced);
  const phase = (Math.PI / 2) * sigmoidSlope(model, reduced);
  return {storage: norm * Math.cos(phase), loss: norm * Math.sin(phase)};
}

/** lg|E*| [lg Pa] of the sigmoid. */
export function lgSigmoid(model: Omit<SigmoidModel, "kind">, reduced: number): number {
  return model.lowest + model.span / (1 + Math.exp(model.location - model.slope * Math.log10(reduced)));
}

/** d lg|E*|/d lg f_r = α·γ·s·(1 − s), s = 1/(1 + exp(β − γ·lg f_r)). */
export function sigmoidSlope(model: Omit<SigmoidModel, "kind">, reduced: number): number {
  const part = 1 / (1 + Math.exp(model.location - model.slope * Math.log10(reduced)));
  return model.span * model.slope * part * (1 - part);
}

/** (iωτ)^−x = (ωτ)^−x·(cos(xπ/2) − i·sin(xπ/2)). */
function twoSprings(model: TwoSpringsModel, reduced: number): ComplexModulus {
  const angle = 2 * Math.PI * reduced * model.time; // ωτ
  const slow = model.delta * angle ** -model.k;
  const fast = angle ** -model.h;
  const real = 1 + slow * Math.cos((model.k * Math.PI) / 2) + fast * Math.cos((model.h * Math.PI) / 2);
  const imaginary =
    slow * Math.sin((model.k * Math.PI) / 2) + fast * Math.sin((model.h * Math.PI) / 2) + 1 / (angle * model.beta);
  const scale = (model.glassyModulus - model.staticModulus) / (real * real + imaginary * imaginary);
  return {storage: model.staticModulus + scale * real, loss: scale * imaginary};
}
