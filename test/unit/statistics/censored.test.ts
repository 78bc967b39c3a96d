import {expect, test} from "vitest";
import {
  type CensoredPoint,
  censoredLine,
  coefficientInterval,
  inverseInterval,
  lineBand,
  lineVariance,
  profileInterval,
  randomStream,
  straightLine,
} from "../../../src/engine/statistics/index.ts";
import {normalTail} from "../../../src/engine/statistics/likelihood.ts";

const failures: CensoredPoint[] = [
  [1, 6.3],
  [1, 6.6],
  [2, 5.2],
  [2, 5.9],
  [4, 3.1],
  [4, 2.7],
  [4, 3.3],
].map(([x, y]) => ({x, y, censored: false}));
const leastSquares = straightLine(
  failures.map(one => one.x),
  failures.map(one => one.y),
);
/** Stopped so early that it says nothing: the likelihood is then that of the failures, but by Newton's method. */
const saysNothing: CensoredPoint = {x: 3, y: -60, censored: true};

test("without censoring it is least squares, in closed form and by iteration", () => {
  const closed = censoredLine(failures);
  const iterated = censoredLine([...failures, saysNothing]);
  expect(closed.iterations).toBe(0);
  expect(iterated.iterations).toBeGreaterThan(2);
  for (const line of [closed, iterated]) {
    expect(line.slope).toBeCloseTo(leastSquares.slope, 10);
    expect(line.intercept).toBeCloseTo(leastSquares.intercept, 10);
    expect(line.sigma).toBeCloseTo(leastSquares.sigma, 10);
    expect(line.degrees).toBeCloseTo(5, 9);
    expect(line.slopeVariance).toBeCloseTo(leastSquares.slopeVariance, 10);
    expect(lineVariance(line, 0.3)).toBeCloseTo(lineVariance(leastSquares, 0.3), 10);
    expect(line.logLikelihood).toBeCloseTo(closed.logLikelihood, 10);
  }
});

test("profile intervals are Student's and Fieller's then", () => {
  const points = [...failures, saysNothing];
  const line = censoredLine(points);
  const slope = coefficientInterval(leastSquares, "slope", 0.9);
  const value = lineBand(leastSquares, 3, 0.95, "confidence");
  const inverse = inverseInterval(leastSquares, 6, 0.9)!;
  const pairs = [
    [profileInterval(points, line, {kind: "slope"}, 0.9), slope],
    [profileInterval(points, line, {kind: "value", x: 3}, 0.95), value],
    [profileInterval(points, line, {kind: "inverse", y: 6}, 0.9), inverse],
  ] as const;
  for (const [computed, expected] of pairs) {
    expect(computed?.low).toBeCloseTo(expected.low, 8);
    expect(computed?.high).toBeCloseTo(expected.high, 8);
  }
});

test("an inverse has no ends when the slope may be zero", () => {
  const flat = [1, 2, 3, 4].map((x, i) => ({x, y: [5, 7, 5.5, 6.5][i], censored: false}));
  expect(profileInterval(flat, censoredLine(flat), {kind: "inverse", y: 6}, 0.9)).toBeNull();
  const open = [...flat, {x: 2.5, y: 5.8, censored: true}];
  expect(profileInterval(open, censoredLine(open), {kind: "inverse", y: 6}, 0.9)).toBeNull();
});

test("a run-out above the line lifts it, and its upper side is the open one", () => {
  const points = [...failures, {x: 1, y: 7, censored: true}, {x: 1, y: 7, censored: true}];
  const line = censoredLine(points);
  expect(line.level + line.slope * (1 - line.centre)).toBeGreaterThan(leastSquares.intercept + leastSquares.slope);
  const {low, high} = profileInterval(points, line, {kind: "value", x: 1}, 0.9)!;
  const centre = line.intercept + line.slope;
  expect(high - centre).toBeGreaterThan(centre - low);
  expect(line.effective).toBeGreaterThan(line.failures - 2);
  expect(line.effective).toBeLessThan(line.n);
});

test("shifting and scaling the data shifts and scales the line", () => {
  const points = [...failures, {x: 1, y: 6.4, censored: true}];
  const line = censoredLine(points);
  const moved = censoredLine(points.map(({x, y, censored}) => ({x: 1e3 * x - 7, y: 1e-2 * y + 40, censored})));
  expect(moved.slope).toBeCloseTo(1e-5 * line.slope, 14);
  expect(moved.sigma).toBeCloseTo(1e-2 * line.sigma, 11);
  expect(moved.degrees).toBeCloseTo(line.degrees, 8);
});

test("half of a large sample cut off: the law it was drawn from comes back", () => {
  const {normal} = randomStream(5);
  const points = Array.from({length: 4000}, (_, i) => {
    const x = (i % 10) / 10;
    const y = 2 - 3 * x + 0.5 * normal();
    return y > 0.65 ? {x, y: 0.65, censored: true} : {x, y, censored: false};
  });
  const line = censoredLine(points);
  expect(line.failures).toBeLessThan(2200);
  expect(Math.abs(line.slope + 3)).toBeLessThan(4 * Math.sqrt(line.slopeVariance)); // four standard errors
  expect(Math.abs(line.intercept - 2)).toBeLessThan(4 * Math.sqrt(lineVariance(line, 0)));
  expect(Math.abs(Math.log(line.sigma / 0.5))).toBeLessThan(4 * Math.sqrt(line.logSigmaVariance));
});

test("refuses what has no maximum", () => {
  const at = (x: number, y: number, censored = false): CensoredPoint => ({x, y, censored});
  expect(() => censoredLine(failures.slice(0, 2))).toThrow("3 failures");
  expect(() => censoredLine([at(1, 5), at(1, 6), at(1, 5.5), at(2, 4, true)])).toThrow("two different x");
  // Failures exactly on a line, the run-out below it: the narrower the scatter the better.
  const exact = [at(1, 5), at(2, 4), at(3, 3), at(2, 3.5, true)];
  expect(() => censoredLine(exact)).toThrow(expect.objectContaining({code: "convergence"}));
  // With the run-out above it there has to be scatter.
  expect(censoredLine([...exact.slice(0, 3), at(2, 4.5, true), at(1, 5.5)]).likelihoodSigma).toBeGreaterThan(0.1);
});

// mpmath, 40 digits: φ(r)/Φ(−r), ln Φ(−r).
test("the normal tail, near and far", () => {
  const values = [
    [-3, 0.004437839042125664, -0.001350809964748194],
    [0, 0.7978845608028654, -Math.LN2],
    [2, 2.373215532822841, -3.783184333682032],
    [4.9, 5.089828600129884, -14.55118268935531],
    [5.1, 5.283287616909157, -15.58848709187147],
    [10, 10.09809323396251, -53.23128515051247],
    [40, 40.02496884720726, -804.6084420137538],
  ];
  for (const [r, hazard, logarithm] of values) {
    expect(normalTail(r).hazard / hazard - 1).toBeCloseTo(0, 13);
    expect(normalTail(r).logarithm / logarithm - 1).toBeCloseTo(0, 12);
  }
});
