import {expect, test} from "vitest";
import {
  breakage,
  faceDeviation,
  meanReadings,
  observationsOf,
} from "../../../src/engine/laboratory/beamObservations.ts";
import type {BeamReading} from "../../../src/engine/laboratory/beamTypes.ts";
import {beamTest, faces, INTERLAYER} from "./fixture.ts";

type Read = readonly (number | "n" | "t")[];

const reading = (passes: number, lower: Read, upper: Read = []): BeamReading => ({
  passes,
  lower: faces(...lower),
  upper: faces(...upper),
  stopped: false,
});

const observed = (r: BeamReading, change = {}) =>
  observationsOf(beamTest({readings: [r], ...change}), 1e-3).map(o =>
    o.kind === "length" || o.kind === "shorter"
      ? {kind: o.kind, front: o.front, mm: Number((o.length * 1e3).toFixed(9))}
      : {kind: o.kind},
  );

test("faces are averaged, and their mean errs less", () => {
  const [, lower] = observationsOf(beamTest({readings: [reading(100, [8, 10])]}), 1e-3);
  expect(lower).toMatchObject({kind: "length", front: 1, logPasses: Math.log(100)});
  expect(lower).toHaveProperty("length", expect.closeTo(9e-3, 12));
  expect(lower).toHaveProperty("error", 1e-3 / Math.SQRT2);
});

test("a crack that one face does not show counts half the detection limit there", () => {
  expect(observed(reading(100, [3, "n"]))).toEqual([{kind: "unbroken"}, {kind: "length", front: 1, mm: 2}]);
  expect(meanReadings(beamTest({readings: [reading(100, [3, "n"])]}))).toEqual([
    {passes: 100, front: "lower", length: 2e-3, difference: 2e-3},
  ]);
});

test("a crack that no face shows is shorter than the detection limit", () => {
  expect(observed(reading(100, ["n", "n"], ["n", "n"]))).toEqual([
    {kind: "unbroken"},
    {kind: "shorter", front: 1, mm: 2},
    {kind: "shorter", front: 2, mm: 2},
  ]);
});

test("what was not read says nothing of a length", () => {
  expect(observed(reading(100, []))).toEqual([{kind: "unbroken"}]);
});

test("within an interlayer a length is the interlayer's, above it the overlay's", () => {
  const change = {interlayer: INTERLAYER}; // 12 mm
  expect(observed(reading(100, [7, 9]), change)).toEqual([
    {kind: "unbroken"},
    {kind: "length", front: 0, mm: 8},
    {kind: "shorter", front: 1, mm: 2},
  ]);
  // Above it nothing is said of the interlayer: the crack may have begun over it.
  expect(observed(reading(100, [20, 22]), change)).toEqual([{kind: "unbroken"}, {kind: "length", front: 1, mm: 9}]);
  expect(observed(reading(100, ["n"]), change)).toEqual([
    {kind: "unbroken"},
    {kind: "shorter", front: 0, mm: 2},
    {kind: "shorter", front: 1, mm: 2},
  ]);
});

test("a crack through on one face is a broken beam", () => {
  expect(observed(reading(100, [40, "t"], [3]))).toEqual([{kind: "broken"}]);
  const readings = [reading(100, [40]), reading(200, ["t"]), reading(300, ["t"])];
  expect(breakage(beamTest({readings}))).toEqual({after: 100, before: 200});
  expect(breakage(beamTest({readings: readings.slice(0, 1)}))).toEqual({after: 100, before: null});
});

test("nothing has happened before the first pass", () => {
  expect(observed(reading(0, ["n"]))).toEqual([]);
});

// Differences of 2 mm throughout: √(Σd²/2n) = √2 mm.
test("faces that differ by more than the stated error say what a reading is worth", () => {
  const apart = beamTest({readings: [1, 2, 3, 4, 5].map(k => reading(100 * k, [5 + k, 7 + k]))});
  expect(faceDeviation([apart])).toBeCloseTo(Math.SQRT2 * 1e-3, 12);
  expect(faceDeviation([{...apart, readingError: 2e-3}])).toBe(2e-3);
  expect(faceDeviation([{...apart, readings: apart.readings.slice(0, 4)}])).toBe(1e-3); // too few to tell
});
