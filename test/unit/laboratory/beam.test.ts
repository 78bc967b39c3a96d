import {expect, test} from "vitest";
import {beamSection} from "../../../src/engine/laboratory/beam.ts";
import {beamTest, INTERLAYER} from "./fixture.ts";

const section = (plane: "stress" | "strain") =>
  beamSection(beamTest({interlayer: INTERLAYER}), 1e8, {
    plane,
    zoneLength: {mix: 0.008, soft: 0.005},
    interlock: 0,
    accuracy: 0.02,
  });

// Plane strain with E* and ν* bends as E*/(1 − ν*²) and shears as E*/(2(1 + ν*)): in plane stress E and E/(2(1 + ν)).
test("plane-stress constants give back E and G", () => {
  const {layers} = section("stress");
  for (const [k, E, v] of [
    [0, 4e9, 0.35],
    [1, 5e8, 0.4],
    [2, 10e9, 0.2],
  ]) {
    const {poisson, modulus} = layers[k].material;
    expect(modulus[0].modulus / (1 - poisson ** 2) / E).toBeCloseTo(1, 12);
    expect(modulus[0].modulus / (2 * (1 + poisson)) / (E / (2 * (1 + v)))).toBeCloseTo(1, 12);
  }
});

test("plane strain takes the constants as they are", () => {
  const {layers} = section("strain");
  expect(layers.map(l => [l.material.modulus[0].modulus, l.material.poisson])).toEqual([
    [4e9, 0.35],
    [5e8, 0.4],
    [10e9, 0.2],
  ]);
});

test("a material without a process zone is named", () => {
  const choices = {plane: "stress", zoneLength: {mix: 0.008}, interlock: 0, accuracy: 0.02} as const;
  expect(() => beamSection(beamTest({interlayer: INTERLAYER}), 1e8, choices)).toThrow(/zoneLength of soft/);
});
