import {expect, test} from "vitest";
import {InputError} from "../../../src/engine/errors.ts";
import type {BeamChoices} from "../../../src/engine/laboratory/index.ts";
import {beamFoundation, beamLift} from "../../../src/engine/laboratory/index.ts";
import {beamTest} from "./fixture.ts";

const CHOICES: BeamChoices = {plane: "stress", zoneLength: {mix: 0.01}, interlock: 0, accuracy: 0.04};
const measured = (deflection: number, at?: number) =>
  beamTest({foundation: {kind: "deflection", load: 1500, deflection, ...(at === undefined ? {} : {at})}});

test("a stiffness that is given is taken", () => {
  expect(beamFoundation(beamTest(), CHOICES)).toBe(1e8);
});

test("a larger deflection is a softer foundation", () => {
  const [small, large] = [0.1e-3, 0.2e-3].map(w => beamFoundation(measured(w), CHOICES));
  expect(large).toBeLessThan(small);
});

test("the load counts: twice the load at twice the deflection is the same foundation", () => {
  const once = beamFoundation(measured(0.1e-3), CHOICES);
  const twice = beamTest({foundation: {kind: "deflection", load: 3000, deflection: 0.2e-3}});
  expect(beamFoundation(twice, CHOICES) / once).toBeCloseTo(1, 5);
});

test("on springs so soft that the beam settles as a rigid body, the stiffness is load over area and deflection", () => {
  // 1500 N on 0.6 m × 0.1 m that settles evenly by 50 mm: 500 kPa/m; bending adds 1 % at most, λL is 0.6.
  const stiffness = beamFoundation(measured(50e-3), CHOICES);
  expect(stiffness / 5e5).toBeGreaterThan(0.98);
  expect(stiffness / 5e5).toBeLessThan(1.03);
});

test("there it tilts as a rigid body under a wheel at e: the far end lifts by 6e/L − 1 of the settlement", () => {
  expect(beamLift(beamTest(), 5e5, CHOICES)).toBeCloseTo((6 * 0.25) / 0.6 - 1, 1);
  const near = beamTest({travel: {from: -0.09, to: 0.09}}); // within the core, L/6
  expect(beamLift(near, 5e5, CHOICES)).toBe(0);
});

test("a deflection that no foundation gives is refused", () => {
  expect(() => beamFoundation(measured(1e-9), CHOICES)).toThrow(InputError);
  expect(() => beamFoundation(measured(1e-9), CHOICES)).toThrow(/rigid ground/);
  expect(() => beamFoundation(measured(10), CHOICES)).toThrow(/springs of/);
});
