/** The road example under loads of four axle groups, fifteen each, and under one load of one of them. */
import type {Study} from "../../src/engine/life/index.ts";
import type {LoadClass, Wheel} from "../../src/engine/traffic/index.ts";

/** Tyres of a group: x of its axles, y of its tyres, contact patch [m]; lightest load and step [N]. */
interface Group {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly length: number;
  readonly width: number;
  readonly lightest: number;
  readonly step: number;
}

const SINGLE = [-1.025, 1.025];
const DUAL = [-1.07, -0.73, 0.73, 1.07];

const GROUPS: readonly Group[] = [
  {name: "single tyres", x: [0], y: SINGLE, length: 0.25, width: 0.17, lightest: 20e3, step: 5e3},
  {name: "dual tyres", x: [0], y: DUAL, length: 0.2, width: 0.14, lightest: 30e3, step: 8e3},
  {name: "tandem", x: [-0.675, 0.675], y: DUAL, length: 0.2, width: 0.14, lightest: 60e3, step: 12e3},
  {name: "tridem", x: [-1.3, 0, 1.3], y: SINGLE, length: 0.16, width: 0.29, lightest: 90e3, step: 15e3},
];

const LOADS = 15; // a group

function classOf(group: Group, load: number): LoadClass {
  const {x, y, length, width, name} = group;
  const each = load / (x.length * y.length);
  const wheels = x.flatMap(along => y.map((across): Wheel => ({x: along, y: across, load: each, length, width})));
  const wander = {kind: "normal", deviation: 0.25} as const;
  return {name: `${name} ${load / 1e3} kN`, group: name, wheels, passesPerYear: 5e3, growth: 0.02, wander};
}

/** @param study the road example */
export function underSpectrum(study: Study): Study {
  const loads = GROUPS.flatMap(g => Array.from({length: LOADS}, (_, k) => classOf(g, g.lightest + k * g.step)));
  return {...study, traffic: {...study.traffic, classes: loads}};
}

/** Under one load of the tandem. */
export function underOneLoad(study: Study): Study {
  return {...study, traffic: {...study.traffic, classes: [classOf(GROUPS[2], 160e3)]}};
}
