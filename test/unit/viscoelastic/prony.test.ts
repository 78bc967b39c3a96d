import {expect, test} from "vitest";
import {
  type MasterCurve,
  modulusNorm,
  pronyModulus,
  pronySeries,
  pronyThrough,
  relaxationModulus,
  relaxationModulusAt,
  shiftFactor,
} from "../../../src/engine/viscoelastic/index.ts";
import {sigmoid, twoSprings} from "./curves.ts";

test("a series is non-negative, falls with time, and says how well it follows its curve", () => {
  for (const [curve, worst] of [
    [twoSprings, 0.001],
    [sigmoid, 0.015], // its phase is an approximation, which no series follows exactly
  ] as const) {
    const series = pronySeries(curve);
    expect(series.equilibriumModulus).toBeGreaterThanOrEqual(0);
    expect(series.terms.every(({modulus}) => modulus > 0)).toBe(true);
    expect(series.residual.worst).toBeLessThan(worst);
    expect(series.residual.rms).toBeLessThan(series.residual.worst);
    expect(series.range[0]).toBeCloseTo(1e-10, 20);
    expect(series.range[1] / 1e11).toBeCloseTo(1, 9);
    for (let lg = -9; lg < 9; lg++) {
      const {storage, loss} = pronyModulus(series, 2 * Math.PI * 10 ** lg);
      expect(Math.abs(Math.hypot(storage, loss) / modulusNorm(curve, 15, 10 ** lg) - 1)).toBeLessThan(worst);
      expect(relaxationModulus(series, 10 ** lg)).toBeGreaterThan(relaxationModulus(series, 10 ** (lg + 1)));
    }
  }
});

test("time at another temperature counts by the shift", () => {
  const series = pronySeries(twoSprings);
  const shifted = relaxationModulusAt(twoSprings, series, {time: 3600, temperature: 0});
  expect(shifted).toBe(relaxationModulus(series, 3600 / 10 ** shiftFactor(twoSprings, 0)));
  expect(shifted).toBeGreaterThan(relaxationModulusAt(twoSprings, series, {time: 3600, temperature: 15}));
  expect(() => relaxationModulusAt(twoSprings, series, {time: -1, temperature: 0})).toThrow(/time: got -1/);
  expect(() => relaxationModulus(series, Number.NaN)).toThrow(/time: got NaN, need finite, ≥ 0 \[s\]/);
});

test("readings of one relaxation time give that time", () => {
  const readings = [0.01, 0.1, 1, 10].map(omega => {
    const square = (2 * omega) ** 2; // τ = 2 s
    return {omega, storage: 3 + (5 * square) / (1 + square), loss: (5 * 2 * omega) / (1 + square)};
  });
  const series = pronyThrough(readings, [0.5, 1, 2, 4]);
  expect(series.terms.length).toBe(1);
  expect(series.terms[0].time).toBe(2);
  expect(series.terms[0].modulus).toBeCloseTo(5, 9);
  expect(series.equilibriumModulus).toBeCloseTo(3, 9);
});

test("a sigmoid that rises faster than frequency has no series", () => {
  const steep: MasterCurve = {...sigmoid, model: {kind: "sigmoid", lowest: 6, span: 4.4, location: 0, slope: 1}};
  expect(() => pronySeries(steep)).toThrow(/model.slope: got 1, need α·γ < 4/);
});
