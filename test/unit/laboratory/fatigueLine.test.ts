import {describe, expect, test} from "vitest";
import {
  compareLives,
  type FatigueProgramme,
  fatigueLines,
  type MaterialFatigue,
  ratioInterval,
  type Specimen,
} from "../../../src/engine/laboratory/index.ts";
import type {LineEstimate} from "../../../src/engine/statistics/index.ts";
import {drawnProgrammes, ORDINARY, specimen} from "../../../verification/laboratory/programmes.ts";

const programme = (specimens: readonly Specimen[]): FatigueProgramme => ({name: "p", specimens});
const only = (specimens: readonly Specimen[]): MaterialFatigue => fatigueLines(programme(specimens))[0];
const codes = (material: MaterialFatigue): string[] => material.findings.map(finding => finding.code);

/** Fixed "scatter" of mean zero at each level. */
const SCATTER = [-0.2, -0.1, -0.05, 0.05, 0.1, 0.2];
const lifeAt = (strain: number, departure: number): number => 1e6 * (1e-4 / strain) ** 5 * 10 ** departure;
const sound = (material = "asphalt", factor = 1): Specimen[] =>
  [9e-5, 1e-4, 1.3e-4].flatMap(strain =>
    SCATTER.map((departure, i) => specimen(`${strain}-${i}`, strain, factor * lifeAt(strain, departure), {material})),
  );
const changed = (index: number, change: Partial<Specimen>): Specimen[] =>
  sound().map((one, i) => (i === index ? {...one, ...change} : one));

describe("the line", () => {
  test("of a sound programme needs no comment", () => {
    const material = only(sound());
    expect(material.findings).toEqual([]);
    expect(material.levels.map(level => level.points.length)).toEqual([6, 6, 6]);
    expect(material.standard?.strainAtMillion).toBeCloseTo(1e-4, 12); // mean departure is zero at each level
    expect(material.standard?.k).toBeCloseTo(5, 9);
    expect(material.likelihood?.strainAtMillion).toBeCloseTo(1e-4, 12);
    expect(material.bands.map(band => band.probability)).toEqual([0.9, 0.95]);
  });

  test("does not depend on how a life or a strain is told", () => {
    const [first] = sound();
    const history = {
      initialModulus: 1e10,
      cyclesToHalf: first.cycles,
      lastCycle: 2 * first.cycles!,
      lastRatio: 0.3,
      startsLate: false,
      startsWithJump: false,
      displacementDrifts: false,
      cycles: new Float64Array(),
      modulus: new Float64Array(),
    };
    expect(only(changed(0, {cycles: null, history})).standard?.slope).toBe(only(sound()).standard?.slope);
    const stopped = {...history, cyclesToHalf: null};
    expect(only(changed(0, {cycles: null, history: stopped})).points[0]).toMatchObject({
      runOut: true,
      cycles: 2 * first.cycles!,
    });
    expect(() => only(changed(0, {cycles: null}))).toThrow("specimens[0].cycles");
    expect(() => only(changed(0, {cycles: null, history, runOut: true}))).toThrow("specimens[0].runOut");
    expect(() => only(changed(0, {cycles: 0}))).toThrow("specimens[0].cycles");
  });

  test("counts run-outs by likelihood only", () => {
    const cut = sound().map(one => (one.cycles! > 1.5e6 ? {...one, cycles: 1.5e6, runOut: true} : one));
    const material = only(cut);
    const runOuts = cut.filter(one => one.runOut);
    expect(material.standard?.n).toBe(18 - runOuts.length);
    expect(material.likelihood).toMatchObject({n: 18, failures: 18 - runOuts.length});
    expect(material.line).toBe(material.likelihood);
    expect(material.findings.find(one => one.code === "run-outs")?.specimens).toEqual(runOuts.map(one => one.name));
    expect(material.likelihood!.strainAtMillion!).toBeGreaterThan(material.standard!.strainAtMillion!);
  });

  test("leaves out what was set aside, and shows it", () => {
    const material = only(changed(3, {setAside: "glue failed", cycles: 10}));
    expect(material.points[3].setAside).toBe("glue failed");
    expect(material.standard?.n).toBe(17);
    expect(codes(material)).toEqual(["set-aside", "few-specimens"]);
  });

  test("is not drawn through one level or two failures", () => {
    const oneLevel = only(sound().slice(0, 6));
    expect(oneLevel).toMatchObject({standard: null, likelihood: null, line: null, bands: []});
    expect(codes(oneLevel)).toContain("one-level");
    expect(codes(only(sound().slice(0, 2)))).toContain("few-failures");
    // Others at a second level, none of which failed, do not help.
    const open = sound().map((one, i) => (i < 6 ? one : {...one, runOut: true}));
    expect(codes(only(open))).toContain("one-level");
  });

  test("that rises has no ε₆", () => {
    const rising = sound().map(one => ({...one, cycles: 1e12 / one.cycles!}));
    const material = only(rising);
    expect(codes(material)).toContain("not-falling");
    expect(material.standard?.strainAtMillion).toBeNull();
    expect(material.likelihood?.intervals[0].strainAtMillion).toBeNull();
  });

  test("without a likelihood falls back on the standard one", () => {
    const exact = [9e-5, 1e-4, 1.3e-4].map((strain, i) => specimen(`${i}`, strain, lifeAt(strain, 0)));
    const material = only([...exact, specimen("r", 9e-5, 1e6, {runOut: true})]);
    expect(codes(material)).toContain("no-likelihood");
    expect(material.line).toBe(material.standard);
  });
});

describe("findings", () => {
  test.each([
    ["few-levels", sound().slice(0, 12)],
    ["few-specimens", sound().slice(1)],
    ["few-beyond-million", sound("asphalt", 0.1)],
    ["few-below-million", sound("asphalt", 10)],
    ["lives-out-of-range", sound("asphalt", 1e-4)],
    ["strain-extrapolated", sound("asphalt", 0.05)],
    ["mixed-temperatures", changed(2, {temperature: 15})],
    ["mixed-frequencies", changed(2, {frequency: 30})],
    ["outlier", changed(7, {cycles: 20_000})],
    ["high-leverage", [...sound(), specimen("far", 4e-4, lifeAt(4e-4, 0))]],
    ["influential", [...sound(), specimen("far", 4e-4, lifeAt(4e-4, -1))]],
    ["curved", sound().map((one, i) => (i < 6 || i > 11 ? one : {...one, cycles: 3 * one.cycles!}))],
  ] as const)("%s", (code, specimens) => {
    expect(codes(only(specimens))).toContain(code);
  });

  test("name the specimens concerned", () => {
    const outlier = only(changed(7, {cycles: 20_000})).findings.find(one => one.code === "outlier");
    expect(outlier?.specimens).toEqual([sound()[7].name]);
    const warm = only(changed(2, {temperature: 15})).findings.find(one => one.code === "mixed-temperatures");
    expect(warm?.specimens).toEqual([sound()[2].name]);
  });

  test("nothing is deleted for being an outlier", () => {
    expect(only(changed(7, {cycles: 20_000})).standard?.n).toBe(18);
  });

  test("a sound programme shows an outlier one time in twenty", () => {
    const flagged = drawnProgrammes(ORDINARY, 300, 3).filter(one => codes(fatigueLines(one)[0]).includes("outlier"));
    expect(flagged.length).toBeGreaterThan(4); // 15 expected, standard deviation 3.8
    expect(flagged.length).toBeLessThan(28);
  });

  test("strains within a fortieth of a level belong to it", () => {
    const strains = [1e-4, 1.02e-4, 1.03e-4, 1.06e-4, 1.3e-4];
    const {levels} = only(strains.map((strain, i) => specimen(`${i}`, strain, lifeAt(strain, 0.1 * (i % 2)))));
    // 1.03 is 1.98 % above the mean of the first two; 1.06 is 2.9 % above that of the three.
    expect(levels.map(level => level.points)).toEqual([[0, 1, 2], [3], [4]]);
  });
});

describe("comparison", () => {
  test("of the same scatter three times as long-lived", () => {
    const [reference, tough] = fatigueLines(programme([...sound("plain"), ...sound("tough", 3)]));
    const comparison = compareLives(tough, reference, 0.9);
    for (let i = 0; i < comparison.strains.length; i++) {
      expect(comparison.ratio[i]).toBeCloseTo(3, 8);
      expect(comparison.low[i] * comparison.high[i]).toBeCloseTo(9, 7); // symmetric in lg
      expect(comparison.low[i]).toBeLessThan(3);
    }
    expect(comparison.extrapolated).not.toContain(true);
    expect(comparison.law.lnC).toBeCloseTo(Math.log(3), 7);
    expect(comparison.law.k).toBeCloseTo(0, 9);
  });

  test("beyond common strains is marked", () => {
    const at = (material: string, strains: readonly number[]) =>
      strains.flatMap(strain =>
        SCATTER.map((departure, i) =>
          specimen(`${material}-${strain}-${i}`, strain, lifeAt(strain, departure), {material}),
        ),
      );
    const low = [8e-5, 1e-4, 1.2e-4];
    const [a, b, c] = fatigueLines(
      programme([...at("a", low), ...at("b", [1e-4, 1.2e-4, 1.5e-4]), ...at("c", [2e-4, 3e-4, 4e-4])]),
    );
    const near = compareLives(a, b, 0.9);
    expect(near.common).toEqual({low: 1e-4, high: 1.2e-4});
    const inside = Array.from(near.strains).filter((_, i) => !near.extrapolated[i]);
    expect([inside[0], inside[inside.length - 1]]).toEqual([1e-4, 1.2e-4]);
    expect([near.strains[0], near.strains[near.strains.length - 1]]).toEqual([8e-5, 1.5e-4]);
    const apart = compareLives(a, c, 0.9);
    expect(apart.common).toBeNull();
    expect(apart.extrapolated).not.toContain(false);
    expect(apart.findings.map(one => one.code)).toEqual(["no-common-strains"]);
  });

  test("the interval of a ratio, by Welch and Satterthwaite", () => {
    const line = (variance: number, degrees: number): LineEstimate => ({
      centre: -4,
      level: 6,
      slope: -5,
      intercept: -14,
      levelVariance: variance,
      slopeVariance: 1,
      levelSlopeCovariance: 0,
      sigma: 0.2,
      degrees,
    });
    // scipy: variances 0.01 and 0.03 of 7.5 and 16 degrees give 22.994 of them, half width 0.342778.
    const {low, high} = ratioInterval(line(0.01, 7.5), line(0.03, 16), -4, 0.9);
    expect(Math.log10(high)).toBeCloseTo(0.34277804876419204, 9);
    expect(Math.log10(low)).toBeCloseTo(-0.34277804876419204, 9);
  });

  test("the difference of laws gives the variance of the ratio at any strain", () => {
    const [a, b] = drawnProgrammes({...ORDINARY, stop: 2e6}, 2, 8).map(one => fatigueLines(one)[0]);
    const {law} = compareLives(a, b, 0.9);
    for (const strain of [8e-5, 1.2e-4]) {
      const x = Math.log(strain);
      const variance = law.lnCVariance - 2 * x * law.covariance + x * x * law.kVariance; // of ln C − k·ln ε
      const dx = (line: LineEstimate) => Math.log10(strain) - line.centre;
      const own = [a.line!, b.line!].map(
        line => line.levelVariance + 2 * dx(line) * line.levelSlopeCovariance + dx(line) ** 2 * line.slopeVariance,
      );
      expect(variance / (Math.LN10 ** 2 * (own[0] + own[1]))).toBeCloseTo(1, 8);
    }
  });

  test("90 % intervals of the ratio of two programmes cover it", () => {
    const truth = {...ORDINARY, sigma: 0.3, stop: 3e6};
    const tougher = {...truth, strainAtMillion: 1.2e-4, sigma: 0.15};
    const references = drawnProgrammes(truth, 150, 21);
    const others = drawnProgrammes(tougher, 150, 22);
    const held = references.filter((reference, i) => {
      const lines = [others[i], reference].map(one => fatigueLines(one)[0].line!);
      const {low, high} = ratioInterval(lines[0], lines[1], Math.log10(1.1e-4), 0.9);
      return low <= 1.2 ** 5 && 1.2 ** 5 <= high;
    });
    expect(held.length / 150).toBeGreaterThan(0.83); // 0.9 less three standard errors
    expect(held.length / 150).toBeLessThan(0.97);
  });

  test("needs two lines", () => {
    const [whole, thin] = fatigueLines(programme([...sound("whole"), ...sound("thin").slice(0, 3)]));
    expect(() => compareLives(thin, whole, 0.9)).toThrow("thin");
  });
});

test("materials come apart, in the order in which they come", () => {
  const mixed = [...sound("b"), ...sound("a")].sort((p, q) => p.name.localeCompare(q.name));
  const materials = fatigueLines(programme(mixed));
  expect(materials.map(one => one.material)).toEqual([mixed[0].material, mixed[0].material === "a" ? "b" : "a"]);
  expect(materials.every(one => one.points.length === 18)).toBe(true);
});
