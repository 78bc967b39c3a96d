import {beforeAll, describe, test} from "vitest";
import {
  changedLives,
  exponentsFor,
  type LifeModel,
  type LifePiece,
  lifeModel,
  lifeOf,
  lifePlan,
  lifeWorker,
  type Study,
} from "../../src/engine/life/index.ts";
import {type Distribution, type Input, inputMap, lifeAtReliability, points} from "../../src/engine/risk/index.ts";
import {changeOf, type UncertainInput} from "../../src/engine/uncertainty/index.ts";
import {study as practice, road, singleWheel} from "../practice/sections.ts";
import {verificationTable} from "../table.ts";

const table = verificationTable(
  "uncertainty",
  "Lives of uncertain inputs",
  `Reflection by traffic alone, growth laws of one exponent n = 4, traffic that does not grow: then a life is inversely proportional
to the growth rate and to the fourth power of the load, and its quantiles have closed forms. Sections are solved once and samples
follow without solving ([theory](../theory/uncertainty.md)); beside them a few samples of the same inputs whose study is written
anew and computed whole.`,
);

const sections = [road(0.06, false, null), road(0.06, false, {thickness: 0.01, added: false, toughness: 300})];
const study: Study = {...practice(sections, singleWheel(40e3, 0.7e6, 0.25), null), accuracy: 0.05};
const SAMPLES = 4096;

const rates = (distribution: Distribution): UncertainInput => ({name: "rates", effect: {kind: "rates"}, distribution});
const loads = (distribution: Distribution): UncertainInput => ({name: "loads", effect: {kind: "loads"}, distribution});

describe("samples of a study solved once", () => {
  let model: LifeModel;
  let base: number[];
  beforeAll(() => {
    const further = exponentsFor(0.5);
    const plan = lifePlan(study, further);
    const work = lifeWorker();
    const pieces: LifePiece[] = [];
    for (const task of plan.tasks)
      pieces.push(
        work(
          task,
          task.needs.map(n => pieces[n]),
        ),
      );
    model = lifeModel(study, plan, pieces, further);
    base = model.base.treatments.map(t => t.governing.life.years);
  });

  function livesOf(inputs: readonly UncertainInput[], count = SAMPLES) {
    const map = inputMap(inputs as readonly Input[]);
    const u = points("sobol", {dimensions: map.dimensions, count, seed: 7, skip: 0});
    return Array.from({length: count}, (_, i) => {
      const values = map.values(u.subarray(i * map.dimensions, (i + 1) * map.dimensions));
      return changedLives(model, changeOf(model, inputs, values));
    });
  }

  const atReliability = (samples: ReturnType<typeof livesOf>, reliability: number, treatment = 0): number =>
    lifeAtReliability(
      samples.map(s => s[treatment]),
      reliability,
    ).life.low;

  test("growth rates log-normal, 50 % coefficient of variation", () => {
    const samples = livesOf([rates({kind: "lognormal", median: 1, coefficientOfVariation: 0.5})]);
    const s = Math.sqrt(Math.log(1.25));
    for (const [reliability, z] of [
      [0.5, 0],
      [0.85, 1.036433],
      [0.95, 1.644854],
    ])
      table.compare({
        name: `life at ${100 * reliability} % over that of the study`,
        source: "e^(−z·s), s² = ln 1.25; z from tables of the normal distribution",
        standing: "derived",
        unit: "–",
        expected: Math.exp(-z * s),
        computed: atReliability(samples, reliability) / base[0],
        tolerance: 5e-3, // 4096 Sobol points
      });
  });

  test("loads normal, 10 %", () => {
    const samples = livesOf([loads({kind: "normal", mean: 1, deviation: 0.1})]);
    table.compare({
      name: "life at 85 % over that of the study",
      source: "(1 + 0.1·1.036433)⁻⁴: the life falls with the load",
      standing: "derived",
      unit: "–",
      expected: 1.1036433 ** -4,
      computed: atReliability(samples, 0.85) / base[0],
      tolerance: 5e-3,
    });
  });

  test("product of a log-normal rate and a log-normal load", () => {
    const [a, b] = [0.4, 0.08];
    const samples = livesOf([
      rates({kind: "lognormal", median: 1, coefficientOfVariation: a}),
      loads({kind: "lognormal", median: 1, coefficientOfVariation: b}),
    ]);
    const s = Math.sqrt(Math.log1p(a * a) + 16 * Math.log1p(b * b));
    table.compare({
      name: "life at 85 % over that of the study, both at once",
      source: "ln life is normal with s² = ln(1+a²) + 4²·ln(1+b²)",
      standing: "derived",
      unit: "–",
      expected: Math.exp(-1.036433 * s),
      computed: atReliability(samples, 0.85) / base[0],
      tolerance: 1e-2,
    });
  });

  test("what both treatments share leaves their ratio alone", () => {
    const samples = livesOf([rates({kind: "lognormal", median: 1, coefficientOfVariation: 0.5})], 64);
    const ratios = samples.map(([one, other]) => other.years / one.years);
    table.compare({
      name: "largest ÷ least ratio of two treatments over samples of a shared rate",
      source: "1: it cancels sample by sample",
      standing: "derived",
      unit: "–",
      expected: 1,
      computed: Math.max(...ratios) / Math.min(...ratios),
      tolerance: 2e-3, // step control of the integration
    });
  });

  test("against studies computed whole", () => {
    table.heading("Samples against the same inputs written into a study and computed whole");
    const law: UncertainInput = {
      name: "law",
      effect: {kind: "law", material: "overlay"},
      members: ["ln A", "n"],
      joint: {
        mean: [0, 0],
        covariance: [
          [1.2, -0.18],
          [-0.18, 0.03],
        ],
      },
    };
    const inputs = [law, loads({kind: "normal", mean: 1, deviation: 0.1})];
    const map = inputMap(inputs as readonly Input[]);
    const u = points("sobol", {dimensions: map.dimensions, count: 6, seed: 3, skip: 0});
    for (let i = 0; i < 6; i++) {
      const values = map.values(u.subarray(i * map.dimensions, (i + 1) * map.dimensions));
      const change = changeOf(model, inputs, values);
      const direct = lifeOf(rewritten(values)).treatments;
      changedLives(model, change).forEach(({years}, k) => {
        table.compare({
          name: `sample ${i + 1}, treatment ${k + 1}: Δ ln A ${values[0].toFixed(2)}, Δn ${values[1].toFixed(3)}, loads ×${values[2].toFixed(3)}`,
          source: "the study written anew",
          standing: "derived",
          unit: "years",
          expected: direct[k].governing.life.years,
          computed: years,
          tolerance: 5e-3, // the worst lateral place is not looked for anew
        });
      });
    }
  });

  /** A and n in mm and µε of the overlay, and loads, as the values have them. */
  function rewritten([lnA, n, load]: ArrayLike<number> & Iterable<number>): Study {
    const {classes} = study.traffic;
    return {
      ...study,
      traffic: {
        ...study.traffic,
        classes: classes.map(c => ({...c, wheels: c.wheels.map(w => ({...w, load: load * w.load}))})),
      },
      treatments: study.treatments.map(t => ({
        ...t,
        section: {
          ...t.section,
          layers: t.section.layers.map(l => {
            const {growth, name} = l.material;
            if (!growth || name !== "overlay") return l;
            // c = A·10⁻³·10^(6n)
            const coefficient = growth.coefficient * Math.exp(lnA) * 10 ** (6 * n);
            return {...l, material: {...l.material, growth: {...growth, coefficient, exponent: growth.exponent + n}}};
          }),
        },
      })),
    };
  }
});

table.page();
