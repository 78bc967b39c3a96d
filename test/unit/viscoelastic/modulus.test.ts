import {expect, test} from "vitest";
import {complexModulus, type MasterCurve, modulusNorm, phaseAngle} from "../../../src/engine/viscoelastic/index.ts";
import {sigmoid, twoSprings} from "./curves.ts";

test("norm and phase are those of the complex modulus", () => {
  for (const curve of [sigmoid, twoSprings])
    for (const [temperature, frequency] of [
      [0, 25],
      [15, 1],
      [40, 0.1],
    ]) {
      const {storage, loss} = complexModulus(curve, temperature, frequency);
      expect(modulusNorm(curve, temperature, frequency)).toBeCloseTo(Math.hypot(storage, loss), 3);
      expect(Math.tan(phaseAngle(curve, temperature, frequency))).toBeCloseTo(loss / storage, 12);
    }
});

test("the sigmoid lies between its shelves, half way up where the exponent is zero", () => {
  expect(modulusNorm(sigmoid, 15, 1e-30) / 10 ** 8.1).toBeCloseTo(1, 5);
  expect(modulusNorm(sigmoid, 15, 1e30) / 10 ** 10.45).toBeCloseTo(1, 6);
  expect(Math.log10(modulusNorm(sigmoid, 15, 10 ** (-0.8 / 0.55)))).toBeCloseTo(8.1 + 2.35 / 2, 12);
});

// Central difference of lg|E*|: the slope of the curve, π/2 times which is the phase (Booij & Thoone 1982).
test("the phase of the sigmoid is its slope", () => {
  for (const frequency of [1e-3, 1, 1e3]) {
    const lg = (factor: number): number => Math.log10(modulusNorm(sigmoid, 15, frequency * factor));
    const slope = (lg(1.001) - lg(1 / 1.001)) / (2 * Math.log10(1.001));
    expect(phaseAngle(sigmoid, 15, frequency)).toBeCloseTo((Math.PI / 2) * slope, 6);
  }
});

// How good that is: 2S2P1D knows its phase, and by its slope it comes out within two degrees wherever asphalt is tested.
test("phase by the slope against the phase that belongs to the modulus", () => {
  for (let lg = -3; lg <= 5; lg++) {
    const at = (factor: number): number => Math.log10(modulusNorm(twoSprings, 15, 10 ** lg * factor));
    const slope = (at(1.01) - at(1 / 1.01)) / (2 * Math.log10(1.01));
    const off = (Math.PI / 2) * slope - phaseAngle(twoSprings, 15, 10 ** lg);
    expect(Math.abs(off * (180 / Math.PI))).toBeLessThan(2);
  }
});

// A dashpot in series carries no stress at rest: at low frequency E* = i·ω·E₀·β·τ, φ = 90°.
test("without static modulus it flows, without dashpot it follows the steeper power", () => {
  const flowing = {...twoSprings, model: {...twoSprings.model, staticModulus: 0}};
  const omega = 2 * Math.PI * 1e-12;
  expect(modulusNorm(flowing, 15, 1e-12) / (omega * 38e9 * 250 * 0.08)).toBeCloseTo(1, 2);
  expect(phaseAngle(flowing, 15, 1e-12)).toBeCloseTo(Math.PI / 2, 3);
  const parabolic: MasterCurve = {...flowing, model: {...flowing.model, beta: Infinity}};
  expect(phaseAngle(parabolic, 15, 1e-14)).toBeCloseTo((0.55 * Math.PI) / 2, 3);
});
