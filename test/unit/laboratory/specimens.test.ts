import {expect, test} from "vitest";
import {
  bendingConstants,
  complexModulus,
  type SpecimenShape,
  specimenStrain,
  swingingMass,
} from "../../../src/engine/laboratory/index.ts";

const trapezoid: SpecimenShape = {kind: "trapezoid", baseWidth: 0.056, topWidth: 0.025, height: 0.25, thickness: 0.025};
const prism: SpecimenShape = {kind: "prism", outerSpan: 0.357, innerSpan: 0.119, height: 0.05, width: 0.06};

test("a strain is taken as it is, a displacement through the shape", () => {
  expect(specimenStrain({amplitude: {kind: "strain", strain: 1.5e-4}, shape: null})).toBe(1.5e-4);
  // z = 0.19449228 mm for 150 µε at 56/25/250: beam theory by another program.
  const displacement = 0.19449228e-3;
  expect(specimenStrain({amplitude: {kind: "displacement", displacement}, shape: trapezoid})).toBeCloseTo(1.5e-4, 11);
  expect(() => specimenStrain({amplitude: {kind: "displacement", displacement}, shape: null}, "specimens[3]")).toThrow(
    "specimens[3].shape",
  );
  expect(() => specimenStrain({amplitude: {kind: "strain", strain: 0}, shape: null})).toThrow("amplitude.strain");
});

test("a base narrower than twice the head is refused, exactly twice is not", () => {
  expect(() => bendingConstants({...trapezoid, baseWidth: 0.0499})).toThrow("shape.baseWidth: got 0.0499, need ≥ 0.05");
  expect(bendingConstants({...trapezoid, baseWidth: 0.05}).criticalHeight).toBe(0); // then the clamp itself
});

test("sizes must be sizes", () => {
  expect(() => bendingConstants({...trapezoid, height: 0})).toThrow("height");
  expect(() => bendingConstants({...trapezoid, thickness: Number.NaN})).toThrow("thickness");
  expect(() => bendingConstants({...prism, innerSpan: 0.357})).toThrow("innerSpan");
  expect(() => bendingConstants({...prism, width: -1})).toThrow("width");
});

test("stress is modulus times strain", () => {
  for (const shape of [trapezoid, prism]) {
    const {stressPerForce, strainPerDisplacement, stiffnessFactor} = bendingConstants(shape);
    const E = 5e9;
    const [F, z] = [100, (100 * stiffnessFactor) / E]; // E = γ·F/z
    expect(stressPerForce * F).toBeCloseTo(E * strainPerDisplacement * z, 3);
  }
});

test("without mass and lag the modulus is γ·F/z; mass adds to the storage part only", () => {
  const gamma = bendingConstants(prism).stiffnessFactor;
  const reading = {force: 200, displacement: 1e-4, phaseLag: 0, frequency: 10};
  expect(complexModulus(prism, reading, 0)).toMatchObject({modulus: gamma * 2e6, phase: 0, loss: 0});
  const mass = swingingMass(prism, {specimen: 2, movingParts: 1});
  const lagging = {...reading, phaseLag: 0.4};
  const [light, heavy] = [0, mass].map(mu => complexModulus(prism, lagging, mu));
  expect(heavy.loss).toBe(light.loss);
  expect((heavy.storage - light.storage) / (gamma * mass * (20 * Math.PI) ** 2)).toBeCloseTo(1, 9);
  expect(heavy.phase).toBeLessThan(light.phase);
});

test("readings must be readings", () => {
  const reading = {force: 200, displacement: 1e-4, phaseLag: 0, frequency: 10};
  expect(() => complexModulus(prism, {...reading, displacement: 0}, 0)).toThrow("reading.displacement");
  expect(() => complexModulus(prism, {...reading, phaseLag: 25}, 0)).toThrow("[rad]"); // degrees, most likely
  expect(() => complexModulus(prism, reading, -1)).toThrow("mass");
  expect(() => swingingMass(prism, {specimen: -1, movingParts: 0})).toThrow("masses.specimen");
});
