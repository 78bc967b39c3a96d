import {expect, test} from "vitest";
import {diagnose, lackOfFit, lineAt, lineBand, straightLine} from "../../../src/engine/statistics/index.ts";

const x = [1, 2, 3, 4, 6, 9];
const y = [2.1, 3.9, 6.2, 7.8, 12.6, 17.4];

test("an exact line has no scatter and no diagnosis", () => {
  const line = straightLine([0.1, 0.2, 0.7], [0.3, 0.1, -0.9]); // y = 0.5 − 2x
  expect(line.slope).toBeCloseTo(-2, 13);
  expect(line.intercept).toBeCloseTo(0.5, 13);
  expect(line.sigma).toBeLessThan(1e-15);
  expect(diagnose(line, [0.1, 0.2, 0.7], [0.3, 0.1, -0.9]).map(one => one.studentised)).toEqual([null, null, null]);
});

test("studentised residuals and Cook's distance are those of leaving the point out", () => {
  const line = straightLine(x, y);
  const diagnoses = diagnose(line, x, y);
  expect(diagnoses.reduce((sum, one) => sum + one.leverage, 0)).toBeCloseTo(2, 12); // trace of the hat matrix
  for (let i = 0; i < x.length; i++) {
    const without = straightLine(x.toSpliced(i, 1), y.toSpliced(i, 1));
    // t: how far the point is from the line through the others, over the standard error of that prediction.
    const dx = x[i] - without.meanX;
    const error = without.sigma * Math.sqrt(1 + 1 / without.n + (dx * dx) / without.sumXX);
    expect(diagnoses[i].studentised).toBeCloseTo((y[i] - lineAt(without, x[i])) / error, 10);
    // D: squared change of all fitted values over 2·s².
    const change = x.reduce((sum, xi) => sum + (lineAt(line, xi) - lineAt(without, xi)) ** 2, 0);
    expect(diagnoses[i].cookDistance).toBeCloseTo(change / (2 * line.sigma ** 2), 10);
  }
});

test("one point off an otherwise exact line is infinitely far off", () => {
  const off = [1, 2, 3, 4, 5.5];
  const diagnoses = diagnose(straightLine([1, 2, 3, 4, 5], off), [1, 2, 3, 4, 5], off);
  expect(diagnoses[4].studentised).toBe(Infinity);
});

test("a point that the line must go through is not judged", () => {
  const at = [1, 1, 1, 5];
  const diagnoses = diagnose(straightLine(at, [0, 1, 2, 7]), at, [0, 1, 2, 7]);
  expect(diagnoses[3]).toMatchObject({studentised: null, cookDistance: null});
  expect(diagnoses[3].leverage).toBeCloseTo(1, 12);
});

test("centred sums keep their digits far from the origin", () => {
  const near = straightLine(x, y);
  const far = straightLine(
    x.map(value => value + 1e7),
    y,
  );
  expect(far.slope).toBeCloseTo(near.slope, 8);
  expect(far.sigma).toBeCloseTo(near.sigma, 8);
});

test("bands: one at a time, all together, one more observation", () => {
  const line = straightLine(x, y);
  const widths = (["confidence", "simultaneous", "prediction"] as const).map(kind => {
    const {low, high} = lineBand(line, 5, 0.9, kind);
    expect((low + high) / 2).toBeCloseTo(lineAt(line, 5), 12);
    return high - low;
  });
  expect(widths[1] / widths[0]).toBeCloseTo(Math.sqrt(2 * 4.32456) / 2.13185, 4); // F(0.9; 2, 4), t(0.95; 4): tables
  // One more observation has the variance of the line and its own.
  expect((widths[2] / widths[0]) ** 2 - 1).toBeCloseTo(
    line.sigma ** 2 / (line.sigma ** 2 / 6 + ((5 - 25 / 6) * line.slopeError) ** 2),
    9,
  );
});

test("lack of fit needs three levels and replicates", () => {
  const line = straightLine(x, y);
  expect(lackOfFit(line, x, y, [1, 2, 3, 4, 5, 6])).toBeNull();
  expect(lackOfFit(line, x, y, [1, 1, 1, 2, 2, 2])).toBeNull();
  // A parabola at three levels, ±0.1: within 6·0.01, line 2x − 1/3 misses the means by 1/3, 2/3, 1/3: 2·(6/9)/1.
  const at = [0, 0, 1, 1, 2, 2];
  const parabola = [-0.1, 0.1, 0.9, 1.1, 3.9, 4.1];
  const test = lackOfFit(straightLine(at, parabola), at, parabola, at)!;
  expect(test.f).toBeCloseTo(4 / 3 / (0.06 / 3), 9);
  expect(test).toMatchObject({above: 1, below: 3, levels: 3, replication: 0.5});
});

test("refuses what is no line", () => {
  expect(() => straightLine([1, 1, 1], [1, 2, 3])).toThrow("different values");
  expect(() => straightLine([0.1, 0.1, 0.1, 0.1], [1, 2, 3, 4])).toThrow("different values"); // their mean is not 0.1
  expect(() => straightLine([1, 2], [1, 2])).toThrow("≥ 3");
  expect(() => straightLine([1, 2, 3], [1, 2])).toThrow("y.length");
  expect(() => straightLine([1, 2, Number.NaN], [1, 2, 3])).toThrow("x[2]");
  expect(() => straightLine([1, 2, 3], [1, Infinity, 3])).toThrow("y[1]");
});
