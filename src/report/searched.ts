/** A search for the least thickness read for people. Shared by report, terminal and files. */

import {frontierOf, type Governing, governingOf, type LeastFound, type PointOutcome} from "../engine/survey/index.ts";
import {figures, LIFE_CAP, money, percent, years} from "./format.ts";
import {MECHANISM_TEXT} from "./lives.ts";
import {lifeCell} from "./surveyWords.ts";

export interface SearchCase {
  readonly study: string; // name
  readonly layer: string; // whose thickness is searched, in words
  readonly steps: readonly number[]; // thicknesses that can be built [mm]
  readonly target: number; // [years]
  readonly accuracy: number; // [–]
  readonly treatments: readonly {readonly name: string; readonly found: LeastFound}[];
  readonly outcomes: ReadonlyMap<number, PointOutcome>; // by step
  readonly sampling: SearchSampling | null; // null: lives are single best estimates
  readonly prices: {readonly currency: string; readonly period: number} | null; // of the study, period in years
  readonly constant: readonly string[]; // treatments whose sections do not change with it
}

/** Lives are those that a share of samples outlives. */
export interface SearchSampling {
  readonly reliability: number; // [–]
  readonly sections: number; // solved anew at each thickness
  /** By step, in the order of the outcome's treatments. */
  readonly samples: ReadonlyMap<
    number,
    {readonly years: readonly number[]; readonly errors: readonly (number | null)[]}
  >;
}

/** "30 years", "30 years at 85 % reliability" */
export function targetText({target, sampling}: SearchCase): string {
  return sampling ? `${years(target)} at ${percent(sampling.reliability)} reliability` : years(target);
}

/** Reflection in words; ordinary mechanisms are kept with their layer. */
function mechanismText(kept: string): string {
  return (MECHANISM_TEXT as Readonly<Record<string, string>>)[kept] ?? kept;
}

const mm = (value: number): string => `${figures(value)}\u00a0mm`;

/** What governs a treatment at a step; null where it could not be computed. */
export function governingAt({outcomes}: SearchCase, name: string, step: number): Governing | null {
  const outcome = outcomes.get(step);
  if (!outcome || "failed" in outcome) return null;
  return governingOf(outcome.treatments.find(t => t.name === name)!);
}

export interface SearchRow {
  readonly name: string;
  readonly least: string; // "65 mm", "none"
  readonly life: string; // there, or at the best [years]
  readonly below: string; // life one step thinner [years]
  readonly remark: string;
}

export function searchRows(one: SearchCase): SearchRow[] {
  return one.treatments.map(({name, found}) => {
    const at = found.least ?? found.best;
    const life = lifeAt(found, at);
    const below = found.least === null ? null : lifeAt(found, found.least - 1);
    return {
      name,
      least: found.least === null ? "none" : mm(one.steps[found.least]!),
      life: life === null ? "–" : lifeCell(life),
      below: below === null ? "–" : missedCell(below, one.target),
      remark: remarks(one, name, found).join("; "),
    };
  });
}

/** With more figures where the usual ones would hide that the target is missed. */
function missedCell(life: number, target: number): string {
  const usual = lifeCell(life);
  return usual === lifeCell(target) ? figures(life, 4) : usual;
}

function lifeAt({known}: LeastFound, step: number): number | null {
  return known.find(k => k.step === step)?.life ?? null;
}

function remarks(one: SearchCase, name: string, found: LeastFound): string[] {
  const {steps} = one;
  const {least, best, falls} = found;
  const rules = (step: number): string => {
    const governing = governingAt(one, name, step);
    return governing ? `${mechanismText(governing.mechanism)} governs` : "it could not be computed";
  };
  const main =
    least === null
      ? `none reaches it: the longest life has ${mm(steps[best]!)}, where ${rules(best)}`
      : least === 0
        ? `the thinnest reaches it already; ${rules(0)}`
        : rules(least);
  const falling = falls.map(({from, to}) => `life falls from ${mm(steps[from]!)} to ${mm(steps[to]!)}`);
  const missed = least === null ? [] : found.known.filter(k => k.step > least && k.life < one.target);
  const again = missed.map(k => `${mm(steps[k.step]!)} misses it again`);
  return [
    main,
    ...falling,
    ...again,
    ...(one.constant.includes(name) ? ["its section does not change with this layer"] : []),
  ];
}

export function searchAnswer(one: SearchCase): {headline: string; details: string[]} {
  const {steps, treatments} = one;
  const range = `from ${mm(steps[0]!)} to ${mm(steps.at(-1)!)}`;
  const reached = treatments.filter(t => t.found.least !== null);
  if (reached.length === 0)
    return {headline: `No ${one.layer} ${range} lasts ${targetText(one)}, with any treatment.`, details: bestOnes(one)};
  const least = reached.map(({name, found}) => `${mm(steps[found.least!]!)} with “${name}”`);
  return {
    headline: `For ${targetText(one)} the ${one.layer} has to be ${list(least)}.`,
    details: [...saving(one), ...cheapest(one), ...bestOnes(one)],
  };
}

/** Of all designs that reach the target, whatever the treatment. */
function cheapest(one: SearchCase): string[] {
  const {prices, target, treatments} = one;
  const reaching = searchDesigns(one).filter(d => d.life >= target);
  const [first] = frontierOf(reaching);
  if (prices === null || first === undefined) return [];
  const {name} = treatments[first.treatment]!;
  return [
    `The cheapest that reaches it is ${mm(first.thickness)} with “${name}”: ${money(first.cost)} ${prices.currency}/m² present worth over ${years(prices.period)}.`,
  ];
}

/** Against the control, the first treatment. */
function saving({treatments, steps}: SearchCase): string[] {
  const [control, ...others] = treatments;
  const base = control?.found.least;
  if (base === null || base === undefined) return [];
  return others.flatMap(({name, found}) => {
    if (found.least === null || found.least === base) return [];
    const difference = steps[base]! - steps[found.least]!;
    return [
      `“${name}” ${difference > 0 ? "saves" : "needs"} ${mm(Math.abs(difference))}${difference > 0 ? "" : " more"}.`,
    ];
  });
}

function bestOnes(one: SearchCase): string[] {
  return one.treatments.flatMap(({name, found}) => {
    if (found.least !== null) return [];
    const life = lifeAt(found, found.best) ?? 0;
    const governing = governingAt(one, name, found.best);
    const why = governing ? `: ${mechanismText(governing.mechanism)} governs` : "";
    return [
      `“${name}” does not reach it: it lasts ${life > LIFE_CAP ? "more than 100 years" : years(life)} at best, with ${mm(one.steps[found.best]!)}${why}.`,
    ];
  });
}

function list(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

export interface SearchDot {
  readonly treatment: number; // index
  readonly thickness: number; // [mm]
  readonly life: number; // [years], as computed
  readonly mechanism: string; // that governs the best estimate
  readonly cost: number | null; // present worth [cur/m²]
}

export interface SearchDesign extends SearchDot {
  readonly cost: number;
}

/** Dots that have a cost. */
export function searchDesigns(one: SearchCase): SearchDesign[] {
  return searchDots(one).filter((d): d is SearchDesign => d.cost !== null);
}

/** Every treatment at every thickness that was computed for any. */
export function searchDots(one: SearchCase): SearchDot[] {
  const steps = [...one.outcomes.keys()].sort((a, b) => a - b);
  return one.treatments.flatMap(({name}, treatment) =>
    steps.flatMap(step => {
      const outcome = one.outcomes.get(step)!;
      if ("failed" in outcome) return [];
      const k = outcome.treatments.findIndex(t => t.name === name);
      const {mechanism, years: estimate} = governingOf(outcome.treatments[k]!);
      const life = one.sampling ? one.sampling.samples.get(step)?.years[k] : estimate;
      const cost = outcome.treatments[k]!.presentWorth;
      return life === undefined ? [] : [{treatment, thickness: one.steps[step]!, life, mechanism, cost}];
    }),
  );
}
