import {expect, test} from "vitest";
import {loadingFrequency, loadingTime} from "../../../src/engine/viscoelastic/index.ts";

// Brown 1973 (from memory), by hand: lg t = 0.0005·100 − 0.2 − 0.94·lg 60 = −1.82147, t = 0.015085 s, 1/(2πt) = 10.55 Hz.
test("60 km/h at 100 mm", () => {
  const wheel = {speed: 60 / 3.6, depth: 0.1};
  expect(loadingTime(wheel)).toBeCloseTo(0.015085, 6);
  expect(loadingFrequency(wheel)).toBeCloseTo(10.55, 2);
});

test("slower and deeper is longer", () => {
  expect(loadingFrequency({speed: 5, depth: 0.1})).toBeLessThan(loadingFrequency({speed: 20, depth: 0.1}));
  expect(loadingFrequency({speed: 20, depth: 0.3})).toBeLessThan(loadingFrequency({speed: 20, depth: 0.05}));
  expect(loadingFrequency({speed: 20, depth: 0})).toBeGreaterThan(0);
});

test("bounds", () => {
  expect(() => loadingTime({speed: 0.2, depth: 0.1})).toThrow(/speed: got 0.2/);
  expect(() => loadingTime({speed: 60, depth: 0.1})).toThrow(/speed: got 60/);
  expect(() => loadingTime({speed: Number.NaN, depth: 0.1})).toThrow(/speed: got NaN/);
  expect(() => loadingTime({speed: 20, depth: 100})).toThrow(/depth: got 100, need 0 to 1 \[m\]/);
  expect(() => loadingTime({speed: 20, depth: -0.01})).toThrow(/depth: got -0.01/);
});
