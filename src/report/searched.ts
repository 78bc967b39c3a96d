/** A search for the least thickness read for people. Shared by report, terminal and files. */

import {frontierOf, type Governing, governingOf, type LeastFound, type PointOutcome} from "../engine/survey/index.ts";
import type {FrontierPicture} from "./charts/index.ts";
import {figures, LIFE_CAP, money, percent, thicknessFigures, years} from "./format.ts";
import {MECHANISM_TEXT} from "./lives.ts";
import {pointWarnings} from "./pointWarnings.ts";
import {lifeCell} from "./surveyWords.ts";
import {measure, type UnitSystem} from "./units.ts";

export interface SearchCase {
  readonly study: string; // name
  readonly layer: string; // whose thickness is searched, in words
  readonly isLaid: boolean; // by treatments; else it is there already
  readonly steps: readonly number[]; // thicknesses that can be built [mm]
  readonly target: number; // [years]
  readonly accuracy: number; // [–]
  readonly treatments: readonly {readonly name: string; readonly found: LeastFound}[];
  readonly outcomes: ReadonlyMap<number, PointOutcome>; // by step
  readonly sampling: SearchSampling | null; // null: lives are of the study's own values
  readonly prices: {readonly currency: string; readonly period: number} | null; // of the study, period in years; null where it has none, and where the layer is not laid
  readonly constant: readonly string[]; // treatments whose sections do not change with it
  readonly units?: UnitSystem | undefined; // of words; default: metric
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

/** A thickness of the search in words. */
function thick({units}: SearchCase, thickness: number): string {
  const {unit, fromMetric} = measure("length", units);
  return `${thicknessFigures(fromMetric(thickness))}\u00a0${unit}`;
}

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
    const life = at === null ? null : lifeAt(found, at);
    const below = found.least === null ? null : lifeAt(found, found.least - 1);
    return {
      name,
      least: found.least === null ? "none" : thick(one, one.steps[found.least]!),
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
  if (best === null) return ["none could be computed"];
  const rules = (step: number): string => `${mechanismText(governingAt(one, name, step)!.mechanism)} governs`;
  const main =
    least === null
      ? `none reaches it: the longest life has ${thick(one, steps[best]!)}, where ${rules(best)}`
      : least === 0
        ? `the thinnest reaches it already; ${rules(0)}`
        : rules(least);
  const isUnknown = least !== null && least > 0 && lifeAt(found, least - 1) === null;
  const unknown = isUnknown ? [`${thick(one, steps[least - 1]!)} could not be computed`] : [];
  const falling = falls.map(({from, to}) => `life falls from ${thick(one, steps[from]!)} to ${thick(one, steps[to]!)}`);
  const missed = least === null ? [] : found.known.filter(k => k.step > least && k.life < one.target);
  const again = missed.map(k => `${thick(one, steps[k.step]!)} misses it again`);
  return [
    main,
    ...unknown,
    ...falling,
    ...again,
    ...(one.constant.includes(name) ? ["its section does not change with this layer"] : []),
  ];
}

export function searchAnswer(one: SearchCase): {headline: string; details: string[]} {
  const {steps, treatments} = one;
  const range = `from ${thick(one, steps[0]!)} to ${thick(one, steps.at(-1)!)}`;
  const reached = treatments.filter(t => t.found.least !== null);
  if (reached.length === 0)
    return {headline: `No ${one.layer} ${range} lasts ${targetText(one)}, with any treatment.`, details: bestOnes(one)};
  const least = reached.map(({name, found}) => `${thick(one, steps[found.least!]!)} with “${name}”`);
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
    `The cheapest of those computed that reaches it is ${thick(one, first.thickness)} with “${name}”: ${money(first.cost)} ${prices.currency}/m² present worth over ${years(prices.period)}.`,
  ];
}

/** Against the control, the first treatment. */
function saving(one: SearchCase): string[] {
  const {treatments, steps} = one;
  if (!one.isLaid) return [];
  const [control, ...others] = treatments;
  const base = control?.found.least;
  if (base === null || base === undefined) return [];
  return others.flatMap(({name, found}) => {
    if (found.least === null || found.least === base) return [];
    const difference = steps[base]! - steps[found.least]!;
    return [
      `“${name}” ${difference > 0 ? "saves" : "needs"} ${thick(one, Math.abs(difference))}${difference > 0 ? "" : " more"}.`,
    ];
  });
}

function bestOnes(one: SearchCase): string[] {
  return one.treatments.flatMap(({name, found}) => {
    if (found.least !== null) return [];
    if (found.best === null) return [`“${name}” could not be computed at any of them.`];
    const life = lifeAt(found, found.best)!;
    const governing = governingAt(one, name, found.best);
    const why = governing ? `: ${mechanismText(governing.mechanism)} governs` : "";
    return [
      `“${name}” does not reach it: it lasts ${life > LIFE_CAP ? "more than 100 years" : years(life)} at best, with ${thick(one, one.steps[found.best]!)}${why}.`,
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
  readonly mechanism: string; // that governs with the study's own values
  readonly cost: number | null; // present worth [cur/m²]
}

interface SearchDesign extends SearchDot {
  readonly cost: number;
}

/** Dots that have a cost. */
function searchDesigns(one: SearchCase): SearchDesign[] {
  return searchDots(one).filter((d): d is SearchDesign => d.cost !== null);
}

/** So many times the dearest of the best is drawn [–]: what dies soon and is renewed often would push all else together. */
const DRAWN_UP_TO = 1.5;

/**
 * Designs that have a cost, those that are the answer in any case, and those of which none lasts longer for less; nothing
 * without prices.
 */
export function pricedDesigns(
  one: SearchCase,
): Pick<FrontierPicture, "designs" | "frontier"> & {readonly dearer: number} {
  // Beyond what is told as a prediction none lasts longer than another.
  const all = searchDesigns(one).map(d => ({...d, life: Math.min(d.life, LIFE_CAP)}));
  const frontier = frontierOf(all);
  const most = DRAWN_UP_TO * (frontier.at(-1)?.cost ?? 0);
  const leasts = one.treatments.map(({found: {least}}) => (least === null ? null : one.steps[least]!));
  const designs = all.filter(d => d.cost <= most || d.thickness === leasts[d.treatment]);
  return {designs, frontier, dearer: all.length - designs.length};
}

/** Of designs that are not drawn, as a sentence; "" when all are. */
function dearerText(dearer: number): string {
  if (dearer === 0) return "";
  return dearer === 1
    ? "One more, which costs far more and lasts no longer, is not drawn."
    : `${dearer} more, which cost far more and last no longer, are not drawn.`;
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

/** What a life is, as the beginning of a sentence. */
export function lifeWords({sampling}: SearchCase): string {
  return sampling ? `Life at ${percent(sampling.reliability)} reliability` : "Governing life";
}

const CAPPED = `Lives of more than ${years(LIFE_CAP)} are drawn there.`;

/** Below the picture of lives. */
export function livesCaption(one: SearchCase): string {
  return `${lifeWords(one)} against thickness at the thicknesses that were computed. Dashed: the target. ${CAPPED}`;
}

/** Below the picture of lives and costs; "" without prices. */
export function costsCaption(one: SearchCase, dearer: number): string {
  if (one.prices === null) return "";
  const worth = one.sampling ? ", the latter with lives of the study’s own values" : "";
  const unit = one.units === "us" ? "inches" : "mm";
  return `${lifeWords(one)} against present worth of all costs over ${years(one.prices.period)}${worth}. Numbers: thickness in ${unit}. Line: designs of which none lasts longer for less. Dashed: the target. ${CAPPED} ${dearerText(dearer)}`.trimEnd();
}

const METHOD =
  "A few thicknesses over the whole range are computed, then the first gap in which the target is passed is halved down to neighbouring steps: the one below misses the target. One more step above is computed. A peak between two thicknesses that both miss stays unseen";

/** How the thicknesses were chosen, and how well they are computed. */
export function searchMethod({accuracy}: SearchCase): string {
  return `${METHOD}. Accuracy ${percent(accuracy)} in tip strain.`;
}

/** How sure the lives are. */
export function safetySentence({sampling}: SearchCase): string {
  if (sampling === null)
    return "Lives are those of the study’s own values: no safety is added to them. Where those values are on the safe side already, the life at a reliability can be longer.";
  const {reliability, sections, samples} = sampling;
  const errors = [...samples.values()].flatMap(s => s.errors).filter(e => e !== null);
  const error =
    errors.length > 0 ? `; their standard error is up to ${percent(Number(Math.max(...errors).toPrecision(2)))}` : "";
  return `Lives are those that ${percent(reliability)} of samples of the study’s uncertain inputs outlive, from ${sections} sections solved anew at each thickness, the same samples everywhere${error}.`;
}

/** Of the search as a whole, and of all thicknesses that were computed, or could not be. */
export function searchWarnings(one: SearchCase): string[] {
  const {steps, outcomes} = one;
  const present = one.isLaid
    ? []
    : [`No treatment lays this layer, it is there already: the ${one.layer} is searched, and costs are not told.`];
  const failures = [...outcomes].flatMap(([step, outcome]) =>
    "failed" in outcome ? [`${thick(one, steps[step]!)} could not be computed. ${outcome.failed}`] : [],
  );
  return [...present, ...pointWarnings([...outcomes.values()]), ...failures];
}
