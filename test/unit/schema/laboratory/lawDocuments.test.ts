/** Laws from SI to the units of documents. */
import {describe, expect, test} from "vitest";
import {
  type Calibration,
  type FatigueResult,
  fatigueResult,
  type LawEstimate,
  REFERENCE_STRAIN,
} from "../../../../src/engine/laboratory/index.ts";
import {relativeLaws} from "../../../../src/engine/laboratory/relativeLaws.ts";
import {lineVariance} from "../../../../src/engine/statistics/index.ts";
import {lawDocuments} from "../../../../src/schema/laboratory/index.ts";
import {specimen} from "../../../../verification/laboratory/programmes.ts";
import {beamTest, INTERLAYER} from "../../laboratory/fixture.ts";

const PROVENANCE = {software: "s", date: "d", files: []};

/** A = e^14 m a cycle at unit strain, n = 4; deviations of 0.5 and 0.2, correlated by 0.9. */
const ESTIMATE: LawEstimate = {
  material: "mix",
  rate: {value: 1, low: 1, high: 1},
  exponent: {value: 4, low: 3, high: 5},
  correlation: 0.9,
  logCoefficient: 14,
  covariance: {logCoefficient: 0.25, exponent: 0.04, both: 0.09},
  curve: {strain: new Float64Array(), rate: new Float64Array(), low: new Float64Array(), high: new Float64Array()},
  met: [1e-4, 1e-3],
};

function calibration(change: Partial<Calibration> = {}): Calibration {
  return {
    request: {choices: {zoneLength: {mix: 0.01, soft: 0.005}, interlock: 2e9}, shearWeight: 1},
    fit: {degrees: 5, scatter: {beam: 0.25, upper: 0.3}},
    cases: [{test: beamTest({interlayer: INTERLAYER})}],
    origins: {mix: {kind: "fitted"}},
    estimates: [ESTIMATE],
    warnings: [],
    ...change,
  } as unknown as Calibration; // no more of it goes into a law
}

/** Two lines of slopes −5 and −6, with scatter of mean zero at each level. */
function fatigue(): FatigueResult {
  const of = (material: string, k: number, factor: number) =>
    [9e-5, 1.1e-4, 1.4e-4].flatMap(strain =>
      [-0.1, 0.02, 0.08].map((departure, i) =>
        specimen(`${material} ${strain} ${i}`, strain, factor * 1e6 * (1e-4 / strain) ** k * 10 ** departure, {
          material,
          initialModulus: 5e9,
        }),
      ),
    );
  return fatigueResult({name: "p", specimens: [...of("mix", 5, 1), ...of("soft", 6, 30)]}, 0.9);
}

describe("a fitted law", () => {
  const [law] = lawDocuments(calibration(), null, PROVENANCE);

  test("has A and n in mm and microstrain: A·10³·10^(−6n)", () => {
    expect(law.material).toBe("mix");
    expect(law.crack_growth).toMatchObject({
      n: 4,
      process_zone_mm: 10,
      modulus_MPa: 4000,
      crack_interlock_MPa_per_mm: 2,
      degrees_of_freedom: 5,
      beam_scatter: 0.25,
      upper_scatter: 0.3,
      found_by: "beams",
    });
    expect(law.crack_growth!.A_mm_per_cycle / (Math.exp(14) * 1e3 * 1e-24)).toBeCloseTo(1, 6);
  });

  test("has its covariance moved with the unit of strain", () => {
    // ln A' = ln A + ln 10³ − 13.8155·n: 0.25 − 2·13.8155·0.09 + 190.868·0.04, and 0.09 − 13.8155·0.04
    expect(law.crack_growth!.covariance!.ln_A).toBeCloseTo(5.39793, 4);
    expect(law.crack_growth!.covariance!.n).toBe(0.04);
    expect(law.crack_growth!.covariance!.ln_A_n).toBeCloseTo(-0.46262, 5);
  });
});

test("a law by fatigue lines says so, and is less sure than the law it was moved from", () => {
  const lines = fatigue();
  const relative = relativeLaws([beamTest({interlayer: INTERLAYER})], lines);
  const laws = lawDocuments(calibration({origins: {mix: {kind: "fitted"}, ...relative}}), lines, PROVENANCE);
  const soft = laws.find(l => l.material === "soft")!.crack_growth!;
  const mix = laws.find(l => l.material === "mix")!.crack_growth!;
  expect([mix.found_by, soft.found_by]).toEqual(["beams", "fatigue lines"]);
  expect(soft).toMatchObject({process_zone_mm: 5, modulus_MPa: 500});
  expect(soft.n).toBeCloseTo(5, 6); // k is 6 to 5
  expect(soft.covariance!.n).toBeGreaterThan(mix.covariance!.n);
  // 30 times the life at 100 µε is a 30th of the growth there.
  const growth = (l: typeof soft): number => l.A_mm_per_cycle * 100 ** l.n;
  expect(growth(soft) / growth(mix)).toBeCloseTo(1 / 30, 5);
  expect(relative.soft.logRate).toBeCloseTo(-Math.log(30) + Math.log(REFERENCE_STRAIN / 1e-4), 9);
});

test("a fatigue line's variances follow from those of its level and slope", () => {
  const lines = fatigue();
  const law = lawDocuments(null, lines, PROVENANCE).find(l => l.material === "soft")!;
  const {line} = lines.materials.find(m => m.material === "soft")!;
  const {level, slope, centre} = line!;
  expect(law.crack_growth).toBeUndefined();
  expect(law.fatigue_line).toMatchObject({modulus_MPa: 5000, temperature_C: 10, frequency_Hz: 25, specimens: 9});
  expect(law.fatigue_line!.exponent).toBeCloseTo(6, 6);
  expect(law.fatigue_line!.strain_at_million_microstrain).toBeCloseTo(100 * 30 ** (1 / 6), 4);
  // ln ε₆ by level and slope, by differences.
  const at = (l: number, s: number): number => Math.LN10 * (centre + (6 - l) / s);
  const [h, g] = [1e-6 * Math.abs(level), 1e-6 * Math.abs(slope)];
  const byLevel = (at(level + h, slope) - at(level - h, slope)) / (2 * h);
  const bySlope = (at(level, slope + g) - at(level, slope - g)) / (2 * g);
  const {levelVariance: ll, levelSlopeCovariance: ls, slopeVariance: ss} = line!;
  const {covariance} = law.fatigue_line!;
  expect(covariance!.exponent / ss).toBeCloseTo(1, 6);
  expect(
    covariance!.ln_strain_at_million / (byLevel ** 2 * ll + 2 * byLevel * bySlope * ls + bySlope ** 2 * ss),
  ).toBeCloseTo(1, 5);
  expect(covariance!.ln_strain_exponent / -(byLevel * ls + bySlope * ss)).toBeCloseTo(1, 5);
  // And ε₆ is as sure as the line is there, along the strain.
  const lg = Math.log10(law.fatigue_line!.strain_at_million_microstrain * 1e-6);
  expect(covariance!.ln_strain_at_million / ((Math.LN10 ** 2 * lineVariance(line!, lg)) / slope ** 2)).toBeCloseTo(
    1,
    5,
  );
});
