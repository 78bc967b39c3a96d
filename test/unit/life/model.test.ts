import {beforeAll, describe, expect, test} from "vitest";
import {
  type Change,
  changedLives,
  exponentsFor,
  type LifeModel,
  type LifePiece,
  lifeModel,
  lifeOf,
  lifePlan,
  lifeWorker,
  noChange,
  type Study,
} from "../../../src/engine/life/index.ts";
import {study as practice, road, singleWheel, typicalYear} from "../../../verification/practice/sections.ts";

const SPAN = 1;

const wheel = singleWheel(40e3, 0.7e6, 0.25);
const plain = road(0.06, false, null);
const withInterlayer = road(0.06, false, {thickness: 0.01, added: false, toughness: 300});
const fatigue = {strainAtMillion: 1.2e-4, exponent: 5, referenceModulus: null, stiffnessExponent: 0};
const sections = [plain, withInterlayer].map(s => ({
  ...s,
  layers: s.layers.map(l => (l.role === "overlay" ? {...l, material: {...l.material, fatigue}} : l)),
}));
const study: Study = {
  ...practice(sections, {...wheel, growth: 0.02}, typicalYear()),
  accuracy: 0.05,
};

function modelOf(s: Study): LifeModel {
  const further = exponentsFor(SPAN);
  const plan = lifePlan(s, further);
  const work = lifeWorker();
  const pieces: LifePiece[] = [];
  for (const task of plan.tasks)
    pieces.push(
      work(
        task,
        task.needs.map(n => pieces[n]),
      ),
    );
  return lifeModel(s, plan, pieces, further);
}

/** The study as if it had been written with the change. */
function rewritten(s: Study, model: LifeModel, change: Change): Study {
  const lawOf = (name: string) => change.laws[model.materials.indexOf(name)];
  return {
    ...s,
    traffic: {
      ...s.traffic,
      classes: s.traffic.classes.map(c => ({
        ...c,
        growth: c.growth + change.growth,
        passesPerYear: change.passes * c.passesPerYear,
        wheels: c.wheels.map(w => ({...w, load: change.loads * w.load})),
      })),
    },
    treatments: s.treatments.map(t => ({
      ...t,
      section: {
        ...t.section,
        layers: t.section.layers.map(l => {
          const {growth, fatigue: line, name} = l.material;
          const law = lawOf(name);
          return {
            ...l,
            material: {
              ...l.material,
              growth: growth && {
                ...growth,
                coefficient: growth.coefficient * law.coefficient,
                exponent: growth.exponent + law.exponent,
              },
              fatigue: line && {
                ...line,
                strainAtMillion: line.strainAtMillion * change.fatigueStrains[model.materials.indexOf(name)],
              },
            },
          };
        }),
      },
    })),
  };
}

describe("lives of a study solved once", () => {
  let model: LifeModel;
  beforeAll(() => {
    model = modelOf(study);
  });

  test("nothing changed: the lives of the study", () => {
    const lives = changedLives(model, noChange(model));
    lives.forEach(({years, mechanism}, k) => {
      expect(years).toBeCloseTo(model.base.treatments[k].governing.life.years, 8);
      expect(mechanism).toBe(model.base.treatments[k].governing.mechanism);
    });
  });

  test.each([
    [
      "laws",
      {
        laws: [
          {coefficient: 40, exponent: 0.45},
          {coefficient: 0.02, exponent: -0.5},
        ],
      },
    ],
    ["loads, counts and growth", {loads: 1.15, passes: 0.7, growth: 0.02}],
    [
      "laws at the ends of the span",
      {
        laws: [
          {coefficient: 2e3, exponent: SPAN},
          {coefficient: 5e-4, exponent: -SPAN},
        ],
      },
    ],
    ["fatigue lines so weak that they govern", {fatigueStrains: [0.5, 1], loads: 1.1}],
  ] satisfies [string, Partial<Change>][])("%s: within half a per cent of the study computed anew", (_, part) => {
    const change = {...noChange(model), ...part};
    const direct = lifeOf(rewritten(study, model, change)).treatments;
    changedLives(model, change).forEach(({years, mechanism}, k) => {
      expect(Math.abs(years / direct[k].governing.life.years - 1)).toBeLessThan(0.005);
      expect(mechanism).toBe(direct[k].governing.mechanism);
    });
  });

  test("larger temperature changes shorten a life by temperature with the power n of its law", () => {
    const cold = modelOf({...study, traffic: {...study.traffic, classes: []}});
    const years = (temperatures: number) => changedLives(cold, {...noChange(cold), temperatures})[0].years;
    expect(years(1) / years(1.2)).toBeCloseTo(1.2 ** 4, 2);
  });

  test("depth of the crack rises to the whole overlay at the end of the life", () => {
    const [{years, depths}] = changedLives(model, {...noChange(model), passes: 5});
    expect(depths).toHaveLength(model.times.length);
    for (let k = 1; k < depths.length; k++) expect(depths[k]).toBeGreaterThanOrEqual(depths[k - 1]);
    expect(depths[0]).toBe(0);
    if (years < study.analysisPeriod) expect(depths[depths.length - 1]).toBe(1);
  });

  test("what the model does not span is refused", () => {
    const laws = [
      {coefficient: 1, exponent: 1.5},
      {coefficient: 1, exponent: 0},
    ];
    expect(() => changedLives(model, {...noChange(model), laws})).toThrow("change.laws[0].exponent: got 1.5");
    expect(() => changedLives(model, {...noChange(model), loads: -1})).toThrow("change.loads");
    expect(() => changedLives(model, {...noChange(model), laws: []})).toThrow("one a material");
  });
});
