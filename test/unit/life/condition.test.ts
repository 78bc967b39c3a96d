/** Bonds and reinforcement through to lives and to the thermal cases. */
import {expect, test} from "vitest";
import {lifeOf, type Study} from "../../../src/engine/life/index.ts";
import {thermalResponse} from "../../../src/engine/life/thermal.ts";
import {responseGeometry, TIPS} from "../../../src/engine/response/index.ts";
import type {Layer, Reinforcement, Section} from "../../../src/engine/section/index.ts";
import type {LoadClass} from "../../../src/engine/traffic/index.ts";
import {layer, section} from "../section/fixture.ts";

const fatigue = {strainAtMillion: 1e-4, exponent: 5, referenceModulus: null, stiffnessExponent: 0};

/** Courses on the base of the fixture. */
function road(courses: readonly Layer[], change: Partial<Section> = {}): Section {
  const below = section().layers.filter(l => l.role === "jointed" || l.role === "foundation");
  return section({layers: [...courses, ...below], ...change});
}

const course = (thickness: number, bondBelow?: number): Layer => {
  const own = layer("overlay", thickness, 3.5e9, 0.35);
  const material = {...own.material, fatigue};
  return {...own, material, ...(bondBelow !== undefined && {bondBelow})};
};

const wheel: LoadClass = {
  name: "wheel",
  wheels: [{x: 0, y: 0, load: 40e3, length: 0.24, width: 0.24}],
  passesPerYear: 1e5,
  growth: 0,
  group: null,
  wander: {kind: "normal", deviation: 0.25},
};

const study = (sections: readonly Section[]): Study => ({
  name: "test",
  treatments: sections.map((s, k) => ({name: `treatment ${k}`, description: "", section: s})),
  traffic: {classes: [wheel], standardAxle: wheel, calendar: {hours: null, months: null}},
  weather: null,
  exchange: {absorptivity: 0.9, emissivity: 0.9, filmCoefficient: 15},
  bins: [{temperature: 15, share: 1}],
  neutralTemperature: null,
  analysisPeriod: 20,
  accuracy: 0.05,
  costs: null,
});

const GRID: Reinforcement = {name: "grid", depth: 0.06, height: 0.01, stiffness: 4e6, bondLength: 0.05};

test("lives by traffic and by ordinary fatigue, of lifts that slide and with a grid", () => {
  const lifts = (bond: number): Section => road([course(0.03, bond), course(0.03)]);
  const plain = road([course(0.06)]);
  const {treatments} = lifeOf(
    study([
      plain,
      {...plain, reinforcement: {...GRID, stiffness: 0}},
      {...plain, reinforcement: GRID},
      lifts(1e15),
      lifts(0),
    ]),
  );
  const reflection = treatments.map(t => t.histories[0].life.years);
  const upper = treatments.map(t => t.ordinary.find(o => o.mechanism === "underside fatigue")!.life.years);
  expect(reflection[1]).toBe(reflection[0]);
  expect(reflection[2] / reflection[0]).toBeCloseTo(1, 2); // shear rules under a wheel at this joint, and a grid passes none on
  // Zones end where lifts may slide, however little they do: that alone costs a tenth.
  expect(reflection[3] / reflection[0]).toBeGreaterThan(0.85);
  expect(reflection[3] / reflection[0]).toBeLessThan(1);
  expect(Number.isFinite(reflection[4])).toBe(true);
  expect(upper[4]).toBeLessThan(0.1 * upper[3]); // an upper lift that slides bends by itself
});

test("temperature: the grid holds a crack that has passed it, and nothing else", () => {
  const geometryOf = (s: Section) => responseGeometry(s, {accuracy: 0.05, reach: 0});
  const [plain, held] = [road([course(0.06)]), road([course(0.06)], {reinforcement: GRID})].map(s =>
    thermalResponse(geometryOf(s)),
  );
  const {space} = plain;
  const underside = (state: number): number => state * TIPS.length * 3 + 3; // by +1 K of the slab
  const whole = space.index(0, 0, 0);
  expect(held.opening[underside(whole)]).toBe(plain.opening[underside(whole)]);
  expect(held.jointOpening).toEqual(plain.jointOpening);
  const last = space.undersideLength.findLastIndex(l => l < 0.04);
  for (let b = 1; b <= last; b++) {
    const k = underside(space.index(0, b, 0));
    expect(plain.opening[k]).toBeLessThan(0); // warming closes
    expect(Math.abs(held.opening[k])).toBeLessThan(Math.abs(plain.opening[k]));
  }
});

test("temperature: an overlay that slides on the slab is hardly pulled at", () => {
  const [bonded, sprung, free] = [Infinity, 1e8, 0].map(bond =>
    Math.abs(thermalResponse(responseGeometry(road([course(0.06, bond)]), {accuracy: 0.05, reach: 0})).opening[3]),
  );
  expect(sprung).toBeLessThan(bonded);
  expect(free).toBeLessThan(0.05 * bonded); // the slab still bends, held by friction below, and the overlay with it
});
