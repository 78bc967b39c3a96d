/** Expected: the change with which a study was rewritten; and no change where the study differs in what a model has solved. */
import {beforeAll, describe, expect, test} from "vitest";
import {computeModel} from "../../../src/compute/index.ts";
import {changeBetween} from "../../../src/compute/live/changeBetween.ts";
import {type LifeModel, noChange, type Study} from "../../../src/engine/life/index.ts";
import {notedPool} from "./inProcess.ts";
import {again, STUDY, weeks, withClasses, withLayers, withMaterials, withSections} from "./studies.ts";

const SPAN = 0.5;
let model: LifeModel;
beforeAll(async () => {
  model = await computeModel(STUDY, SPAN, {pool: notedPool().openPool()});
}, 60_000);

/** Rounding of a ratio of decimal numbers. */
const DIGITS = 12;

describe("what a model can change", () => {
  test("nothing, names, words and prices: no change", () => {
    const same = noChange(model);
    expect(changeBetween(model, STUDY)).toEqual(same);
    const renamed = withClasses(
      {...again(STUDY), name: "other", treatments: STUDY.treatments.map(t => ({...t, name: "x", description: "y"}))},
      c => ({...c, name: "other", group: "g"}),
    );
    expect(changeBetween(model, renamed)).toEqual(same);
    expect(
      changeBetween(
        model,
        withMaterials(STUDY, m => ({...m, source: "hearsay", estimated: true})),
      ),
    ).toEqual(same);
    expect(
      changeBetween(
        model,
        withLayers(STUDY, l => ({...l, name: `${l.name} 2`})),
      ),
    ).toEqual(same);
  });

  test("a class without passes is as good as none", () => {
    const {traffic} = STUDY;
    const idle = {...traffic.classes[0], passesPerYear: 0, growth: 0.5, wheels: []};
    expect(changeBetween(model, {...STUDY, traffic: {...traffic, classes: [idle, ...traffic.classes]}})).toEqual(
      noChange(model),
    );
  });

  test("passes, loads and growth of all classes", () => {
    const change = changeBetween(
      model,
      withClasses(STUDY, c => ({
        ...c,
        passesPerYear: c.passesPerYear * 0.7,
        growth: c.growth - 0.013,
        wheels: c.wheels.map(w => ({...w, load: w.load * 1.15})),
      })),
    );
    expect(change?.passes).toBeCloseTo(0.7, DIGITS);
    expect(change?.loads).toBeCloseTo(1.15, DIGITS);
    expect(change?.growth).toBeCloseTo(-0.013, DIGITS);
    expect(change?.temperatures).toBe(1);
  });

  test("laws and fatigue strains by material", () => {
    const change = changeBetween(
      model,
      withMaterials(STUDY, m => {
        const [factor, added] = m.name === "overlay" ? [3, 0.4] : [0.2, -0.3];
        return {
          ...m,
          growth: m.growth && {
            ...m.growth,
            coefficient: m.growth.coefficient * factor,
            exponent: m.growth.exponent + added,
          },
          fatigue: m.fatigue && {...m.fatigue, strainAtMillion: m.fatigue.strainAtMillion * 0.8},
        };
      }),
    );
    expect(model.materials).toEqual(["overlay", "interlayer"]);
    expect(change?.laws[0].coefficient).toBeCloseTo(3, DIGITS);
    expect(change?.laws[0].exponent).toBeCloseTo(0.4, DIGITS);
    expect(change?.laws[1].coefficient).toBeCloseTo(0.2, DIGITS);
    expect(change?.laws[1].exponent).toBeCloseTo(-0.3, DIGITS);
    expect(change?.fatigueStrains[0]).toBeCloseTo(0.8, DIGITS);
    expect(change?.fatigueStrains[1]).toBe(1);
  });
});

describe("what it cannot", () => {
  const {traffic} = STUDY;
  const [first] = STUDY.treatments;
  const overlay = (change: object) => withLayers(STUDY, l => (l.role === "overlay" ? {...l, ...change} : l));
  test.each<[string, Study]>([
    ["thickness", overlay({thickness: 0.061})],
    ["a bond where there was full bond", overlay({bondBelow: 1e10})],
    ["friction from full bond to some", withSections(STUDY, s => ({...s, slabFriction: 1e9}))],
    ["a joint", withSections(STUDY, s => ({...s, joint: {...s.joint, spacing: 4.5}}))],
    ["Poisson's ratio", withMaterials(STUDY, m => ({...m, poisson: 0.3}))],
    [
      "one point of a modulus",
      withMaterials(STUDY, m => ({...m, modulus: [...m.modulus.slice(1), {temperature: 60, modulus: 1e9}]})),
    ],
    ["process zone", withMaterials(STUDY, m => ({...m, growth: m.growth && {...m.growth, zoneLength: 0.011}}))],
    [
      "a law where there was none",
      withMaterials(STUDY, m => ({
        ...m,
        growth: {coefficient: 1, exponent: 4, zoneLength: 0.01, referenceModulus: null, stiffnessExponent: 0},
      })),
    ],
    ["a fatigue line less", withMaterials(STUDY, m => ({...m, fatigue: null}))],
    ["slope of a fatigue line", withMaterials(STUDY, m => ({...m, fatigue: m.fatigue && {...m.fatigue, exponent: 4}}))],
    [
      "an exponent beyond the span",
      withMaterials(STUDY, m => ({...m, growth: m.growth && {...m.growth, exponent: 4.6}})),
    ],
    ["an A of nothing", withMaterials(STUDY, m => ({...m, growth: m.growth && {...m.growth, coefficient: 0}}))],
    [
      "a material with two laws",
      withLayers(STUDY, (l, k) =>
        k ? l : {...l, material: {...l.material, growth: l.material.growth && {...l.material.growth, coefficient: 1}}},
      ),
    ],
    ["another name of a material", withMaterials(STUDY, m => ({...m, name: `${m.name} 2`}))],
    ["passes of one class", withClasses(STUDY, (c, k) => ({...c, passesPerYear: c.passesPerYear * (1 + k)}))],
    ["no passes at all", withClasses(STUDY, c => ({...c, passesPerYear: 0}))],
    ["growth of one class", withClasses(STUDY, (c, k) => ({...c, growth: 0.02 + 0.01 * k}))],
    [
      "loads of one class",
      withClasses(STUDY, (c, k) => ({...c, wheels: c.wheels.map(w => ({...w, load: w.load * (1 + k)}))})),
    ],
    ["contact area", withClasses(STUDY, c => ({...c, wheels: c.wheels.map(w => ({...w, width: 0.3}))}))],
    ["wander", withClasses(STUDY, c => ({...c, wander: {kind: "normal", deviation: 0.2}}))],
    ["a class more", {...STUDY, traffic: {...traffic, classes: [...traffic.classes, traffic.classes[0]]}}],
    ["calendar", {...STUDY, traffic: {...traffic, calendar: {hours: Array(24).fill(1 / 24), months: null}}}],
    [
      "standard axle",
      {
        ...STUDY,
        traffic: {
          ...traffic,
          standardAxle: {...traffic.standardAxle, wheels: [{...traffic.standardAxle.wheels[0], load: 1e4}]},
        },
      },
    ],
    [
      "one hour of the record",
      {...STUDY, weather: {...weeks(), temperature: weeks().temperature.map((t, h) => (h === 99 ? t + 0.1 : t))}},
    ],
    ["no record", {...STUDY, weather: null}],
    ["a wind where none was", {...STUDY, weather: {...weeks(), wind: new Float64Array(672)}}],
    ["surface", {...STUDY, exchange: {...STUDY.exchange, emissivity: 0.8}}],
    ["bins", {...STUDY, bins: {kind: "derive", count: 3}}],
    ["bins given", {...STUDY, bins: [{temperature: 10, share: 1}]}],
    ["neutral temperature", {...STUDY, neutralTemperature: 0}],
    ["analysis period", {...STUDY, analysisPeriod: 21}],
    ["accuracy", {...STUDY, accuracy: 0.04}],
    ["a treatment less", {...STUDY, treatments: [first]}],
    ["treatments in another order", {...STUDY, treatments: [...STUDY.treatments].reverse()}],
  ])("%s", (_, study) => {
    expect(changeBetween(model, study)).toBeNull();
  });
});
