import {expect, test} from "vitest";
import {stiffnessWarnings} from "../../../src/engine/life/stiffnessWarnings.ts";
import {
  beyondTests,
  curveSummary,
  type Layer,
  relaxationBeyondTests,
  type Section,
  type StiffnessSource,
} from "../../../src/engine/section/index.ts";
import {type MasterCurve, pronySeries} from "../../../src/engine/viscoelastic/index.ts";
import {OVERLAID} from "../climate/fixtures.ts";

/** One decade in 10 K at 15 °C, so that distances can be told by hand: lg a_T = −C₁·ΔT/(C₂ + ΔT). */
const curve: MasterCurve = {
  model: {kind: "sigmoid", lowest: 8, span: 2.3, location: -0.8, slope: 0.5},
  shift: {kind: "WLF", c1: 1e5, c2: 1e6},
  referenceTemperature: 15,
  measured: {temperature: [0, 30], reducedFrequency: [1e-2, 1e2]},
};

test("how far a point lies beyond the tests", () => {
  expect(beyondTests(curve, 15, 1)).toEqual({temperature: 0, decades: 0});
  const cold = beyondTests(curve, -5, 10)!; // 20 K colder: two decades, so 10 Hz is 1000 Hz
  expect(cold.temperature).toBe(-5);
  expect(cold.decades).toBeCloseTo(1, 3);
  const slow = relaxationBeyondTests(curve, {time: 1e5 / (2 * Math.PI), temperature: 15, modulus: 0})!;
  expect(slow.decades).toBeCloseTo(-3, 12); // 1e-5 Hz against 1e-2
  expect(beyondTests({...curve, measured: null}, -40, 1)).toBeNull();
});

test("a summary holds what the curve says, with how far that lies", () => {
  const [one] = curveSummary({curve, prony: pronySeries(curve)}, {temperatures: [15], frequency: 1, times: [1, 1e6]});
  expect(one.modulus).toBeCloseTo(10 ** (8 + 2.3 / (1 + Math.exp(-0.8))), -3);
  expect(one.relaxation.map(r => r.beyond!.decades < 0)).toEqual([false, true]);
  expect(one.relaxation[1].modulus).toBeLessThan(one.relaxation[0].modulus);
});

const relaxed = (time: number) => ({time, temperature: 14.4, modulus: 2e8});

function section(change: Partial<StiffnessSource>): Section {
  const source: StiffnessSource = {
    origin: "tests",
    file: "x.csv",
    curve,
    fit: null,
    points: [],
    prony: pronySeries(curve),
    loadingFrequency: 10,
    speed: 16,
    factor: 1,
    relaxation: {daily: relaxed(21_600), seasonal: relaxed(7.2e6)},
    ...change,
  };
  const layers = OVERLAID.layers.map(
    (l, k): Layer =>
      k === 0 ? {...l, name: "overlay", material: {...l.material, name: "mix", masterCurve: source}} : l,
  );
  return {...OVERLAID, layers};
}

const bins = [
  {temperature: -5, share: 0.5},
  {temperature: 15, share: 0.5},
];

test("moduli beyond the tests are told with how far", () => {
  expect(stiffnessWarnings(section({}), bins, true)).toEqual([
    "The modulus of mix in overlay under wheels, 10 Hz, is extrapolated beyond the tests at -5 °C (5.0 K colder, reduced frequency 1.0 decades higher).",
    // 1/(2π·21600 s) = 7.37e-6 Hz at 14.4 °C, 0.06 decades higher at 15 °C; 1e-2 is 3.07 decades above it
    "The relaxation modulus of mix at 14.4 °C is extrapolated beyond the tests after 6 h of loading (reduced frequency 3.1 decades lower) and 2000 h of loading (reduced frequency 5.6 decades lower).",
  ]);
});

test("nothing is said of what is within, not computed, given as a number or never measured", () => {
  expect(stiffnessWarnings(section({}), bins.slice(1), false)).toEqual([]);
  expect(stiffnessWarnings(section({relaxation: null}), bins.slice(1), true)).toEqual([]);
  expect(stiffnessWarnings(section({origin: "parameters", curve: {...curve, measured: null}}), bins, true)).toEqual([]);
  expect(stiffnessWarnings(section({origin: "estimate", curve: {...curve, measured: null}}), bins, true)).toEqual([
    "The stiffness of mix is estimated from its mix; nobody measured it.",
  ]);
});
