import {expect, test} from "vitest";
import {extrapolated, type MasterCurve, reducedFrequency, shiftFactor} from "../../../src/engine/viscoelastic/index.ts";
import {sigmoid} from "./curves.ts";

const arrhenius: MasterCurve = {...sigmoid, shift: {kind: "Arrhenius", activationEnergy: 2e5}};
// A and VTS of a paving bitumen, from memory.
const viscosity: MasterCurve = {
  ...sigmoid,
  shift: {kind: "viscosity", intercept: 10.98, susceptibility: -3.68, highest: Infinity, factor: 1.25588},
};

test("no shift at the reference temperature, slower above it", () => {
  for (const curve of [sigmoid, arrhenius, viscosity]) {
    expect(shiftFactor(curve, 15)).toBeCloseTo(0, 14);
    expect(shiftFactor(curve, 14)).toBeGreaterThan(0);
    expect(shiftFactor(curve, 40)).toBeLessThan(shiftFactor(curve, 16));
    expect(reducedFrequency(curve, 30, 10)).toBeCloseTo(10 * 10 ** shiftFactor(curve, 30), 12);
  }
});

// The WLF equation keeps its form under another reference: C₂' = C₂ + T_r' − T_r, C₁'·C₂' = C₁·C₂ (Ferry 1980, chapter 11).
test("a WLF shift may be written for any reference temperature", () => {
  const c2 = 160 + 10;
  const moved: MasterCurve = {...sigmoid, referenceTemperature: 25, shift: {kind: "WLF", c1: (19 * 160) / c2, c2}};
  for (const temperature of [-10, 0, 20, 45])
    expect(shiftFactor(moved, temperature)).toBeCloseTo(
      shiftFactor(sigmoid, temperature) - shiftFactor(sigmoid, 25),
      12,
    );
});

// lg lg η = 10.98 − 3.68·lg 527.67 = 0.9617 at 20 °C, by hand: lg η = 9.156 in centipoise, 1.4e7 poise.
test("the viscosity shift follows the viscosity", () => {
  const lg = (rankine: number): number => 10 ** (10.98 - 3.68 * Math.log10(rankine));
  expect(lg(527.67)).toBeCloseTo(9.156, 2);
  expect(shiftFactor(viscosity, 20)).toBeCloseTo(1.25588 * (lg(527.67) - lg(518.67)), 9);
});

test("no temperature at the pole or at absolute zero, no frequency of zero", () => {
  expect(() => shiftFactor(sigmoid, -145)).toThrow(/temperature: got -145, need > -145 °C, where the WLF equation/);
  expect(() => shiftFactor(arrhenius, -273.15)).toThrow(/temperature: got -273.15, need finite, > -273.15 °C/);
  expect(() => shiftFactor(arrhenius, Number.NaN)).toThrow(/temperature: got NaN/);
  expect(() => reducedFrequency(sigmoid, 15, 0)).toThrow(/frequency: got 0, need finite, > 0 \[Hz\]/);
});

test("extrapolated beyond temperature or reduced frequency, not at their ends", () => {
  const measured = {
    temperature: [0, 30],
    reducedFrequency: [reducedFrequency(sigmoid, 30, 0.1), reducedFrequency(sigmoid, 0, 25)],
  } as const;
  const curve = {...sigmoid, measured};
  expect(extrapolated(curve, 30, 0.1)).toBe(false);
  expect(extrapolated(curve, 0, 25)).toBe(false);
  expect(extrapolated(curve, 0.1 + 0.2 - 0.3, 25)).toBe(false);
  expect(extrapolated(curve, 30, 0.09)).toBe(true);
  expect(extrapolated(curve, 0, 26)).toBe(true);
  expect(extrapolated(curve, 15, 0.003)).toBe(false); // never tested there, but the curve was
  expect(extrapolated(curve, 31, 10)).toBe(true);
  expect(extrapolated(curve, -1, 0.1)).toBe(true);
  expect(extrapolated(sigmoid, 100, 1)).toBe(false);
});

test("viscosity is held at its highest in the cold", () => {
  const shift = {kind: "viscosity", intercept: 10.98, susceptibility: -3.68, highest: 12, factor: 1} as const;
  const held = {shift, referenceTemperature: 15};
  expect(shiftFactor(held, -30)).toBe(shiftFactor(held, -40));
  expect(shiftFactor(held, 20)).toBe(shiftFactor({...held, shift: {...shift, highest: Infinity}}, 20));
});
