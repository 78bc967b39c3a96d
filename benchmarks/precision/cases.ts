/** What is computed: control and interlayer of both example studies, wheels alone, each at one temperature at a time. */
import {lifePlan} from "../../src/engine/life/index.ts";
import {activeTraffic} from "../../src/engine/life/plan.ts";
import type {Study} from "../../src/engine/life/types.ts";
import {transferSpring} from "../../src/engine/response/index.ts";
import {modulusAt, type Section} from "../../src/engine/section/index.ts";
import {exampleStudy} from "../section.ts";

/** One treatment at one temperature, all year. */
export interface Case {
  readonly study: Study; // of this treatment alone, without weather
  readonly section: Section;
  readonly temperature: number; // [°C]
  readonly moduli: readonly number[]; // by layer [Pa]
  readonly transfer: number; // q, the same for all discretisations [Pa/m]
}

/** A study of the examples: its cases, and what its year is made of. */
export interface Example {
  readonly name: string;
  readonly cases: readonly Case[];
  /** By treatment, a case at each temperature of the study's own bins. */
  readonly years: readonly {readonly study: Study; readonly cases: readonly Case[]}[];
}

const TREATMENTS = ["Plain overlay", "With interlayer"];
const TEMPERATURES = [0, 25]; // [°C]
const SPRING_ACCURACY = 1e-3; // that of the spring is of no interest here [–]

export function readExample(file: string): Example {
  const study = exampleStudy(file);
  const {bins} = lifePlan(study);
  const treatments = TREATMENTS.map(name => {
    const treatment = study.treatments.find(t => t.name === name);
    if (!treatment) throw new Error(`${file}: no treatment "${name}"`);
    return {...study, traffic: activeTraffic(study.traffic), treatments: [treatment], weather: null};
  });
  return {
    name: study.name,
    cases: treatments.flatMap(own => TEMPERATURES.map(t => caseOf({...own, bins: [{temperature: t, share: 1}]}, t))),
    years: treatments.map(own => {
      const year = {...own, bins};
      return {study: year, cases: bins.map(b => caseOf(year, b.temperature))};
    }),
  };
}

const springs = new Map<string, number>();

function caseOf(study: Study, temperature: number): Case {
  const [{section}] = study.treatments;
  const moduli = section.layers.map(l => modulusAt(l.material, temperature));
  const {length, width, load} = study.traffic.standardAxle.wheels[0];
  const below = moduli.filter((_, k) => !["overlay", "interlayer"].includes(section.layers[k].role));
  const key = JSON.stringify([section.joint, below]);
  const spring = (): number =>
    transferSpring(section, moduli, {length, width, pressure: load / (length * width)}, SPRING_ACCURACY).stiffness;
  const transfer = springs.get(key) ?? spring();
  springs.set(key, transfer);
  return {study, section, temperature, moduli, transfer};
}
