import {expect, test} from "vitest";
import {solveBeam} from "../../../src/engine/laboratory/beam.ts";
import {beamCycles, beamHistory} from "../../../src/engine/laboratory/beamGrowth.ts";
import {lawVector} from "../../../src/engine/laboratory/beamLaws.ts";
import {predictBeam} from "../../../src/engine/laboratory/beamPrediction.ts";
import {beamFit, beamTest, faces, INTERLAYER} from "./fixture.ts";

const choices = {plane: "stress", zoneLength: {mix: 0.008, soft: 0.005}, interlock: 0, accuracy: 0.04} as const;
const law = {logRate: Math.log(3e-7), exponent: 4};
const solution = solveBeam(beamTest({interlayer: INTERLAYER}), 1e8, choices);
const cycles = beamCycles(solution, 1);
const life = beamHistory(solution, cycles, {overlay: law, interlayer: null}, 1e9).passes.at(-1)!;
const readings = [{passes: Math.round(life / 2), lower: faces("n"), upper: faces("n"), stopped: true}];
const one = {test: beamTest({interlayer: INTERLAYER, readings}), solution, cycles};
const laws = lawVector([one.test], {mix: {kind: "fitted"}, soft: {kind: "whole"}});

const fitOf = (deviation: number, beam: number) =>
  beamFit({
    parameters: Float64Array.of(law.logRate, law.exponent),
    covariance: Float64Array.of(deviation ** 2, 0, 0, deviation ** 2),
    scatter: {beam, upper: 1e-6, exponent: 1e-6, lower: 1e-3, surface: 1e-3},
    degrees: 5,
  });

test("laws and beams that are known give one life, and fronts as they would be read", () => {
  const {life: spread, median, lower, observed, within} = predictBeam(one, fitOf(1e-6, 1e-6), laws, 1);
  expect(median).toBeCloseTo(life, 6);
  expect(spread.low / life).toBeCloseTo(1, 3);
  expect(spread.high / life).toBeCloseTo(1, 3);
  // The interlayer stays whole and the crack begins above it: it is read up to its highest tip.
  expect(lower.middle.at(-1)).toBeGreaterThan(INTERLAYER.thickness + 2e-3);
  expect(observed).toEqual({after: readings[0].passes, before: null});
  expect(within).toBe(true);
});

// Life is e^−b times the median with b of Student's t of 5 degrees: t(0.95; 5) = 2.0150 (table, from memory). A quantile of
// 200 draws errs by √(0.05·0.95/200)/0.06 = 0.25 deviations, 0.06 being t's density there; three times that allowed.
test("beams differ as wide as Student's t has their scatter", () => {
  const {life: spread} = predictBeam(one, fitOf(1e-6, 0.3), laws, 1);
  expect(Math.abs(Math.log(spread.high / life) / 0.3 - 2.015)).toBeLessThan(0.75);
  expect(Math.abs(Math.log(life / spread.low) / 0.3 - 2.015)).toBeLessThan(0.75);
});

test("a life beyond what the readings allow is not within", () => {
  const later = [{...readings[0], passes: Math.round(3 * life)}];
  const unbroken = {...one, test: {...one.test, readings: later}};
  expect(predictBeam(unbroken, fitOf(1e-6, 1e-6), laws, 1).within).toBe(false);
});
