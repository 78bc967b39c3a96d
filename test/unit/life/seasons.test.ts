import {describe, expect, test} from "vitest";
import type {WeatherRecord} from "../../../src/engine/climate/index.ts";
import {lifeOf, type Study} from "../../../src/engine/life/index.ts";
import {tipLaws} from "../../../src/engine/life/passes.ts";
import {relaxesFurther, seasonalPart, splitHistory, thermalParts} from "../../../src/engine/life/seasons.ts";
import {
  type ThermalHistory,
  thermalCondition,
  thermalCycles,
  thermalGrowth,
  thermalResponse,
} from "../../../src/engine/life/thermal.ts";
import {HALVED, responseGeometry, tipLayers} from "../../../src/engine/response/index.ts";
import type {Layer, LayerRole, Section} from "../../../src/engine/section/index.ts";

const DAY = (2 * Math.PI) / 24;
const YEAR = (2 * Math.PI) / 8760;

const wave = (hours: number, value: (hour: number) => number): Float64Array =>
  Float64Array.from({length: hours}, (_, h) => value(h));

describe("days and seasons", () => {
  test("a daily wave goes, the yearly one stays but for a hundredth", () => {
    const record = wave(8760, h => 12 + 10 * Math.cos(YEAR * h) + 5 * Math.sin(DAY * h) + 2 * Math.sin(2 * DAY * h));
    // ½ + cos φ + … + cos 359φ + ½·cos 360φ, both ways: sin(360φ)/tan(φ/2) (sum of a geometric series)
    const kept = Math.sin(360 * YEAR) / Math.tan(YEAR / 2) / 720;
    expect(kept).toBeCloseTo(0.989, 3);
    seasonalPart(record).forEach((s, h) => {
      expect(s).toBeCloseTo(12 + kept * 10 * Math.cos(YEAR * h), 9);
    });
  });

  test("a record repeats: one step of it is felt 15 days before and after, at its ends too", () => {
    const record = wave(1440, h => (h < 720 ? 1 : 0));
    const season = seasonalPart(record);
    expect(season[360]).toBeCloseTo(719.5 / 720, 12); // its last hour lies beyond the step, with half its weight
    expect(season[0]).toBeCloseTo(360.5 / 720, 12); // half of the window is the end of the record
    expect(season[720 + 360]).toBeCloseTo(0.5 / 720, 12);
  });

  test("a record shorter than the window has no seasons", () => {
    for (const s of seasonalPart(wave(48, h => 3 + Math.sin(DAY * h)))) expect(s).toBeCloseTo(3, 12);
  });

  test("the parts add up", () => {
    const any = wave(8760, h => 8 * Math.cos(YEAR * h) + ((h * 7919) % 101) / 10);
    const history = {slabMean: any, slabGradient: any.map(v => -v), overlayMean: any.map(v => v / 3)};
    const {daily, seasonal} = splitHistory(history);
    for (const key of ["slabMean", "slabGradient", "overlayMean"] as const)
      history[key].forEach((v, h) => {
        expect(daily[key][h] + seasonal[key][h]).toBeCloseTo(v, 12);
      });
  });
});

test("strains of two parts add hour by hour, and cycles are those of the sum", () => {
  // Slab mean alone: winter −10 K and summer +10 K, about each a day of ±4 K, three days of either.
  const none = new Float64Array(12);
  const history = (slabMean: readonly number[]): ThermalHistory => ({
    slabMean: Float64Array.from(slabMean),
    slabGradient: none,
    overlayMean: none,
  });
  const daily = history([4, -4, 4, -4, 4, -4, 4, -4, 4, -4, 4, -4]);
  const seasonal = history([10, 10, 10, -10, -10, -10, -10, -10, -10, 10, 10, 10]);
  const opening = (perDegree: number) => {
    const values = new Float64Array(9);
    values[0] = perDegree;
    return values;
  };
  const parts = [
    {history: daily, opening: opening(-2)},
    {history: seasonal, opening: opening(-1)},
  ];
  // −2·4 − 1·10 and so on over E' = 2: 0 0 0 | 9 1 9 1 9 1 | 0 0 0; by hand two cycles of 8 and one of 9 in 12 hours.
  const {range, perYear} = thermalCycles(parts, {state: 0, tip: 0, planeStrainModulus: 2});
  const count = (wanted: number): number =>
    range.reduce((sum, r, k) => sum + (Math.abs(r - wanted) < 1e-12 ? perYear[k] : 0), 0);
  expect(count(8)).toBeCloseTo((2 * 8760) / 12, 9);
  expect(count(9)).toBeCloseTo(8760 / 12, 9);
  expect(perYear.reduce((sum, n) => sum + n, 0)).toBeCloseTo((3 * 8760) / 12, 9);
});

const layer = (name: string, role: LayerRole, thickness: number, moduli: readonly [number, number, number]): Layer => ({
  name,
  role,
  thickness,
  material: {
    name,
    modulus: [{temperature: 15, modulus: moduli[0]}],
    relaxationModulus: moduli[1],
    seasonalRelaxationModulus: moduli[2],
    masterCurve: null,
    poisson: 0.35,
    expansion: 2e-5,
    conductivity: 1.4,
    density: 2300,
    heatCapacity: 900,
    growth: {coefficient: 7e5, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0},
    fatigue: null,
    source: "",
  },
});

/** @param season  seasonal over daily modulus of the interlayer */
const section = (season: number): Section => ({
  layers: [
    layer("overlay", "overlay", 0.05, [3.5e9, 7e8, 7e8]),
    layer("interlayer", "interlayer", 0.01, [4e8, 1e7, 1e7 * season]),
    layer("base", "jointed", 0.2, [8e9, 8e9, 8e9]),
    layer("ground", "foundation", 1, [1e8, 1e8, 1e8]),
  ],
  joint: {
    spacing: 4,
    width: 0,
    unbondedStrip: 0,
    transfer: {kind: "spring", stiffness: 0},
    facesTouch: false,
    cutDepth: 0.3,
  },
  slabFriction: Infinity,
  base: {kind: "rigid"},
  crackInterlock: 0,
  shearWeight: 1,
});

describe("growth by temperature", () => {
  const year = (mean: number, season: number, day: number) =>
    wave(8760, h => mean - season * Math.cos(YEAR * h) - day * Math.cos(DAY * (h - 4)));
  const history: ThermalHistory = {
    slabMean: year(0, 11, 2),
    slabGradient: year(0, 2, 20),
    overlayMean: year(0, 11, 6),
  };
  const own = section(1);
  const geometry = responseGeometry(own, {accuracy: 0.03, reach: 0});
  const response = thermalResponse(geometry);
  const {model, space} = geometry.meshes[HALVED];
  const laws = tipLaws(own, thermalCondition(own).moduli, tipLayers(model, space));

  test("equal moduli: the whole history as it is, nothing solved again", () => {
    expect(relaxesFurther(own)).toBe(false);
    const [whole, ...more] = thermalParts(geometry, response, history);
    expect(more).toEqual([]);
    expect(whole.history).toBe(history);
    expect(whole.opening).toBe(response.opening);
  });

  test("two parts of equal moduli give the growth of the whole", () => {
    const {daily, seasonal} = splitHistory(history);
    const whole = thermalGrowth(space, [{history, opening: response.opening}], laws);
    const parts = [daily, seasonal].map(part => ({history: part, opening: response.opening}));
    const sum = thermalGrowth(space, parts, laws);
    const largest = Math.max(...whole.advance);
    expect(largest).toBeGreaterThan(0);
    // Rounding of the sums, and tips at which it decides which crack closes first.
    sum.advance.forEach((a, k) => {
      expect(Math.abs(a - whole.advance[k])).toBeLessThan(1e-9 * largest);
    });
  });

  test("seasons at moduli a tenth lower all round leave each strain as it is, in a section of one stiffness", () => {
    // All layers tenfold softer strain alike: σ falls tenfold, E' as well. So the parts sum to the whole again.
    const softer: Section = {
      ...own,
      layers: own.layers.map(l => ({
        ...l,
        material: {...l.material, seasonalRelaxationModulus: l.material.relaxationModulus / 10},
      })),
    };
    const parts = thermalParts({...geometry, section: softer}, response, history);
    expect(parts).toHaveLength(2);
    const sum = thermalGrowth(space, parts, laws);
    const whole = thermalGrowth(space, [{history, opening: response.opening}], laws);
    const largest = Math.max(...whole.advance);
    sum.advance.forEach((a, k) => {
      expect(Math.abs(a - whole.advance[k])).toBeLessThan(1e-6 * largest);
    });
  });
});

test("a season alone grows the crack by the law at its own modulus, shifted or not", () => {
  const season = wave(8760, h => -11 * Math.cos(YEAR * h));
  const none = new Float64Array(8760);
  const history: ThermalHistory = {slabMean: season, slabGradient: none, overlayMean: season};
  for (const [referenceModulus, stiffnessExponent] of [
    [null, 0],
    [3.5e9, 2.92],
    [3.5e9, -1],
  ] as const) {
    const plain = section(0.3);
    const own: Section = {
      ...plain,
      layers: plain.layers.map(l => ({
        ...l,
        material: {
          ...l.material,
          seasonalRelaxationModulus: l.material.seasonalRelaxationModulus * (l.role === "overlay" ? 0.5 : 1),
          growth: {...l.material.growth!, referenceModulus, stiffnessExponent},
        },
      })),
    };
    const geometry = responseGeometry(own, {accuracy: 0.05, reach: 0});
    const {model, space} = geometry.meshes[HALVED];
    const lawsAt = (loading: "daily" | "seasonal") =>
      tipLaws(own, thermalCondition(own, loading).moduli, tipLayers(model, space));
    const [, part] = thermalParts(geometry, thermalResponse(geometry), history);
    const found = thermalGrowth(space, [{...part, history}], lawsAt("daily"));
    const {opening} = thermalResponse(geometry, thermalCondition(own, "seasonal"));
    const expected = thermalGrowth(space, [{history, opening}], lawsAt("seasonal"));
    // Closure is decided on the scaled tractions: where tips lie in two layers it may differ, so only one open crack counts here.
    for (const b of [0, 1, 2, 3]) {
      const at = space.index(0, b, 0) * 3 + 1;
      expect(found.advance[at] / expected.advance[at]).toBeCloseTo(1, 9);
    }
  }
});

test("above an interlayer that relaxes further over the seasons the overlay lasts longer under temperature", () => {
  const weather: WeatherRecord = {
    kind: "surface",
    temperature: wave(8760, h => 12 - 10 * Math.cos(YEAR * h) - 6 * Math.cos(DAY * (h - 4))),
    solar: null,
    wind: null,
    dewPoint: null,
    cloud: null,
    startHour: 0,
    startDay: 0,
    label: "waves",
  };
  const load = {
    name: "wheel",
    wheels: [{x: 0, y: 0, load: 40e3, length: 0.24, width: 0.24}],
    passesPerYear: 0,
    growth: 0,
    group: null,
    wander: {kind: "normal", deviation: 0.25} as const,
  };
  const study: Study = {
    name: "test",
    treatments: [1, 0.5, 0.2].map(season => ({name: `${season}`, description: "", section: section(season)})),
    traffic: {classes: [load], standardAxle: load, calendar: {hours: null, months: null}},
    weather,
    exchange: {absorptivity: 0.9, emissivity: 0.9, filmCoefficient: 15},
    bins: [{temperature: 15, share: 1}],
    neutralTemperature: null,
    analysisPeriod: 20,
    accuracy: 0.03,
    costs: null,
  };
  const [same, half, fifth] = lifeOf(study).treatments.map(t => t.histories[0].life.years);
  expect(half).toBeGreaterThan(same);
  expect(fifth).toBeGreaterThan(half);
});
