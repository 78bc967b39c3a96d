import {expect, test} from "vitest";
import {randomStream} from "../../../src/engine/statistics/index.ts";
import {
  extrapolated,
  type FitOptions,
  fitMasterCurve,
  type MasterCurve,
  modulusNorm,
  phaseAngle,
} from "../../../src/engine/viscoelastic/index.ts";
import type {ComplexModulusPoint} from "../../../src/engine/viscoelastic/types.ts";
import {readings, sigmoid, twoSprings} from "./curves.ts";

const DEGREE = Math.PI / 180;
const huetSayegh: MasterCurve = {...twoSprings, model: {...twoSprings.model, beta: Infinity}};
const energy = {kind: "Arrhenius", activationEnergy: 2e5} as const;
const wlf = (model: FitOptions["model"], referenceTemperature = 15): FitOptions => ({
  model,
  shift: "WLF",
  referenceTemperature,
});

/** Readings with 3 % and 1° of scatter. */
function scattered(points: readonly ComplexModulusPoint[], seed: number): ComplexModulusPoint[] {
  const {normal} = randomStream(seed);
  return points.map(({phase, modulus, ...rest}) => ({
    ...rest,
    modulus: modulus * Math.exp(0.03 * normal()),
    phase: phase === null ? null : Math.max(0, phase + DEGREE * normal()),
  }));
}

/** Largest |ln| between two curves at the readings' temperatures and frequencies. */
function farthest(a: MasterCurve, b: MasterCurve, at: readonly ComplexModulusPoint[]): number {
  const off = at.map(({temperature, frequency}) =>
    Math.log(modulusNorm(a, temperature, frequency) / modulusNorm(b, temperature, frequency)),
  );
  return Math.max(...off.map(Math.abs));
}

test("exact readings give the curve that made them, parameter by parameter", () => {
  const cases: [MasterCurve, FitOptions["model"]][] = [
    [sigmoid, "sigmoid"],
    [twoSprings, "2S2P1D"],
    [huetSayegh, "Huet-Sayegh"],
  ];
  for (const [made, model] of cases)
    for (const shift of [made.shift, energy]) {
      const curve = {...made, shift};
      const fit = fitMasterCurve(readings(curve), {...wlf(model), shift: shift.kind as FitOptions["shift"]});
      for (const part of ["model", "shift"] as const)
        for (const [key, value] of Object.entries(curve[part]))
          if (typeof value === "number" && value < Infinity)
            expect((fit.curve[part] as unknown as Record<string, number>)[key] / value, key).toBeCloseTo(1, 6);
      expect(fit.rmsModulus).toBeLessThan(1e-9);
      expect(fit.rmsPhase).toBeLessThan(1e-9);
      expect(fit.determination).toBeCloseTo(1, 12);
      expect(fit.warnings).toEqual([]);
    }
});

test("another reference temperature, the same curve", () => {
  const fit = fitMasterCurve(readings(twoSprings), wlf("2S2P1D", 25));
  expect(farthest(fit.curve, twoSprings, readings(twoSprings, [-20, 60], [0.01, 100]))).toBeLessThan(1e-6);
  expect(fit.curve.shift).toMatchObject({kind: "WLF", c2: expect.closeTo(170, 4)});
});

test("twelve exact readings at three temperatures are enough", () => {
  const few = readings(twoSprings, [0, 15, 30], [0.1, 1, 10, 25]);
  const fit = fitMasterCurve(few, wlf("2S2P1D"));
  expect(farthest(fit.curve, twoSprings, readings(twoSprings))).toBeLessThan(1e-5);
});

test("with scatter the curve lies within it, where it was measured", () => {
  const cases: [MasterCurve, FitOptions["model"]][] = [
    [sigmoid, "sigmoid"],
    [twoSprings, "2S2P1D"],
    [huetSayegh, "Huet-Sayegh"],
  ];
  for (const [made, model] of cases)
    for (let seed = 1; seed <= 8; seed++) {
      const clean = readings(made);
      const fit = fitMasterCurve(scattered(clean, seed), wlf(model));
      expect(fit.rmsModulus).toBeGreaterThan(0.015);
      expect(fit.rmsModulus).toBeLessThan(0.045);
      expect(fit.determination).toBeGreaterThan(0.99);
      expect(fit.errorRatio).toBeLessThan(0.05);
      const off = clean.map(({temperature, frequency, modulus}) =>
        Math.log(modulusNorm(fit.curve, temperature, frequency) / modulus),
      );
      // 36 readings for 6 to 9 parameters: the curve is on average √(9/36) of the scatter off.
      expect(Math.sqrt(off.reduce((sum, x) => sum + x * x, 0) / off.length)).toBeLessThan(0.03);
      expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.07);
    }
});

test("few readings with scatter, without phase, at one temperature or frequency: a curve and its warnings", () => {
  const grids: [number[], number[]][] = [
    [
      [0, 15, 30],
      [0.1, 1, 10, 25],
    ],
    [
      [10, 25],
      [0.1, 0.3, 1, 3, 10, 25],
    ],
    [
      [0, 10, 20, 30],
      [1, 5, 10],
    ],
    [[15], [0.01, 0.03, 0.1, 0.3, 1, 3, 10, 25, 50, 100]],
    [[-10, -5, 0, 5, 10, 15, 20, 25, 30, 40], [10]],
  ];
  for (const [temperatures, frequencies] of grids)
    for (const model of ["sigmoid", "2S2P1D", "Huet-Sayegh"] as const)
      for (const measured of [true, false]) {
        const clean = readings(twoSprings, temperatures, frequencies);
        const points = scattered(clean, 3).map(point => (measured ? point : {...point, phase: null}));
        const fit = fitMasterCurve(points, wlf(model));
        expect(farthest(fit.curve, twoSprings, clean)).toBeLessThan(0.12);
        expect(fit.rmsPhase === null).toBe(!measured);
        const text = fit.warnings.join("\n");
        expect(/No phase was measured/.test(text)).toBe(!measured && model !== "sigmoid");
        expect(/One temperature does not tell/.test(text)).toBe(temperatures.length === 1);
        expect(/One frequency does not tell/.test(text)).toBe(frequencies.length === 1);
        expect(/Two temperatures do not tell/.test(text)).toBe(temperatures.length === 2);
      }
});

test("what readings hardly tell is said", () => {
  const cold = scattered(readings(twoSprings, [-10, 0, 10], [1, 3, 10, 25]), 4);
  expect(fitMasterCurve(cold, wlf("2S2P1D")).warnings.join()).toMatch(/hardly tell .*β.*beyond the readings/);
  expect(fitMasterCurve(cold, wlf("sigmoid")).warnings.join()).toMatch(/hardly tell δ/);
  expect(fitMasterCurve(cold, wlf("sigmoid", 25)).warnings.join()).toMatch(
    /25 °C lies outside of those tested, -10 to 10/,
  );
});

test("a reading that was mistyped is named", () => {
  const points = scattered(readings(twoSprings), 2);
  const wrong = points.map((point, i) => (i === 16 ? {...point, modulus: 2 * point.modulus} : point));
  for (const model of ["sigmoid", "2S2P1D"] as const) {
    const {warnings} = fitMasterCurve(wrong, wlf(model));
    expect(warnings.filter(text => /^Reading/.test(text))).toEqual([
      expect.stringMatching(
        /^Reading 17 \(10 °C, 10 Hz\): its modulus lies [\d.]+ standard deviations above the curve/,
      ),
    ]);
  }
  const late = points.map((point, i) => (i === 16 ? {...point, phase: (point.phase ?? 0) + 10 * DEGREE} : point));
  expect(fitMasterCurve(late, wlf("2S2P1D")).warnings.join()).toMatch(
    /Reading 17 \(10 °C, 10 Hz\): its phase lies .* above/,
  );
});

test("readings that no curve goes through, and a curve that no material has", () => {
  const swapped = readings(twoSprings).map(point => ({...point, temperature: 30 - point.temperature}));
  expect(fitMasterCurve(swapped, wlf("sigmoid")).warnings.join()).toMatch(
    /misses the moduli by \d+ % \(root mean square\)/,
  );
  const steep: MasterCurve = {...sigmoid, model: {kind: "sigmoid", lowest: 5, span: 5, location: 0, slope: 1}};
  const points = readings(steep).map(point => ({...point, phase: null}));
  expect(fitMasterCurve(points, wlf("sigmoid")).warnings).toEqual([
    expect.stringMatching(/rises faster than frequency/),
  ]);
});

test("range of the readings, residuals in their order, the same at every run", () => {
  const points = scattered(readings(sigmoid), 6);
  const fit = fitMasterCurve(points, wlf("sigmoid"));
  expect(fit.curve.measured?.temperature).toEqual([-10, 40]);
  for (const {temperature, frequency} of points) expect(extrapolated(fit.curve, temperature, frequency)).toBe(false);
  expect(extrapolated(fit.curve, 40, 0.05)).toBe(true);
  points.forEach(({temperature, frequency, modulus, phase}, i) => {
    const off = Math.log10(modulusNorm(fit.curve, temperature, frequency) / modulus);
    expect(fit.residuals[i].lgModulus).toBeCloseTo(off, 12);
    expect(fit.residuals[i].phase).toBeCloseTo(phaseAngle(fit.curve, temperature, frequency) - (phase ?? 0), 12);
  });
  expect(fitMasterCurve(points, wlf("sigmoid"))).toEqual(fit);
});

test("impossible readings are named, and too few of them", () => {
  const points = readings(sigmoid);
  const with7 = (changed: Partial<ComplexModulusPoint>) => () =>
    fitMasterCurve(
      points.map((point, i) => (i === 7 ? {...point, ...changed} : point)),
      wlf("sigmoid"),
    );
  expect(with7({modulus: 0})).toThrow(/points\[7\].modulus: got 0, need finite, > 0 \[Pa\]/);
  expect(with7({frequency: -1})).toThrow(/points\[7\].frequency/);
  expect(with7({temperature: -300})).toThrow(/points\[7\].temperature/);
  expect(with7({phase: 30})).toThrow(/points\[7\].phase: got 30, need 0 to π\/2 \[rad\], or null/);
  expect(() => fitMasterCurve(points.slice(0, 4), wlf("sigmoid"))).toThrow(/points: got 4, need more than 4 moduli/);
  expect(() => fitMasterCurve([], wlf("sigmoid"))).toThrow(/points: got 0/);
  const same = points.map(point => ({...point, modulus: 1e9}));
  expect(() => fitMasterCurve(same, wlf("sigmoid"))).toThrow(/points: got equal moduli only/);
});
