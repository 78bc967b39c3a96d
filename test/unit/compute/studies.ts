/** A study of two treatments that is computed in a second or so, and edits of it. */
import type {WeatherRecord} from "../../../src/engine/climate/index.ts";
import type {Study, Treatment} from "../../../src/engine/life/index.ts";
import type {Layer, Material, Section} from "../../../src/engine/section/index.ts";
import type {LoadClass} from "../../../src/engine/traffic/index.ts";
import {study as practice, road, singleWheel} from "../../../verification/practice/sections.ts";

/** Four weeks of days and warm spells. */
export function weeks(warmth = 10): WeatherRecord {
  const hours = Float64Array.from({length: 28 * 24}, (_, h) => h);
  return {
    kind: "surface",
    temperature: hours.map(h => warmth + 8 * Math.sin((2 * Math.PI * h) / 24) + 6 * Math.sin((2 * Math.PI * h) / 672)),
    solar: null,
    wind: null,
    dewPoint: null,
    cloud: null,
    startHour: 0,
    startDay: 0,
    label: "made up",
  };
}

const fatigue = {strainAtMillion: 1.2e-4, exponent: 5, referenceModulus: null, stiffnessExponent: 0};

const softening = (m: Material): Material => ({
  ...m,
  fatigue: m.name === "overlay" ? fatigue : null,
  modulus:
    m.name === "overlay" ? [-10, 50].map(t => ({temperature: t, modulus: 3.5e9 * 10 ** ((15 - t) / 40)})) : m.modulus,
});

const wheel = singleWheel(40e3, 0.7e6, 0.25);
const classes: LoadClass[] = [
  {...wheel, name: "full", growth: 0.02},
  {...wheel, name: "half", passesPerYear: 5e4, growth: 0.02, wheels: wheel.wheels.map(w => ({...w, load: w.load / 2}))},
];

export const STUDY: Study = (() => {
  const sections = [road(0.06, false, null), road(0.06, false, {thickness: 0.01, added: true, toughness: 300})];
  const plain = practice(sections, wheel, weeks());
  const study: Study = {
    ...plain,
    traffic: {...plain.traffic, classes},
    bins: {kind: "derive", count: 2},
    accuracy: 0.05,
  };
  return withMaterials(study, softening);
})();

export function withSections(study: Study, change: (section: Section, treatment: number) => Section): Study {
  return {...study, treatments: study.treatments.map((t, k): Treatment => ({...t, section: change(t.section, k)}))};
}

export function withLayers(study: Study, change: (layer: Layer, treatment: number) => Layer): Study {
  return withSections(study, (section, k) => ({...section, layers: section.layers.map(l => change(l, k))}));
}

export function withMaterials(study: Study, change: (material: Material) => Material): Study {
  return withLayers(study, l => ({...l, material: change(l.material)}));
}

export function withClasses(study: Study, change: (loadClass: LoadClass, k: number) => LoadClass): Study {
  return {...study, traffic: {...study.traffic, classes: study.traffic.classes.map(change)}};
}

/** The same in other objects, as when a document is read once more. */
export const again = (study: Study): Study => structuredClone(study);
