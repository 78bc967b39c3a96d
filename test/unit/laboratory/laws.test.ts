/** Laws as they are told, and laws moved by fatigue lines. */
import {expect, test} from "vitest";
import {fatigueResult, REFERENCE_STRAIN} from "../../../src/engine/laboratory/index.ts";
import {lawEstimates} from "../../../src/engine/laboratory/lawEstimates.ts";
import {relativeLaws} from "../../../src/engine/laboratory/relativeLaws.ts";
import {tQuantile} from "../../../src/engine/statistics/index.ts";
import {specimen} from "../../../verification/laboratory/programmes.ts";
import {beamFit, beamTest, INTERLAYER} from "./fixture.ts";

/** Specimens on a line without scatter: N = 10⁶·(ε₆/ε)^k. */
const exactly = (material: string, strainAtMillion: number, k: number) =>
  [8e-5, 1e-4, 1.2e-4, 1.5e-4].map(strain =>
    specimen(`${material} ${strain}`, strain, 1e6 * (strainAtMillion / strain) ** k, {material}),
  );

test("at equal strain growth is to another material's as its life is to this one's", () => {
  const lives = fatigueResult(
    {name: "p", specimens: [...exactly("mix", 1e-4, 5), ...exactly("soft", 2.2e-4, 6.5)]},
    0.9,
  );
  const {soft} = relativeLaws([beamTest(), beamTest({interlayer: INTERLAYER})], lives);
  expect(soft).toMatchObject({kind: "relative", to: "mix"});
  expect(soft.exponent).toBeCloseTo(1.5, 9);
  for (const strain of [1e-4, 3e-4, 1e-3]) {
    const growth = soft.logRate + soft.exponent * Math.log(strain / REFERENCE_STRAIN);
    const life = 6.5 * Math.log(2.2e-4 / strain) - 5 * Math.log(1e-4 / strain);
    expect(growth).toBeCloseTo(-life, 8);
  }
});

test("an interlayer goes with the first overlay whose line is known; without lines there is no law", () => {
  const {overlay} = beamTest();
  const lives = fatigueResult({name: "p", specimens: [...exactly("mix", 1e-4, 5), ...exactly("soft", 2e-4, 5)]}, 0.9);
  const tests = ["untested", "mix"].map(material =>
    beamTest({overlay: {...overlay, material}, interlayer: INTERLAYER}),
  );
  expect(relativeLaws(tests, lives).soft.to).toBe("mix");
  expect(relativeLaws(tests.slice(0, 1), lives)).toEqual({});
  expect(relativeLaws(tests, null)).toEqual({});
});

/** Of ln rate at 500 µε and n: deviations of 0.3 and 0.4, correlated by 0.5. */
const FIT = beamFit({
  parameters: Float64Array.of(-15, 4),
  covariance: Float64Array.of(0.09, 0.06, 0.06, 0.16),
  degrees: 5,
});

test("intervals are Student's, and the band is the quadratic form of the covariance", () => {
  const [law] = lawEstimates(FIT, [{material: "mix", low: 2e-4, high: 8e-4}], 0.9);
  const t = 2.015048; // of five degrees of freedom, 0.95: any table
  expect(law.rate.value).toBeCloseTo(Math.exp(-15), 15);
  expect(Math.log(law.rate.high)).toBeCloseTo(-15 + t * 0.3, 5);
  expect(law.exponent.low).toBeCloseTo(4 - t * 0.4, 5);
  const {strain, rate, low, high} = law.curve;
  expect(strain[0]).toBeCloseTo(2e-4 / 1.5, 12);
  expect(strain[strain.length - 1]).toBeCloseTo(8e-4 * 1.5, 12);
  strain.forEach((s, k) => {
    const x = Math.log(s / 5e-4);
    const half = tQuantile(0.95, 5) * Math.sqrt(0.09 + 2 * 0.06 * x + 0.16 * x * x);
    expect(Math.log(rate[k])).toBeCloseTo(-15 + 4 * x, 9);
    expect(Math.log(high[k] / rate[k])).toBeCloseTo(half, 9);
    expect(Math.log(rate[k] / low[k])).toBeCloseTo(half, 9);
  });
});

test("ln A and its covariance give the band back", () => {
  const [{logCoefficient, exponent, covariance}] = lawEstimates(FIT, [{material: "mix", low: 2e-4, high: 8e-4}], 0.9);
  const x = Math.log(3e-4);
  expect(logCoefficient + exponent.value * x).toBeCloseTo(-15 + 4 * Math.log(3e-4 / 5e-4), 9);
  const {logCoefficient: aa, both, exponent: nn} = covariance;
  const y = Math.log(3e-4 / 5e-4);
  expect(aa + 2 * x * both + x * x * nn).toBeCloseTo(0.09 + 2 * 0.06 * y + 0.16 * y * y, 9);
});
