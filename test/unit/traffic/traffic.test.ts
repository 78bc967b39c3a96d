import {expect, test} from "vitest";
import {
  axleLines,
  growthFactor,
  type LoadClass,
  standardAxleEquivalence,
  type Wheel,
} from "../../../src/engine/traffic/index.ts";

const wheel = (x: number, y: number, load: number): Wheel => ({x, y, load, length: 0.2, width: 0.25});
const group = (wheels: Wheel[]): LoadClass => ({
  name: "group",
  wheels,
  passesPerYear: 1,
  growth: 0,
  group: null,
  wander: {kind: "normal", deviation: 0},
});
const standard = group([wheel(0, 0, 40_000), wheel(0, 1.8, 40_000)]);

test("an axle is worth the fourth power of its load", () => {
  // (100/80)⁴ = 2.44140625, (130/80)⁴ = 6.97290039: derived
  expect(standardAxleEquivalence(group([wheel(0, 0, 50_000), wheel(0, 1.8, 50_000)]), standard)).toBe(2.44140625);
  expect(standardAxleEquivalence(group([wheel(0, 0, 130_000)]), standard)).toBeCloseTo(6.97290039, 8);
});

test("axle lines count one by one", () => {
  const tandem = group([wheel(0, 0, 40_000), wheel(1.3, 0, 40_000), wheel(0, 1.8, 40_000), wheel(1.3, 1.8, 40_000)]);
  expect(standardAxleEquivalence(tandem, standard)).toBe(2);
  expect(axleLines(tandem.wheels).map(line => line.map(w => [w.x, w.y]))).toEqual([
    [
      [1.3, 0],
      [1.3, 1.8],
    ],
    [
      [0, 0],
      [0, 1.8],
    ],
  ]);
  expect(() => standardAxleEquivalence(standard, tandem)).toThrow("exactly one");
});

test("growth compounds continuously and holds its last level", () => {
  // ((1+g)ⁿ − 1)/g = 24.29736980 at 2 %, 20 years (derived); the continuous sum is g/ln(1+g) times that.
  expect(growthFactor(20, 0.02, 20)).toBeCloseTo((24.2973698 * 0.02) / Math.log(1.02), 6);
  expect(growthFactor(7, 0, 20)).toBe(7);
  expect(growthFactor(30, 0.02, 20) - growthFactor(20, 0.02, 20)).toBeCloseTo(10 * 1.02 ** 20, 10);
  expect(growthFactor(20, -0.02, 20)).toBeLessThan(20);
  expect(growthFactor(1, 1e-12, 20)).toBeCloseTo(1, 11); // no cancellation at tiny growth
  expect(() => growthFactor(1, -1, 20)).toThrow("growth");
  expect(() => growthFactor(-1, 0, 20)).toThrow("years");
});
