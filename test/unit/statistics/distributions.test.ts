import {expect, test} from "vitest";
import {
  chiSquareQuantile,
  fCdf,
  fQuantile,
  normalCdf,
  normalQuantile,
  randomStream,
  tCdf,
  tQuantile,
} from "../../../src/engine/statistics/index.ts";

// Tables at the back of ASTM E739 (from memory): t(0.975; 7) = 2.3646, F(0.95; 2, 7) = 4.7374; χ²(0.90; 1) = 1.645².
test("quantiles of the tables", () => {
  expect(tQuantile(0.975, 7)).toBeCloseTo(2.3646242516, 8);
  expect(fQuantile(0.95, 2, 7)).toBeCloseTo(4.7374141278, 8);
  expect(chiSquareQuantile(0.9, 1)).toBeCloseTo(normalQuantile(0.95) ** 2, 8);
  expect(tCdf(tQuantile(0.3, 4), 4)).toBeCloseTo(0.3, 10);
  expect(fCdf(fQuantile(0.9, 3, 11), 3, 11)).toBeCloseTo(0.9, 10);
});

test("the normal quantile inverts its integral far into the tails", () => {
  for (const p of [1e-12, 1e-6, 0.02, 0.5, 0.975]) expect(normalCdf(normalQuantile(p)) / p - 1).toBeCloseTo(0, 9);
  expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12); // Abramowitz & Stegun 1964, table 26.1, from memory
});

test("a stream is that of its seed", () => {
  const draw = (seed: number) => {
    const {normal} = randomStream(seed);
    return Array.from({length: 4000}, normal);
  };
  const first = draw(7);
  expect(draw(7)).toEqual(first);
  expect(draw(8)[0]).not.toBe(first[0]);
  const mean = first.reduce((sum, x) => sum + x, 0) / first.length;
  const square = first.reduce((sum, x) => sum + x * x, 0) / first.length;
  expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(first.length)); // four standard deviations of a mean
  expect(Math.abs(square - 1)).toBeLessThan(4 * Math.sqrt(2 / first.length));
});

test("neighbouring seeds give independent streams", () => {
  const firsts = Array.from({length: 4000}, (_, seed) => randomStream(seed).normal());
  const mean = firsts.reduce((sum, x) => sum + x, 0) / firsts.length;
  const square = firsts.reduce((sum, x) => sum + x * x, 0) / firsts.length;
  const lagged = firsts.slice(1).reduce((sum, x, k) => sum + x * firsts[k], 0) / firsts.length;
  for (const [value, deviation] of [
    [mean, 1],
    [square - 1, Math.sqrt(2)],
    [lagged, 1],
  ])
    expect(Math.abs(value)).toBeLessThan((4 * deviation) / Math.sqrt(firsts.length));
});
