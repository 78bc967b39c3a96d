/** A deflection test beside a joint that passes shear: plate and sensors away from it, against thin plates. */
import {type TransferSpring, testDeflections, transferSpring} from "../../src/engine/response/index.ts";
import type {DeflectionTest, Section} from "../../src/engine/section/index.ts";
import type {Compare} from "../table.ts";
import {beside, radius} from "./kirchhoff.ts";
import {plateOf, slabOf} from "./slabs.ts";
import {bareSlab, layer} from "./solve.ts";

const SLAB = slabOf(35e9, 0.15, 0.1, 0.05);
const L = radius(plateOf(SLAB));
const SIDE = 0.16 * L; // of the plate: a circle of 0.09 l

/** Plate and sensors, distances in l. */
const SET_UPS = [
  {name: "plate at the joint, sensors 0.1 l on either side", centre: 0.08, loaded: 0.1, unloaded: 0.1},
  {name: "plate centre and sensors at 0.15 l", centre: 0.15, loaded: 0.15, unloaded: 0.15},
  {name: "plate centre at 0.2 l, sensors under it and at 0.3 l", centre: 0.2, loaded: 0.2, unloaded: 0.3},
] as const;

type SetUp = (typeof SET_UPS)[number];

const SPRINGS = [0.5, 2, 10] as const; // AGG/(kl)

const springOf = (agg: number): number => (agg * SLAB.support * L) / SLAB.thickness;

function testOf(setUp: SetUp, positions: DeflectionTest["positions"]): DeflectionTest {
  const {joint, layers, slabFriction, base} = bareSlab(
    layer("jointed", SLAB.modulus, SLAB.poisson, SLAB.thickness),
    16 * L,
    SLAB.support,
  );
  return {
    section: {layers, slabFriction, base, joint},
    temperature: null,
    plate: {side: SIDE, centre: setUp.centre * L, pressure: 1 / SIDE ** 2},
    sensors: {loaded: setUp.loaded * L, unloaded: setUp.unloaded * L},
    positions,
  };
}

function exactOf({centre, loaded, unloaded}: SetUp, agg: number): {loaded: number; unloaded: number} {
  const places = {from: centre * L - SIDE / 2, to: centre * L + SIDE / 2, loaded: loaded * L, unloaded: unloaded * L};
  return beside(plateOf(SLAB), places, agg * SLAB.support * L);
}

/** The spring found again from deflections of the exact solution at two springs, as if approach and leave differed. */
function found(setUp: SetUp, springs: readonly [number, number]): TransferSpring {
  const positions = springs.map((agg, k) => ({
    name: (["approach", "leave"] as const)[k],
    ...exactOf(setUp, agg),
  }));
  const test = testOf(setUp, positions);
  const section: Section = {
    ...test.section,
    joint: {...test.section.joint, transfer: {kind: "test", test}},
    crackInterlock: 0,
    shearWeight: 1,
  };
  return transferSpring(section, [SLAB.modulus], {length: SIDE, width: SIDE, pressure: 1 / SIDE ** 2}, 0.01);
}

export function deflectionTests(compare: Compare): void {
  const unit = SLAB.support * L * L;
  const shared = {source: "two semi-infinite Kirchhoff plates with a shear spring", standing: "derived"} as const;
  for (const setUp of SET_UPS) {
    const deflections = testDeflections(testOf(setUp, []), 0.01);
    for (const agg of SPRINGS) {
      const name = `${setUp.name}, AGG/(kl) = ${agg}`;
      const [own, exact] = [deflections(springOf(agg)), exactOf(setUp, agg)];
      const row = {...shared, unit: "–", tolerance: 5e-3};
      compare({
        ...row,
        name: `${name}: loaded side w·kl²/P`,
        expected: exact.loaded * unit,
        computed: own.loaded * unit,
      });
      compare({
        ...row,
        name: `${name}: ratio of the sensors`,
        expected: exact.unloaded / exact.loaded,
        computed: own.unloaded / own.loaded,
        absolute: true,
      });
    }
    const {stiffness, tested} = found(setUp, [1, 4]);
    const spring = {...shared, name: `${setUp.name}: spring from approach (1) and leave (4)`, unit: "kl/h"};
    const scale = SLAB.thickness / (SLAB.support * L);
    compare({...spring, expected: 2.5, computed: stiffness * scale, tolerance: 0.01});
    for (const [k, expected] of [1, 4].entries())
      compare({
        ...spring,
        name: `${spring.name}, ${tested![k].name}`,
        expected,
        computed: tested![k].stiffness * scale,
        tolerance: 0.01,
      });
  }
}
