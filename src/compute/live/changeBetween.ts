/** What a solved study and another one differ in, where that is no more than a model of lives can change. */
import {type Change, type LifeModel, noChange, type Study} from "../../engine/life/index.ts";
import type {Material, Section} from "../../engine/section/types.ts";
import type {LoadClass} from "../../engine/traffic/types.ts";
import {sameContent} from "./sameContent.ts";

/** Ratios and differences of decimal numbers equal within this, relative or per year, are one [–]. */
const SAME = 1e-12;

/**
 * The change of the model that gives the lives of a study: other growth laws' A and n and other fatigue strains by material;
 * passes, loads and growth rates of all classes changed alike. Names and prices make no difference to lives.
 *
 * @returns null when the studies differ in anything else, or an exponent by more than the model spans
 */
export function changeBetween(model: LifeModel, study: Study): Change | null {
  const solved = model.base.study;
  if (!sameContent(fixedContent(solved), fixedContent(study))) return null;
  const traffic = trafficChange(activeClasses(solved), activeClasses(study));
  const materials = materialChange(model, study);
  return traffic && materials && {...noChange(model), ...traffic, ...materials};
}

const activeClasses = ({traffic}: Study): readonly LoadClass[] => traffic.classes.filter(c => c.passesPerYear > 0);

/** All that must be the same. */
function fixedContent(study: Study): unknown {
  const {name: _, costs: __, treatments, traffic, ...rest} = study;
  return {
    ...rest,
    treatments: treatments.map(({section}) => fixedSection(section)),
    traffic: {
      classes: activeClasses(study).map(({wheels, wander}) => ({
        wander,
        wheels: wheels.map(({load, ...place}) => place),
      })),
      calendar: traffic.calendar,
      standardAxle: traffic.standardAxle.wheels,
    },
  };
}

function fixedSection({layers, ...section}: Section): unknown {
  return {
    ...section,
    layers: layers.map(({name, material, ...layer}) => ({...layer, material: fixedMaterial(material)})),
  };
}

/** The name stays: a model knows materials by it. */
function fixedMaterial({source, masterCurve, estimated, growth, fatigue, ...material}: Material): unknown {
  return {
    ...material,
    growth: growth && {...growth, coefficient: 1, exponent: 1},
    fatigue: fatigue && {...fatigue, strainAtMillion: 1},
  };
}

function trafficChange(
  solved: readonly LoadClass[],
  now: readonly LoadClass[],
): Pick<Change, "passes" | "loads" | "growth"> | null {
  if (solved.length === 0) return {passes: 1, loads: 1, growth: 0};
  const passes = oneRatio(
    solved.map(c => c.passesPerYear),
    now.map(c => c.passesPerYear),
  );
  const loadsOf = (classes: readonly LoadClass[]): number[] => classes.flatMap(c => c.wheels.map(w => w.load));
  const loads = oneRatio(loadsOf(solved), loadsOf(now));
  const added = now.map((c, k) => c.growth - solved[k].growth);
  const growth = added.every(a => Math.abs(a - added[0]) <= SAME) ? added[0] : null;
  return passes === null || loads === null || growth === null ? null : {passes, loads, growth};
}

/** What all of some numbers were multiplied by; null when that is no single factor above 0. */
function oneRatio(before: readonly number[], now: readonly number[]): number | null {
  const ratios = now.map((v, k) => (v === before[k] ? 1 : v / before[k]));
  const [first] = ratios;
  const alike = ratios.every(r => Math.abs(r - first) <= SAME * Math.abs(first));
  return alike && first > 0 && first < Infinity ? first : null;
}

/** A material may stand in many layers, with one law in all. */
function materialChange(
  {base, materials, further}: LifeModel,
  study: Study,
): Pick<Change, "laws" | "fatigueStrains"> | null {
  const solved = materialsOf(base.study);
  const now = materialsOf(study);
  const span = Math.max(0, ...further);
  const changes = materials.map(name => {
    const each = solved.flatMap((m, k) => (m.name === name ? [changeOf(m, now[k])] : []));
    return each.every(c => sameContent(c, each[0])) ? each[0] : null;
  });
  const good = changes.flatMap(c =>
    c !== null && isFactor(c.coefficient) && isFactor(c.strain) && Math.abs(c.exponent) <= span ? [c] : [],
  );
  if (good.length < changes.length) return null;
  return {
    laws: good.map(({coefficient, exponent}) => ({coefficient, exponent})),
    fatigueStrains: good.map(c => c.strain),
  };
}

const isFactor = (value: number): boolean => value > 0 && value < Infinity;

/** In the order of treatments and layers, which is the same in studies of the same fixed content. */
const materialsOf = ({treatments}: Study): Material[] => treatments.flatMap(t => t.section.layers.map(l => l.material));

function changeOf(from: Material, to: Material): {coefficient: number; exponent: number; strain: number} {
  const [law, other] = [from.growth, to.growth];
  const [line, otherLine] = [from.fatigue, to.fatigue];
  return {
    coefficient: law && other ? other.coefficient / law.coefficient : 1,
    exponent: law && other ? other.exponent - law.exponent : 0,
    strain: line && otherLine ? otherLine.strainAtMillion / line.strainAtMillion : 1,
  };
}
