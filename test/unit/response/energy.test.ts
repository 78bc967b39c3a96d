import {expect, test} from "vitest";
import {energyReleaseRates, stressIntensities, type TipClosure} from "../../../src/engine/response/energy.ts";

const NONE = {force: [0, 0], displacement: [0, 0]} as const;
const still: TipClosure = {U: NONE, V: NONE, W: NONE, ahead: 1, behind: 1};

// Rybicki & Kanninen 1977 for a pair of nodes: G = (F₁·Δ₁ + F₂·Δ₂)/(2Δa), Δ = 2u on the half model.
test("one component at a time, corner and midside together", () => {
  const pair = {force: [3, 5], displacement: [0.2, 0.1]} as const;
  const expected = (3 * 0.4 + 5 * 0.2) / (2 * 0.5);
  const lengths = {ahead: 0.5, behind: 0.5};
  expect(energyReleaseRates({...still, ...lengths, U: pair})).toEqual({I: expected, II: 0, III: 0});
  expect(energyReleaseRates({...still, ...lengths, W: pair})).toEqual({I: 0, II: expected, III: 0});
  expect(energyReleaseRates({...still, ...lengths, V: pair})).toEqual({I: 0, II: 0, III: expected});
});

/**
 * Near field of mode I: σ = K/√(2πr) ahead, u = (4K/E')·√(r/(2π)) behind. Lumped so that the corner takes the whole force of
 * the element ahead, F = K·√(2Δa/π), and the face one element behind: F·u/Δa = 4K²/(πE') whatever the two lengths.
 */
test("the near field gives the same rate for any two lengths", () => {
  const [K, stiffness] = [7, 11];
  const rate = (ahead: number, behind: number): number => {
    const force = K * Math.sqrt((2 * ahead) / Math.PI);
    const u = ((4 * K) / stiffness) * Math.sqrt(behind / (2 * Math.PI));
    return energyReleaseRates({...still, U: {force: [force, 0], displacement: [u, 0]}, ahead, behind}).I;
  };
  for (const [ahead, behind] of [
    [1, 1],
    [0.01, 0.01],
    [0.02, 0.01],
    [0.01, 0.05],
  ]) {
    expect(rate(ahead, behind)).toBeCloseTo((4 * K * K) / (Math.PI * stiffness), 12);
  }
});

test("a crack pressed shut: force and displacement both turn, the rate does not", () => {
  const open = {...still, U: {force: [3, 5], displacement: [0.2, 0.1]}} as const;
  const shut = {...still, U: {force: [-3, -5], displacement: [-0.2, -0.1]}} as const;
  expect(energyReleaseRates(shut)).toEqual(energyReleaseRates(open));
});

test.each([0, -1, Number.NaN, Infinity])("a length of %d is refused", bad => {
  expect(() => energyReleaseRates({...still, ahead: bad})).toThrow("tip.ahead");
  expect(() => energyReleaseRates({...still, behind: bad})).toThrow("tip.behind");
});

// Irwin 1957: G = K_I²/E' = K_II²/E' = K_III²/(2μ), E' = E/(1−ν²), 2μ = E/(1+ν).
test("intensities from rates", () => {
  const [modulus, poisson] = [200, 0.25];
  const K = stressIntensities({I: 9 * (1 - 0.0625), II: 4 * (1 - 0.0625), III: 16 * 1.25}, {modulus, poisson});
  expect(K.I).toBeCloseTo(3 * Math.sqrt(200), 12);
  expect(K.II).toBeCloseTo(2 * Math.sqrt(200), 12);
  expect(K.III).toBeCloseTo(4 * Math.sqrt(200), 12);
});

test("faces moving against the force ahead have no intensity", () => {
  const elastic = {modulus: 1, poisson: 0.3};
  expect(() => stressIntensities({I: 0, II: -1e-9, III: 0}, elastic)).toThrow("rates.II");
  expect(() => stressIntensities({I: Number.NaN, II: 0, III: 0}, elastic)).toThrow("rates.I");
});
