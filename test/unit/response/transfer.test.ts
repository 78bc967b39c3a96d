/** Deflection tests at the joint. */
import {expect, test} from "vitest";
import {edgeDeflections, testDeflections, transferSpring} from "../../../src/engine/response/index.ts";
import type {DeflectionTest, Section} from "../../../src/engine/section/index.ts";
import {section} from "../section/fixture.ts";

const ROAD = section({layers: section().layers.filter(l => l.role !== "interlayer")}, {unbondedStrip: 0});
const MODULI = ROAD.layers.map(l => l.material.modulus[0].modulus);
const WHEEL = {length: 0.3, width: 0.3, pressure: 5e4 / 0.09};

function testOn(surface: boolean, positions: DeflectionTest["positions"], change: Partial<DeflectionTest> = {}) {
  const {layers, slabFriction, base, joint} = ROAD;
  return {
    section: {layers: surface ? layers : layers.slice(1), slabFriction, base, joint},
    temperature: null,
    plate: {side: 0.3, centre: 0.2, pressure: WHEEL.pressure},
    sensors: {loaded: 0.2, unloaded: 0.15},
    positions,
    ...change,
  } satisfies DeflectionTest;
}

function withTest(found: DeflectionTest): Section {
  return {...ROAD, joint: {...ROAD.joint, transfer: {kind: "test", test: found}}};
}

test("plate tangent to the joint, sensors on the edge: the wheel of the efficiency", () => {
  const places = {plate: {side: 0.3, centre: 0.15, pressure: WHEEL.pressure}, sensors: {loaded: 0, unloaded: 0}};
  const own = testDeflections(testOn(false, [], places), 0.02);
  const wheel = edgeDeflections(
    {...ROAD, layers: ROAD.layers.slice(1)},
    MODULI.slice(1),
    {...WHEEL, length: 0.3},
    0.02,
  );
  for (const q of [0, 1e9]) {
    expect(own(q).loaded).toBeCloseTo(wheel(q).loaded, 10);
    expect(own(q).unloaded).toBeCloseTo(wheel(q).unloaded, 10);
  }
});

test.each([false, true])(
  "the springs behind two made-up measurements come back, and their mean; on a surface: %s",
  surface => {
    const deflections = testDeflections(testOn(surface, []), 0.02);
    const springs = [5e8, 2e9];
    const positions = springs.map((q, k) => ({name: (["approach", "leave"] as const)[k], ...deflections(q)}));
    const {stiffness, tested, floor, efficiency} = transferSpring(
      withTest(testOn(surface, positions)),
      MODULI,
      WHEEL,
      0.02,
    );
    springs.forEach((q, k) => {
      expect(tested![k].stiffness / q).toBeCloseTo(1, 3);
      expect(tested![k].computed / tested![k].loaded).toBeCloseTo(1, 3);
    });
    expect(stiffness / 1.25e9).toBeCloseTo(1, 3);
    expect(floor).toBe(false);
    // Efficiency as it is told is that of the wheel at the joint of the bare layer.
    const {loaded, unloaded} = edgeDeflections(ROAD, MODULI, WHEEL, 0.02)(stiffness);
    expect(efficiency).toBe(unloaded / loaded);
  },
);

test("a load farther from the joint has less to pass on: the ratio of the sensors falls", () => {
  const ratios = [0.16, 0.4, 0.8].map(centre => {
    const plate = {side: 0.3, centre, pressure: WHEEL.pressure};
    const {loaded, unloaded} = testDeflections(
      testOn(false, [], {plate, sensors: {loaded: centre, unloaded: 0.15}}),
      0.02,
    )(1e9);
    return unloaded / loaded;
  });
  expect(ratios[1]).toBeLessThan(ratios[0]);
  expect(ratios[2]).toBeLessThan(ratios[1]);
});

test("each side's deflection is that of its own sensor", () => {
  const at = (loaded: number, unloaded: number) =>
    testDeflections(testOn(false, [], {sensors: {loaded, unloaded}}), 0.02)(1e9);
  const [own, mixed, other] = [at(0.2, 0.2), at(0.2, 0.4), at(0.4, 0.4)];
  expect(mixed.loaded / own.loaded).toBeCloseTo(1, 4); // reach and so the mesh differ a little
  expect(mixed.unloaded / other.unloaded).toBeCloseTo(1, 4);
  expect(other.unloaded).toBeLessThan(0.9 * own.unloaded);
});

test("less than the foundation alone transfers: no spring, and it is told of which position", () => {
  const positions = [{name: "leave", loaded: 1e-3, unloaded: 1e-6}] as const;
  const found = transferSpring(withTest(testOn(false, positions)), MODULI, WHEEL, 0.02);
  expect(found).toMatchObject({stiffness: 0, floor: true, tested: [{name: "leave", floor: true}]});
});

test("what cannot be", () => {
  const equal = [{name: "approach", loaded: 1e-3, unloaded: 1e-3}] as const;
  expect(() => transferSpring(withTest(testOn(false, equal)), MODULI, WHEEL, 0.02)).toThrow("positions[0]");
  expect(() => transferSpring(withTest(testOn(false, [])), MODULI, WHEEL, 0.02)).toThrow("positions.length");
  const layers = ROAD.layers.slice(1).map(l => ({
    ...l,
    material: {...l.material, modulus: [...l.material.modulus, {temperature: 40, modulus: 1e9}]},
  }));
  const warm = testOn(false, equal);
  expect(() => testDeflections({...warm, section: {...warm.section, layers}}, 0.02)).toThrow("temperature");
});
