import {expect, test} from "vitest";
import {type EstimatedMix, estimatedCurve, modulusNorm, viscosityLine} from "../../../src/engine/viscoelastic/index.ts";

const mix: EstimatedMix = {
  retained19: 0.05,
  retained9_5: 0.25,
  retained4_75: 0.45,
  passing0_075: 0.05,
  airVoids: 0.06,
  effectiveBinder: 0.105,
  binder: {kind: "line", intercept: 10.98, susceptibility: -3.68},
  referenceTemperature: 21.1,
};

/** The predictive equation written out once more, in its own units: |E*| in Pa. */
function writtenOut(temperature: number, frequency: number): number {
  const lgCentipoise = 10 ** (10.98 - 3.68 * Math.log10((temperature + 273.15) * 1.8));
  const lgEta = Math.min(lgCentipoise, Math.log10(2.7e12)) - 8; // 1e6 poise, held at 2.7e10 poise
  const lowest = 3.750063 + 0.02932 * 5 - 0.001767 * 25 - 0.002841 * 45 - 0.058097 * 6 - (0.802208 * 10.5) / (10.5 + 6);
  const span = 3.871977 - 0.0021 * 45 + 0.003958 * 25 - 0.000017 * 625 + 0.00547 * 5;
  const exponent = -0.603313 - 0.313351 * Math.log10(frequency) - 0.393532 * lgEta;
  return 6894.757293168361 * 10 ** (lowest + span / (1 + Math.exp(exponent)));
}

test("as a master curve it gives what the equation gives, at any reference temperature", () => {
  for (const referenceTemperature of [21.1, 0, 40, -15]) {
    const {curve} = estimatedCurve({...mix, referenceTemperature});
    for (const temperature of [-10, 4.4, 21.1, 37.8, 54.4])
      for (const frequency of [0.1, 10, 25])
        expect(modulusNorm(curve, temperature, frequency) / writtenOut(temperature, frequency)).toBeCloseTo(1, 10);
  }
});

test("stiffer binder, fewer voids, less binder: stiffer", () => {
  const at20 = (changed: Partial<EstimatedMix>): number =>
    modulusNorm(estimatedCurve({...mix, ...changed}).curve, 20, 10);
  expect(at20({airVoids: 0.03})).toBeGreaterThan(at20({}));
  expect(at20({effectiveBinder: 0.08})).toBeGreaterThan(at20({}));
  const hard = at20({binder: {kind: "penetration", penetration: 15e-4, softeningPoint: 65}});
  const soft = at20({binder: {kind: "penetration", penetration: 150e-4, softeningPoint: 41}});
  expect(hard / soft).toBeGreaterThan(3);
});

// By hand: lg Pen = 1.7782, lg η = 10.5012 − 4.0188 + 0.0123 = 6.4947; 13,000 poise = 10^4.1139.
test("a line through penetration and softening point", () => {
  const line = viscosityLine({kind: "penetration", penetration: 60e-4, softeningPoint: 50});
  const lgPoise = (celsius: number): number =>
    10 ** (line.intercept + line.susceptibility * Math.log10(1.8 * (celsius + 273.15))) - 2;
  expect(lgPoise(25)).toBeCloseTo(6.4947, 3);
  expect(lgPoise(50)).toBeCloseTo(Math.log10(13_000), 10);
});

test("warnings outside of usual mixtures, and of the cold", () => {
  expect(estimatedCurve(mix).warnings).toEqual([expect.stringMatching(/^Below -\d °C .* 2.7e10 poise/)]);
  const odd = {
    ...mix,
    retained4_75: 0.85,
    airVoids: 0.2,
    binder: {kind: "penetration", penetration: 60e-4, softeningPoint: 80} as const,
  };
  const text = estimatedCurve(odd).warnings.join("\n");
  expect(text).toMatch(/^85 % retained on 4.75 mm: usual for dense asphalt are 20 % to 75 %/);
  expect(text).toMatch(/20 % air voids/);
  expect(text).toMatch(/Penetration index 4.\d: plain bitumen/);
  const slip = estimatedCurve({...mix, binder: {kind: "line", intercept: 9, susceptibility: -3.68}});
  expect(slip.warnings.join()).toMatch(/A and VTS give a viscosity of 10\^-1.9 poise at 25 °C/);
});

test("no mixture", () => {
  const from = (changed: Partial<EstimatedMix>) => () => estimatedCurve({...mix, ...changed});
  expect(from({retained9_5: 0.01})).toThrow(/retained9_5: got 0.01, need 0.05, as on the coarser sieve, to 1/);
  expect(from({passing0_075: 0.6})).toThrow(/passing0_075: got 0.6/);
  expect(from({airVoids: 6})).toThrow(/airVoids: got 6, need < 1 together with the binder/);
  expect(from({effectiveBinder: 0})).toThrow(/effectiveBinder: got 0/);
  expect(from({binder: {kind: "line", intercept: 10, susceptibility: 3}})).toThrow(/binder.susceptibility: got 3/);
  expect(from({binder: {kind: "penetration", penetration: 60e-4, softeningPoint: 20}})).toThrow(
    /softer at the softening/,
  );
  expect(from({binder: {kind: "penetration", penetration: 0, softeningPoint: 50}})).toThrow(
    /binder.penetration: got 0/,
  );
});
