import {describe, expect, test} from "vitest";
import {type BowlLayer, backAnalyse} from "../../../src/engine/backanalysis/index.ts";
import {InputError} from "../../../src/engine/errors.ts";
import {bowlOf, OFFSETS, PRESSURE, ROAD, testOf, unknown} from "./fixture.ts";

const {layers, moduli} = ROAD;
const exact = bowlOf(layers, moduli);
const codes = (result: ReturnType<typeof backAnalyse>): string[] => result.warnings.map(w => w.code);
/** Fixed, seemingly random deviations of 2 %. */
const noisy = exact.map((d, k) => d * (1 + 0.02 * [0.9, -1.2, 0.4, 1.1, -0.7, -0.3, 1.3, -1.0, 0.2][k]));

test("an exact bowl gives its moduli back, without a warning", () => {
  const result = backAnalyse(testOf(layers, exact));
  result.layers.forEach((l, j) => {
    expect(l.modulus / moduli[j]).toBeCloseTo(1, 8);
  });
  expect(result.rms).toBeLessThan(1e-8);
  expect(codes(result)).toEqual([]);
  expect(result.residual).toBeLessThan(1e-10);
});

test("the same bowl gives the same result", () => {
  expect(backAnalyse(testOf(layers, noisy))).toEqual(backAnalyse(testOf(layers, noisy)));
});

test("with noise: intervals around the estimate, the soil known best, asphalt against base", () => {
  const result = backAnalyse(testOf(layers, noisy));
  const widths = result.layers.map(({interval}) => interval!.high! / interval!.low!);
  expect(widths[2]).toBeLessThan(1.1);
  expect(widths[0]).toBeGreaterThan(widths[1]);
  result.layers.forEach(({modulus, interval}) => {
    expect(interval!.low).toBeLessThan(modulus);
    expect(interval!.high).toBeGreaterThan(modulus);
  });
  expect(result.correlation[0][1]).toBeLessThan(-0.5);
  expect(result.correlation[1][1]).toBeCloseTo(1, 12);
  const {weights, factor} = result.combinations[2]; // the worst known
  expect(Math.abs(weights[0])).toBeGreaterThan(0.9);
  expect(weights[0] * weights[1]).toBeLessThan(0);
  expect(factor).toBeGreaterThan(result.combinations[0].factor);
  const {alternatives} = result;
  expect(alternatives?.layer).toBe(0);
  expect(alternatives?.low.moduli[1]).toBeGreaterThan(result.layers[1].modulus); // a softer asphalt on a stiffer base
  expect(alternatives?.high.moduli[1]).toBeLessThan(result.layers[1].modulus);
  expect(alternatives?.low.rms).toBeLessThan(1.5 * result.rms);
});

test("a modulus that is given stays, and leaves a degree of freedom more", () => {
  const known = layers.map((l, j): BowlLayer => (j === 0 ? {...l, modulus: {kind: "fixed", value: 5e9}} : l));
  const result = backAnalyse(testOf(known, noisy));
  expect(result.layers[0]).toMatchObject({modulus: 5e9, fixed: true, interval: null});
  expect(result.degrees).toBe(7);
  expect(result.unknowns).toEqual([1, 2]);
});

test("rigid base: the depth counts, and the moduli come back", () => {
  const deep = layers.map((l): BowlLayer => (l.thickness === Infinity ? {...l, thickness: 2.5} : l));
  const result = backAnalyse(testOf(deep, bowlOf(deep, moduli, {base: "rigid"}), {base: "rigid"}));
  result.layers.forEach((l, j) => {
    expect(l.modulus / moduli[j]).toBeCloseTo(1, 8);
  });
});

test("half-space: the surface modulus is E at every offset", () => {
  const half: BowlLayer[] = [{name: "soil", thickness: Infinity, poisson: 0.4, modulus: unknown(8e7)}];
  const result = backAnalyse(testOf(half, bowlOf(half, [8e7])));
  for (const s of result.sensors) expect(s.surfaceModulus / 8e7).toBeCloseTo(1, 12);
  expect(codes(result)).toEqual([]);
});

describe("warnings", () => {
  test("a layer thinner than half the plate's radius", () => {
    const thin = layers.map((l, j): BowlLayer => (j === 0 ? {...l, thickness: 0.05} : l));
    const result = backAnalyse(testOf(thin, bowlOf(thin, moduli)));
    expect(result.warnings).toContainEqual({code: "thin-layer", layer: 0, thickness: 0.05});
  });

  test("a modulus that stops at its bound has an interval to the other side at most", () => {
    const narrow = layers.map(
      (l, j): BowlLayer => (j === 1 ? {...l, modulus: {kind: "unknown", start: 4e8, low: 3e8, high: 1e9}} : l),
    );
    const result = backAnalyse(testOf(narrow, noisy));
    expect(result.layers[1]).toMatchObject({modulus: expect.closeTo(3e8, 0), atBound: "low"});
    expect(result.layers[1].interval?.low).toBeNull();
    expect(codes(result)).toContain("at-bound");
  });

  test("every modulus at a bound: nothing is free, and all is said", () => {
    const away = layers.map((l, j): BowlLayer => {
      const low = moduli[j] * 3;
      return {...l, modulus: {kind: "unknown", start: low * 1.2, low, high: low * 4}};
    });
    const result = backAnalyse(testOf(away, exact));
    expect(result.layers.map(l => l.atBound)).toEqual(["low", "low", "low"]);
    expect([result.unknowns, result.correlation, result.combinations]).toEqual([[], [], []]);
    expect(codes(result).filter(c => c === "at-bound")).toHaveLength(3);
  });

  test("two layers of granular material that the bowl cannot tell apart: wide intervals, opposite signs", () => {
    const four = [
      layers[0],
      {name: "base", thickness: 0.2, poisson: 0.35, modulus: unknown(3.5e8)},
      {name: "subbase", thickness: 0.25, poisson: 0.35, modulus: unknown(1.5e8)},
      layers[2],
    ];
    const d = bowlOf(four, [5e9, 3.5e8, 1.5e8, 7e7]);
    const result = backAnalyse(
      testOf(
        four,
        d.map((v, k) => (v * noisy[k]) / exact[k]),
      ),
    );
    expect(result.warnings.filter(w => w.code === "wide-interval").map(w => w.layer)).toEqual([0, 1, 2]);
    const {weights, factor} = result.combinations[3];
    expect(weights[1] * weights[2]).toBeLessThan(0);
    expect(factor).toBeGreaterThan(3);
  });

  test("rock at 2 m taken for a half-space: surface moduli rise outward", () => {
    const deep = layers.map((l): BowlLayer => (l.thickness === Infinity ? {...l, thickness: 1.6} : l));
    const result = backAnalyse(testOf(layers, bowlOf(deep, moduli, {base: "rigid"})));
    expect(codes(result)).toContain("stiff-bottom");
  });

  test("layers over a half-space alone do not raise it", () => {
    for (const stiff of [
      [5e9, 2.5e8],
      [2e10, 1e8],
      [3e9, 8e9],
      [1e9, 6e8],
    ]) {
      const own = [...stiff, 7e7];
      const free = layers.map((l, j): BowlLayer => ({...l, modulus: unknown(own[j])}));
      expect(codes(backAnalyse(testOf(free, bowlOf(free, own))))).not.toContain("stiff-bottom");
    }
  });

  test("deflections that grow faster than the load", () => {
    const drops = [1, 1.6].map((f, i) => ({
      pressure: f * PRESSURE,
      deflections: exact.map(d => d * f * (1 + 0.12 * i)),
    }));
    const trend = backAnalyse(testOf(layers, exact, {drops})).warnings.find(w => w.code === "load-dependent");
    expect(trend).toMatchObject({ratio: expect.closeTo(1.12, 10), low: PRESSURE});
  });

  test("residuals beyond the stated accuracy: one bad sensor is named", () => {
    const bad = exact.map((d, k) => (k === 4 ? d * 1.25 : d));
    const warning = backAnalyse(testOf(layers, bad)).warnings.find(w => w.code === "misfit");
    expect(warning).toMatchObject({worst: 4});
  });

  test("as many unknowns as sensors: intervals by the stated accuracy", () => {
    const offsets = [0, 0.45, 1.2];
    const three = [0, 3, 6].map(k => exact[k]);
    const result = backAnalyse(testOf(layers, three, {offsets}));
    expect(codes(result)).toContain("no-scatter");
    expect(result.degrees).toBe(0);
    expect(result.scatter).toBeNull();
    expect(result.layers[2].interval!.high! / result.layers[2].interval!.low!).toBeGreaterThan(1.02);
  });
});

test("what cannot be analysed is told with its place", () => {
  const bad =
    (more: Parameters<typeof testOf>[2], d: readonly number[] = exact) =>
    () =>
      backAnalyse(testOf(layers, d, more));
  expect(bad({}, exact.slice(1))).toThrow("drops[0].deflections.length");
  expect(bad({}, [...exact.slice(0, 8), 0])).toThrow("drops[0].deflections[8]");
  expect(bad({drops: []})).toThrow(InputError);
  expect(bad({offsets: OFFSETS.slice(0, 2)}, exact.slice(0, 2))).toThrow("offsets.length");
  expect(bad({probability: 1})).toThrow("probability");
  expect(bad({accuracy: {relative: 0, absolute: 0}})).toThrow("accuracy");
  const fixed = layers.map((l): BowlLayer => ({...l, modulus: {kind: "fixed", value: 1e8}}));
  expect(() => backAnalyse(testOf(fixed, exact))).toThrow("no unknown modulus");
  const upside = layers.map((l): BowlLayer => ({...l, modulus: {kind: "unknown", start: 1e8, low: 2e8, high: 3e8}}));
  expect(() => backAnalyse(testOf(upside, exact))).toThrow("layers[0].modulus");
});
