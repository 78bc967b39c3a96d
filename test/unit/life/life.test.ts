import {describe, expect, test} from "vitest";
import {pavementTemperatures, type WeatherRecord} from "../../../src/engine/climate/index.ts";
import {lifeOf, lifePlan, type Study} from "../../../src/engine/life/index.ts";
import {wanderOver} from "../../../src/engine/life/lane.ts";
import type {Layer, LayerRole, Section} from "../../../src/engine/section/index.ts";
import type {LoadClass} from "../../../src/engine/traffic/index.ts";

const layer = (name: string, role: LayerRole, modulus: number, thickness: number, speed = 1): Layer => ({
  name,
  role,
  thickness,
  material: {
    name: `${modulus} ${speed}`,
    modulus: [{temperature: 15, modulus}],
    relaxationModulus: modulus / 5,
    seasonalRelaxationModulus: modulus / 5,
    masterCurve: null,
    poisson: 0.35,
    expansion: 2e-5,
    conductivity: 1.4,
    density: 2300,
    heatCapacity: 900,
    growth: {coefficient: 7e5 * speed, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0},
    fatigue: null,
    source: "",
  },
});

const section = (overlay: readonly Layer[], more: Partial<Section> = {}): Section => ({
  layers: [...overlay, layer("base", "jointed", 8e9, 0.2), layer("ground", "foundation", 1e8, 1)],
  joint: {
    spacing: 4,
    width: 0,
    unbondedStrip: 0,
    transfer: {kind: "spring", stiffness: 0},
    facesTouch: false,
    cutDepth: 0.3,
  },
  slabFriction: Number.POSITIVE_INFINITY,
  base: {kind: "rigid"},
  crackInterlock: 0,
  shearWeight: 1,
  ...more,
});

const wheel: LoadClass = {
  name: "wheel",
  wheels: [{x: 0, y: 0, load: 40e3, length: 0.24, width: 0.24}],
  passesPerYear: 1e5,
  growth: 0,
  group: null,
  wander: {kind: "normal", deviation: 0.25},
};

const study = (sections: readonly Section[], load: LoadClass = wheel): Study => ({
  name: "test",
  treatments: sections.map((s, k) => ({name: `treatment ${k}`, description: "", section: s})),
  traffic: {classes: [load], standardAxle: load, calendar: {hours: null, months: null}},
  weather: null,
  exchange: {absorptivity: 0.9, emissivity: 0.9, filmCoefficient: 15},
  bins: [{temperature: 15, share: 1}],
  neutralTemperature: null,
  analysisPeriod: 20,
  accuracy: 0.03,
  costs: null,
});

const lives = (s: Study): number[] => lifeOf(s).treatments.map(t => t.histories[0].life.years);

describe("lives by traffic", () => {
  test("a layer laid in two lifts lasts as long as one, wherever the lifts meet", () => {
    const asphalt = (thickness: number): Layer => layer("overlay", "overlay", 3.5e9, thickness);
    const halves = section([asphalt(0.03), asphalt(0.03)]);
    const others = section([asphalt(0.037), asphalt(0.023)]);
    const [one, ...two] = lives({...study([section([asphalt(0.06)]), halves, others]), accuracy: 0.01});
    for (const life of two) expect(life / one).toBeCloseTo(1, 1.5); // rows differ, so strains do by 0.4 %: lives by 1.6 %
  });

  test("a faster lower course shortens the life, by no more than were it the whole overlay", () => {
    const [slow, mixed, fast] = lives(
      study([
        section([layer("overlay", "overlay", 3.5e9, 0.06)]),
        section([layer("upper", "overlay", 3.5e9, 0.03), layer("lower", "overlay", 3.5e9, 0.03, 5)]),
        section([layer("overlay", "overlay", 3.5e9, 0.06, 5)]),
      ]),
    );
    expect(slow / fast).toBeCloseTo(5, 1);
    expect(mixed).toBeLessThan(slow);
    expect(mixed).toBeGreaterThan(fast);
  });

  test("wander never shortens a life, however small", () => {
    const one = section([layer("overlay", "overlay", 3.5e9, 0.05)]);
    const still = lives(study([one], {...wheel, wander: {kind: "normal", deviation: 0}}))[0];
    for (const deviation of [0.002, 0.02, 0.25]) {
      expect(lives(study([one], {...wheel, wander: {kind: "normal", deviation}}))[0]).toBeGreaterThanOrEqual(
        still * (1 - 1e-9),
      );
    }
  });

  test("interlock of crack faces lengthens a life", () => {
    const plain = [layer("overlay", "overlay", 3.5e9, 0.05)];
    const [smooth, rough] = lives(study([section(plain), section(plain, {crackInterlock: 5e10})]));
    expect(rough).toBeGreaterThan(1.2 * smooth);
  });

  test("what no task could work with is said before any starts", () => {
    const good = study([section([layer("overlay", "overlay", 3.5e9, 0.05)])]);
    expect(() => lifePlan({...good, bins: []})).toThrow(/bins.length: got 0/);
    expect(() => lifePlan({...good, bins: [{temperature: 15, share: 0.5}]})).toThrow(/sum of shares: got 0.5/);
    expect(() => lifePlan({...good, bins: {kind: "derive", count: 5}})).toThrow(/weather: got null/);
    expect(() => lifePlan({...good, accuracy: 1})).toThrow(/accuracy: got 1/);
    expect(() => lifePlan({...good, traffic: {...good.traffic, classes: []}})).toThrow(/neither passes nor weather/);
    const standardAxle = {...wheel, wheels: []};
    expect(() => lifePlan({...good, traffic: {...good.traffic, standardAxle}})).toThrow(/standardAxle/);
  });
});

test("the yearly range of a slab that never thaws does not reach up to 0 °C", () => {
  // A record held at −10 °C: whatever the joint is, it does not move.
  const hours = 24 * 30;
  const weather: WeatherRecord = {
    kind: "surface",
    temperature: new Float64Array(hours).fill(-10),
    solar: null,
    wind: null,
    dewPoint: null,
    cloud: null,
    startHour: 0,
    startDay: 0,
    label: "cold",
  };
  const cold = {...study([section([layer("overlay", "overlay", 3.5e9, 0.05)])], {...wheel, passesPerYear: 0}), weather};
  const {jointMovement} = lifeOf(cold).treatments[0];
  expect(jointMovement!.free).toBeLessThan(1e-9);
  expect(jointMovement!.computed).toBeLessThan(1e-9);
});

test("temperatures that the plan knows are handed on, to sections that conduct heat as the control does", () => {
  const temperature = Float64Array.from({length: 48}, (_, h) => 10 + 8 * Math.sin((Math.PI * h) / 12));
  const weather: WeatherRecord = {
    kind: "surface",
    temperature,
    solar: null,
    wind: null,
    dewPoint: null,
    cloud: null,
    startHour: 0,
    startDay: 0,
    label: "wave",
  };
  const thin = section([layer("overlay", "overlay", 3.5e9, 0.05)]);
  const softer = section([layer("overlay", "overlay", 2e9, 0.05)]);
  const thick = section([layer("overlay", "overlay", 3.5e9, 0.08)]);
  const derived: Study = {...study([thin, softer, thick]), weather, bins: {kind: "derive", count: 2}};
  const runs = lifePlan(derived).tasks.flatMap(task => (task.kind === "thermal" ? [task.run] : []));
  expect(runs.map(run => run !== null)).toEqual([true, true, false]);
  const expected = pavementTemperatures(thin, weather, derived.exchange);
  expect(runs[0]!.slabMean).toEqual(expected.slabMean);
  expect(runs[0]).not.toHaveProperty("atDepth"); // what the task does not need stays with the plan
  const [one, alike, other] = lifeOf(derived).treatments.map(t => t.temperatures!);
  expect(one.atDepth[1].temperature).toEqual(expected.atDepth[1].temperature);
  expect(alike).toBe(one);
  expect(other.atDepth[1].depth).toBeCloseTo(0.04, 12);
});

test("wander keeps what a pass does, on a lane of unequal steps", () => {
  const y = Float64Array.from([0, 0.1, 0.2, 0.35, 0.6, 1, 1.6, 2.5, 4]);
  const lane = {y, mirrored: true};
  const values = Float64Array.from([3, 2, 1, 0, 0, 0, 0, 0, 0]);
  const cell = (k: number): number => ((y[k + 1] ?? 2 * y[k] - y[k - 1]) - (y[k - 1] ?? -y[1])) / 2; // both sides of y = 0 are alike
  const whole = (v: Float64Array): number => v.reduce((sum, x, k) => sum + x * cell(k) * (k === 0 ? 0.5 : 1), 0);
  expect(whole(wanderOver(lane, {kind: "normal", deviation: 0.3}, 1, values)) / whole(values)).toBeCloseTo(1, 1);
});
