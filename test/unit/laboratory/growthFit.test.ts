/**
 * The fit on bodies whose fronts are known in closed form: both grow in proportion to the passes,
 * c₁ = A·s^n·N·e^b and c₂ = c₁·e^u/2, at a strain s of the body's own, and meet where c₁ + c₂ = H.
 */
import {expect, test} from "vitest";
import {Cancelled, InputError} from "../../../src/engine/errors.ts";
import type {BeamScatter, FrontCurves} from "../../../src/engine/laboratory/beamLikelihood.ts";
import type {Observation} from "../../../src/engine/laboratory/beamObservations.ts";
import type {Curve} from "../../../src/engine/laboratory/curve.ts";
import {fitGrowth, type GrowthCase, type GrowthEstimate} from "../../../src/engine/laboratory/growthFit.ts";
import {randomStream} from "../../../src/engine/statistics/index.ts";

const THICKNESS = 0.1;
const TRUTH = Float64Array.of(Math.log(2e-6), 3.5);
const START: GrowthEstimate = {
  parameters: Float64Array.of(Math.log(5e-7), 2.5),
  scatter: {beam: 0.3, upper: 0.3, exponent: 0.1, lower: 1e-3, surface: 1e-3},
};
const FREE = {exponentPrior: null};

function curves(strain: number, [logRate, exponent]: ArrayLike<number> & Iterable<number>, upper: number): FrontCurves {
  const rate = logRate + exponent * Math.log(strain);
  const front = (factor: number) => {
    const value = (x: number): number => factor * Math.exp(rate + x);
    return {value, slope: value};
  };
  const second = 0.5 * Math.exp(upper);
  return {fronts: [front(0), front(1), front(second)], logBreak: Math.log(THICKNESS / (1 + second)) - rate};
}

interface Invented {
  readonly count: number;
  readonly scatter: BeamScatter;
  readonly error: number; // of a length by reading [m]
  readonly seed?: number;
}

/** Bodies at strains of 1 and 2 by turns, read until they break; short lengths are not visible. */
function bodies({count, scatter, error, seed = 1}: Invented): GrowthCase[] {
  const {normal} = randomStream(seed);
  return Array.from({length: count}, (_, body): GrowthCase => {
    const strain = 1 + (body % 2);
    const [b, u] = [scatter.beam * normal(), scatter.upper * normal()];
    const true_ = curves(strain, TRUTH, u);
    const observations: Observation[] = [];
    for (let reading = 1; reading <= 8; reading++) {
      const logPasses = Math.log((reading * 0.15 * THICKNESS) / Math.exp(TRUTH[0] + TRUTH[1] * Math.log(strain)));
      if (logPasses + b > true_.logBreak) {
        observations.push({kind: "broken", reading, logPasses});
        break;
      }
      observations.push({kind: "unbroken", reading, logPasses});
      for (const front of [1, 2] as const) {
        const own = Math.hypot(error, front === 2 ? scatter.surface : scatter.lower);
        const length = true_.fronts[front].value(logPasses + b) + own * normal();
        if (length < 2e-3) observations.push({kind: "shorter", reading, front, logPasses, length: 2e-3, error});
        else observations.push({kind: "length", reading, front, logPasses, length, error});
      }
    }
    // At one strain an exponent of its own would be the clock once more.
    const byExponent = new Float64Array(2);
    return {observations, curves: (p, upper) => curves(strain, [...p], upper), concerns: () => true, byExponent};
  });
}

const EXACT = {beam: 0, upper: 0, exponent: 0, lower: 0, surface: 0};

test("readings without error of bodies all alike give the laws back", () => {
  const fit = fitGrowth(bodies({count: 6, scatter: EXACT, error: 1e-6}), START, {...FREE, settled: 1e-4});
  expect(fit.converged).toBe(true);
  // Breaking is blurred by 5 % in ln N: what it says of the exact readings is less than a thousandth.
  expect(fit.parameters[0]).toBeCloseTo(TRUTH[0], 3);
  expect(fit.parameters[1]).toBeCloseTo(TRUTH[1], 3);
  for (const {clock, upper} of fit.effects) {
    expect(clock).toBeCloseTo(0, 3);
    expect(upper).toBeCloseTo(0, 3);
  }
  expect(fit.degrees).toBe(5); // six bodies, one law
});

const SCATTER = {beam: 0.3, upper: 0.4, exponent: 0, lower: 1e-3, surface: 1.5e-3};

test("laws, their errors and the scatter of many bodies that differ", () => {
  const fit = fitGrowth(bodies({count: 80, scatter: SCATTER, error: 5e-4}), START, FREE);
  expect(fit.converged).toBe(true);
  [0, 1].forEach(k => {
    const error = Math.sqrt(fit.covariance[3 * k]);
    expect(Math.abs(fit.parameters[k] - TRUTH[k])).toBeLessThan(3 * error);
    // Known effects aside, ln A is the mean clock of the 40 bodies at a strain of 1, n·ln 2 the difference of two such means.
    expect(error / (k ? (0.3 * Math.sqrt(2 / 40)) / Math.LN2 : 0.3 / Math.sqrt(40))).toBeGreaterThan(0.75);
    expect(error / (k ? (0.3 * Math.sqrt(2 / 40)) / Math.LN2 : 0.3 / Math.sqrt(40))).toBeLessThan(1.33);
  });
  // 80 bodies tell a standard deviation to 8 %, hundreds of readings theirs better: three times that allowed.
  for (const name of ["beam", "upper", "lower", "surface"] as const)
    expect(Math.abs(Math.log(fit.scatter[name] / SCATTER[name]))).toBeLessThan(0.25);
});

test("where the fit begins does not matter", () => {
  const cases = bodies({count: 10, scatter: SCATTER, error: 5e-4});
  const near = fitGrowth(cases, {...START, parameters: TRUTH.slice()}, FREE);
  const far = fitGrowth(cases, {...START, parameters: Float64Array.of(Math.log(1e-4), 1)}, FREE);
  [0, 1].forEach(k => {
    expect(Math.abs(near.parameters[k] - far.parameters[k])).toBeLessThan(2e-3 * Math.sqrt(near.covariance[3 * k]));
  });
  expect(near.likelihood).toBeCloseTo(far.likelihood, 2);
});

test("a parameter that is held stays, has no variance, and costs likelihood", () => {
  const cases = bodies({count: 10, scatter: SCATTER, error: 5e-4});
  const free = fitGrowth(cases, START, FREE);
  const moved = Float64Array.of(free.parameters[0], free.parameters[1] + 1);
  const held = fitGrowth(cases, {...free, parameters: moved}, {...FREE, held: [1]});
  expect(held.parameters[1]).toBe(moved[1]);
  expect([...held.covariance.subarray(1)]).toEqual([0, 0, 0]);
  expect(held.covariance[0]).toBeGreaterThan(0);
  expect(held.scatter).toEqual(free.scatter);
  // About half the square of what it was moved by in standard errors.
  const z = 1 / Math.sqrt(free.covariance[3]);
  expect((free.likelihood - held.likelihood) / (0.5 * z * z)).toBeGreaterThan(0.7);
  expect((free.likelihood - held.likelihood) / (0.5 * z * z)).toBeLessThan(1.3);
});

test("what is believed of exponents draws them by its weight", () => {
  const cases = bodies({count: 10, scatter: SCATTER, error: 5e-4});
  const free = fitGrowth(cases, START, {...FREE, settled: 1e-3});
  const sure = fitGrowth(cases, START, {exponentPrior: {mean: 5, deviation: 1e-3}, settled: 1e-3});
  expect(sure.parameters[1]).toBeCloseTo(5, 2);
  expect(Math.sqrt(sure.covariance[3])).toBeCloseTo(1e-3, 4);
  const error = Math.sqrt(free.covariance[3]);
  const believed = {mean: free.parameters[1] + error, deviation: error};
  const even = fitGrowth(cases, START, {exponentPrior: believed, settled: 1e-3});
  // As sure as the readings: about half-way; the scatter, estimated anew, moves it a little.
  const part = (even.parameters[1] - free.parameters[1]) / error;
  expect(part).toBeGreaterThan(0.4);
  expect(part).toBeLessThan(0.6);
});

test("with something believed, the likelihood is largest where the fit ends", () => {
  const cases = bodies({count: 10, scatter: SCATTER, error: 5e-4});
  const options = {exponentPrior: {mean: 5, deviation: 0.2}, settled: 1e-3};
  const {parameters, scatter, effects, likelihood} = fitGrowth(cases, START, options);
  for (const away of [-0.15, 0.15]) {
    const moved = Float64Array.of(parameters[0], parameters[1] + away);
    const held = fitGrowth(cases, {parameters: moved, scatter, effects}, {...options, held: [1]});
    expect(held.likelihood).toBeLessThan(likelihood);
  }
});

test("one body tells a rate when the exponent is held or believed, and not both", () => {
  const [one] = bodies({count: 1, scatter: SCATTER, error: 5e-4});
  const single = bodies({count: 2, scatter: SCATTER, error: 5e-4}).slice(1); // at a strain of 2: A and n are one there
  expect(() => fitGrowth(single, START, FREE)).toThrow(InputError);
  const held = fitGrowth(
    [one],
    {...START, parameters: Float64Array.of(START.parameters[0], 3.5)},
    {...FREE, held: [1]},
  );
  expect(Math.abs(held.parameters[0] - TRUTH[0])).toBeLessThan(3 * Math.sqrt(held.covariance[0]));
  const believed = fitGrowth(single, START, {exponentPrior: {mean: 3.5, deviation: 0.5}});
  expect(believed.degrees).toBe(1);
  expect(Math.sqrt(believed.covariance[3])).toBeCloseTo(0.5, 2); // no wiser than before
});

test("a law that no body feels is refused, and so is a fit to nothing", () => {
  const cases = bodies({count: 6, scatter: SCATTER, error: 5e-4}).map(c => ({...c, concerns: (k: number) => k === 0}));
  expect(() => fitGrowth(cases, START, FREE)).toThrow(/positive definite/);
  expect(() => fitGrowth([], START, FREE)).toThrow(/at least one with readings/);
});

test("is cancelled by what it tells its progress to", () => {
  const cases = bodies({count: 6, scatter: SCATTER, error: 5e-4});
  const told: number[] = [];
  const stop = {...FREE, onProgress: (part: number) => told.push(part) < 2};
  expect(() => fitGrowth(cases, START, stop)).toThrow(Cancelled);
  expect(told.length).toBe(2);
});

/**
 * Bodies whose strain rises with the crack, s = 1 + c/c₀: dc/dN = A·s^n gives s^(1−n) = 1 − (n − 1)·A·N/c₀. Each has an
 * exponent of its own about n, the rate at a strain of 1.5 its own clock's.
 */
function steepening(count: number, deviation: {readonly clock: number; readonly exponent: number}): GrowthCase[] {
  const [start, pivot] = [0.02, Math.log(1.5)];
  const front = ([logRate, n]: ArrayLike<number> & Iterable<number>): Curve => {
    const value = (x: number): number => {
      const left = 1 - ((n - 1) * Math.exp(logRate + x)) / start;
      return left > 1e-3 ? start * (left ** (-1 / (n - 1)) - 1) : start * (1e-3 ** (-1 / (n - 1)) - 1);
    };
    return {value, slope: x => (value(x + 1e-4) - value(x - 1e-4)) / 2e-4};
  };
  const byExponent = Float64Array.of(-pivot, 1);
  const {normal} = randomStream(5);
  return Array.from({length: count}, (): GrowthCase => {
    const [b, v] = [deviation.clock * normal(), deviation.exponent * normal()];
    const own = front([TRUTH[0] - v * pivot + b, TRUTH[1] + v]);
    const end = Math.log((start * (1 - 3 ** (1 - TRUTH[1] - v))) / (TRUTH[1] + v - 1)) - TRUTH[0] + v * pivot - b; // s = 3
    const observations = Array.from({length: 12}, (_, reading): Observation => {
      const logPasses = end + Math.log((reading + 1) / 12);
      return {
        kind: "length",
        reading,
        front: 1,
        logPasses,
        length: own.value(logPasses) + 2e-4 * normal(),
        error: 2e-4,
      };
    });
    const none: Curve = {value: () => 0, slope: () => 0};
    const curvesOf = (p: Float64Array): FrontCurves => ({fronts: [none, front([...p]), none], logBreak: Infinity});
    return {observations, curves: curvesOf, concerns: () => true, byExponent};
  });
}

test("exponents that differ from body to body are told from clocks", () => {
  const deviation = {clock: 0.2, exponent: 0.25};
  const fit = fitGrowth(steepening(60, deviation), {...START, parameters: Float64Array.of(TRUTH[0], 3)}, FREE);
  expect(fit.converged).toBe(true);
  // 60 bodies tell a standard deviation to 9 %: three times that allowed.
  expect(Math.abs(Math.log(fit.scatter.beam / deviation.clock))).toBeLessThan(0.27);
  expect(Math.abs(Math.log(fit.scatter.exponent / deviation.exponent))).toBeLessThan(0.27);
  expect(Math.abs(fit.parameters[1] - TRUTH[1])).toBeLessThan(3 * Math.sqrt(fit.covariance[3]));
  // However well each body is read, their common exponent is known no better than a mean of so many.
  expect(Math.sqrt(fit.covariance[3]) / (deviation.exponent / Math.sqrt(60))).toBeGreaterThan(0.75);
});
