/** The parts of a response model at one wavenumber on one mesh, each timed by itself on one thread. */
import {
  antisymmetricPart,
  type Condition,
  condense,
  contactSegments,
  type LineModel,
  openingCombinations,
  type Patch,
  pathMaterial,
  type StateSpace,
  shearCombinations,
  stiffnesses,
  sweepStates,
  symmetricPart,
  wheelLoads,
  zonesOf,
} from "../../src/engine/response/index.ts";
import type {Section} from "../../src/engine/section/index.ts";
import {BETA} from "../elimination.ts";
import {timesOf} from "../times.ts";

/** Everything but the line eliminated; both parts of it under all wheels; all crack states; what all wavenumbers share. */
export const PARTS = ["elimination", "line under wheels", "crack states", "zones and loads"] as const;
export type Part = (typeof PARTS)[number];

export interface Setting {
  readonly section: Section;
  readonly condition: Condition;
  readonly model: LineModel;
  readonly space: StateSpace;
  readonly patch: Patch;
}

const WARM_UP = 4;
const FEWEST_RUNS = 5;
const MOST_RUNS = 25;
const ENOUGH = 400; // of timing one part [ms]

/** @returns medians [ms] */
export function partTimes({section, condition, model, space, patch}: Setting): Readonly<Record<Part, number>> {
  const stiff = stiffnesses(section, condition);
  const prepared = () => {
    const material = pathMaterial(section, model, condition);
    const zones = space.states.map(zonesOf(model, space, material));
    return {
      openings: zones.map(openingCombinations),
      shears: zones.map(shearCombinations),
      even: wheelLoads(model.mesh, patch.length, patch.centres, "symmetric"),
      odd: wheelLoads(model.mesh, patch.length, patch.centres, "antisymmetric"),
    };
  };
  const {openings, shears, even, odd} = prepared();
  const segments = contactSegments(model, section.joint.facesTouch);
  const S = condense(model, stiff, BETA);
  const reduced = () => ({
    symmetric: symmetricPart(model, S, even, segments),
    antisymmetric: antisymmetricPart(model, S, odd, condition.transfer, section.crackInterlock),
  });
  const {symmetric, antisymmetric} = reduced();
  const swept = (): void => {
    const {kernel} = model;
    sweepStates(kernel, space, symmetric, 1, state => openings[state], keepNothing);
    sweepStates(kernel, space, antisymmetric, 2, state => shears[state], keepNothing);
  };
  return {
    elimination: median(() => condense(model, stiff, BETA)),
    "line under wheels": median(reduced),
    "crack states": median(swept),
    "zones and loads": median(prepared),
  };
}

function keepNothing(): void {}

function median(once: () => void): number {
  const {ms} = timesOf(once, {warmUp: WARM_UP, runs: 1});
  const runs = Math.min(MOST_RUNS, Math.max(FEWEST_RUNS, Math.round(ENOUGH / ms)));
  return timesOf(once, {warmUp: 0, runs}).ms;
}
