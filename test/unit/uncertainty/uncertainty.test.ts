import {describe, expect, test} from "vitest";
import {exponentsFor, type LifeModel} from "../../../src/engine/life/index.ts";
import {isBeyond, type PointKind, points, quantileOf} from "../../../src/engine/risk/index.ts";
import {
  changeOf,
  exponentSpan,
  isStructural,
  lifeError,
  type Sample,
  structuralShare,
  swingSentence,
  swingsOf,
  treatmentRisks,
  type UncertainInput,
} from "../../../src/engine/uncertainty/index.ts";

const joint = (n: number) => ({
  mean: [0, 0],
  covariance: [
    [0.25, 0],
    [0, n],
  ],
});
const law: UncertainInput = {
  name: "law",
  effect: {kind: "law", material: "a"},
  members: ["ln A", "n"],
  joint: joint(0.01),
};
const factor = (kind: "passes" | "loads" | "rates" | "temperatures" | "growth"): UncertainInput => ({
  name: kind,
  effect: {kind},
  distribution: {kind: "normal", mean: 1, deviation: 0.1},
});
const model = {materials: ["a", "b"], further: exponentsFor(1)} as unknown as LifeModel;

describe("what values change", () => {
  test("a law's values go with ln A in mm and µε: in SI A is multiplied by e^ΔlnA·10^(6Δn)", () => {
    // c = A·10⁻³·10^(6n): derived
    const {laws} = changeOf(model, [law], [0.3, -0.1]);
    expect(laws[0]).toEqual({coefficient: Math.exp(0.3) * 1e6 ** -0.1, exponent: -0.1});
    expect(laws[1]).toEqual({coefficient: 1, exponent: 0});
    expect(exponentSpan([law, factor("loads")], [0.3, -0.1, 1])).toBeCloseTo(0.1, 15);
  });

  test("factors multiply, growth adds, rates go to all laws", () => {
    const inputs = [factor("passes"), law, factor("loads"), factor("rates"), factor("growth"), factor("temperatures")];
    const change = changeOf(model, inputs, [1.2, 0, 0, 0.9, 2, 0.01, 1.1]);
    expect(change).toMatchObject({passes: 1.2, loads: 0.9, growth: 0.01, temperatures: 1.1});
    expect(change.laws.map(l => l.coefficient)).toEqual([2, 2]);
  });

  test("what needs a section solved anew is not a change of a model", () => {
    const field: UncertainInput = {
      name: "thickness",
      effect: {kind: "field", path: ["section"]},
      distribution: {kind: "normal", mean: 60, deviation: 3},
    };
    expect([law, field].map(isStructural)).toEqual([false, true]);
    expect(() => changeOf(model, [field], [60])).toThrow("no section solved anew");
  });
});

const sampleOf = (...years: number[]): Sample => ({
  lives: years.map(y => ({years: y, censored: false, mechanism: "reflection by traffic"})),
  depths: years.map(() => [0, 0.5, 1]),
});

/** Lives e^(b + w) of m samples in each of n groups, b and w normal. */
function grouped(
  n: number,
  m: number,
  between: number,
  within: number,
  kind: PointKind = "random",
  seed = 5,
): Sample[][] {
  const u = points(kind, {dimensions: 2, count: n * m, seed, skip: 0});
  const normal = quantileOf({kind: "normal", mean: 0, deviation: 1});
  return Array.from({length: n}, (_, g) => {
    const b = between * normal(u[2 * g * m]);
    return Array.from({length: m}, (_, i) => sampleOf(Math.exp(3 + b + within * normal(u[2 * (g * m + i) + 1]))));
  });
}

/** The same as a run draws them: eight series of Sobol points for the groups, one for the samples of each. */
function replicated(
  n: number,
  m: number,
  {between, within, seed}: {readonly between: number; readonly within: number; readonly seed: number},
): Sample[][] {
  const normal = quantileOf({kind: "normal", mean: 0, deviation: 1});
  return Array.from({length: n}, (_, g) => {
    const b =
      between * normal(points("sobol", {dimensions: 1, count: 1, seed: seed + (g % 8), skip: Math.floor(g / 8)})[0]);
    const own = points("sobol", {dimensions: 1, count: m, seed: 1e6 + 100 * seed + g, skip: 0});
    return Array.from(own, u => sampleOf(Math.exp(3 + b + within * normal(u))));
  });
}

describe("what samples say", () => {
  test("part of the variance between groups, by its own definition", () => {
    expect(structuralShare(grouped(400, 16, 0.4, 0.3), 0)).toBeCloseTo(0.16 / 0.25, 1);
    expect(structuralShare(grouped(400, 16, 0, 0.3), 0)).toBeLessThan(0.05);
    expect(structuralShare([[sampleOf(1)]], 0)).toBeNull();
  });

  test("a log-normal life at 85 % is e^(μ − 1.0364·s), and its error falls with the samples", () => {
    // Φ⁻¹(0.85) = 1.036433: tables
    const groups = Array.from({length: 8}, (_, r) => grouped(1, 512, 0, 0.5, "sobol", r + 1)[0]);
    const plan = {names: ["a"], period: 20, times: Float64Array.of(0, 10, 20), reliability: 0.85};
    const [risk] = treatmentRisks(groups, plan);
    const life = risk.reliabilities.find(r => r.reliability === 0.85)!.life.low;
    expect(Math.log(life)).toBeCloseTo(3 - 1.036433 * 0.5, 2);
    // P(life > 20) = Φ((3 − ln 20)/0.5) = Φ(0.008536) = 0.50341
    expect(risk.survival!.probability).toBeCloseTo(0.5034, 2);
    const few = lifeError(
      groups.map(g => g.slice(0, 32)),
      0,
      0.85,
    )!;
    expect(lifeError(groups, 0, 0.85)!).toBeLessThan(few);
  });

  test("an interval of 90 % holds the true life in nine of ten runs, whatever dominates; errors are no larger than they are", () => {
    const plan = {names: ["a"], period: 20, times: Float64Array.of(0, 10, 20), reliability: 0.85};
    const runs = 200;
    for (const [between, within] of [
      [0.6, 0.2],
      [0.2, 0.6],
    ]) {
      const truth = 3 - 1.036433 * Math.hypot(between, within);
      let held = 0;
      let squares = 0;
      let told = 0;
      for (let run = 0; run < runs; run++) {
        const groups = replicated(64, 16, {between, within, seed: 100 * run});
        const at = treatmentRisks(groups, plan)[0].reliabilities.find(r => r.reliability === 0.85)!;
        if (at.interval.low <= Math.exp(truth) && Math.exp(truth) <= at.interval.high) held++;
        squares += (Math.log(at.life.low) - truth) ** 2 / runs;
        told += at.logError! ** 2 / runs;
      }
      // Three standard errors of a share of 0.9 in 200 below; above, quantiles of few points vary more than that of all.
      expect(held / runs).toBeGreaterThan(0.835);
      expect(Math.sqrt(told / squares)).toBeGreaterThan(0.85);
      expect(Math.sqrt(told / squares)).toBeLessThan(2);
    }
  });

  test("a life is beyond the horizon when surely more samples outlast it than the reliability asks for", () => {
    const ended = Array.from({length: 100}, (_, i) => sampleOf(10 + i));
    const outlasting = Array.from({length: 100}, () => {
      const {depths, lives} = sampleOf(1e5);
      return {depths, lives: lives.map(life => ({...life, censored: true}))};
    });
    const beyond = (samples: readonly Sample[]): boolean =>
      isBeyond(
        {kind: "life", reliability: 0.85},
        samples.map(one => one.lives[0]),
      );
    expect(beyond(ended)).toBe(false);
    expect(beyond(outlasting)).toBe(true);
    // 90 of 100 outlast it: more than 85 %, but not surely.
    expect(beyond([...ended.slice(0, 10), ...outlasting.slice(0, 90)])).toBe(false);
  });

  test("ratios are taken sample by sample", () => {
    const samples = Array.from({length: 200}, (_, i) => sampleOf(10 + i, 2 * (10 + i)));
    const plan = {names: ["a", "b"], period: 20, times: Float64Array.of(0, 10, 20), reliability: 0.85};
    const [control, treated] = treatmentRisks([samples], plan);
    expect(control.ratio).toBeNull();
    expect(treated.ratio!.quantiles.map(q => q.ratio.low)).toEqual([2, 2, 2]);
  });

  test("swings are sorted by what they move, and said in a sentence", () => {
    const life = (years: number) => [
      {years, censored: false, mechanism: "reflection by traffic" as const, depths: new Float64Array(0)},
    ];
    const inputs = [
      {name: "loads", low: life(12), high: life(9)},
      {name: "law", low: life(30), high: life(5)},
    ];
    const swings = swingsOf(inputs, lives => lives[0].years);
    expect(swings.map(s => s.name)).toEqual(["law", "loads"]);
    // ln² 6 = 3.2104, ln² 0.75 = 0.08276: 97.5 %
    expect(swings[0].share).toBeCloseTo(0.9749, 4);
    expect(swingSentence("The life", swings)).toBe("The life depends mostly on law (97 % of the spread).");
    expect(swingSentence("The life", [])).toMatch(/none of them mostly/);
  });
});
