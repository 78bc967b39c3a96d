/** A survey in sentences, composed from its numbers and from nothing else. */

import type {Judgement, Region} from "../engine/survey/index.ts";
import {figures, LIFE_CAP, percent, ratio, years, yearsNumber} from "./format.ts";
import type {SurveyCase, SurveyInput, SurveyPoint, SurveyView} from "./survey.ts";
import {displayUnit, type UnitSystem} from "./units.ts";

/** An axis along which the ratio varies by less does not matter [–]. */
const DOES_NOT_MATTER = 0.02;

/** Regions whose ratios are all this close to 1 are told as no difference: less than the model can tell apart. */
const NO_DIFFERENCE = 0.1;

const NARROW = "\u00a0";

/** 60 mm; ×2 for factors; +2 K for what is added. */
export function valueText({name, unit}: SurveyInput, value: number, units: UnitSystem = "metric"): string {
  if (unit === "–") return `×${figures(value)}`;
  const shown = displayUnit(unit, units);
  const sign = name === "temperature" && value > 0 ? "+" : "";
  return `${sign}${figures(shown.toDisplay(value))}${NARROW}${shown.unit}`;
}

export function placeText({x, y, units}: SurveyCase, at: {readonly x: number; readonly y: number}): string {
  return `${x.words} ${valueText(x, at.x, units)} and ${y.words} ${valueText(y, at.y, units)}`;
}

export function surveyAnswer(one: SurveyCase, view: SurveyView): {headline: string; details: string[]} {
  const sentences = [
    presentSentence(one, view),
    ...rangeSentences(one, view),
    harmSentence(one, view),
    costSentence(one, view),
    ...axisSentences(one, view),
    ...unfinished(one),
  ].filter(s => s !== null);
  const [headline = "No point could be computed.", ...details] = sentences;
  // Four points in the corners of a map may foretell what lies between them badly.
  return {headline: one.finished ? headline : `By a first, coarse picture: ${lowered(headline)}`, details};
}

const lowered = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

function presentSentence({treatments: [control, treated], finished}: SurveyCase, {present}: SurveyView): string | null {
  if (!present) return null;
  const start = "In the study as it is";
  const bound = present.kind === "atLeast" ? "at least " : present.kind === "atMost" ? "at most " : "";
  // Lives between four corners are far off where their ratio is not; and lives that are known stand elsewhere.
  if (!finished && present.kind !== "none")
    return `${start}, “${treated}” lasts ${bound || "about "}${times(present.ratio)} as “${control}”.`;
  const [a, b] = [lifeWords(present.control.years), lifeWords(present.treated.years)];
  if (present.kind === "none") return `${start}, “${control}” lasts ${a} and “${treated}” ${b}: no ratio can be told.`;
  return `${start}, “${treated}” lasts ${b} where “${control}” lasts ${a}: ${bound}${times(present.ratio)}.`;
}

function lifeWords(value: number): string {
  return value > LIFE_CAP ? `more than ${years(LIFE_CAP)}` : years(value);
}

/** 1.7 times as long */
function times(value: number): string {
  return `${figures(value, value >= 9.95 ? 3 : 2)} times as long`;
}

function rangeSentences(one: SurveyCase, {best, worst, present}: SurveyView): string[] {
  if (!best || !worst)
    return [
      `Nowhere in these ranges does “${one.treatments[0]}” end within ${years(LIFE_CAP)}: there is no ratio to tell.`,
    ];
  const at = (p: SurveyPoint): string => `${ratioWords(p.judgement!)} at ${placeText(one, p)}`;
  const start = present ? "Over these ranges" : `“${one.treatments[1]}” over “${one.treatments[0]}”`;
  return [`${start} the ratio runs from ${at(worst)}, to ${at(best)}.`];
}

export function ratioWords({kind, ratio: value}: Judgement): string {
  if (kind === "none") return "–";
  return kind === "ratio" ? ratio(value) : `${kind === "atLeast" ? ">" : "<"} ${ratio(value)}`;
}

function harmSentence({treatments}: SurveyCase, {harm, regions}: SurveyView): string | null {
  if (harm === 0) return `Nowhere here does “${treatments[1]}” shorten the life.`;
  if (harm >= 1) return `Everywhere here “${treatments[1]}” shortens the life.`;
  const thinner = regions.some(r => r.effect === "harm by thinner overlay");
  const why = thinner ? ", by the overlay that is lost to it" : "";
  const share = harm < 0.01 ? "less than 1\u00a0%" : percent(Math.round(harm * 100) / 100);
  return `On ${share} of the map “${treatments[1]}” shortens the life${why}.`;
}

function costSentence(
  {treatments: [control, treated], finished}: SurveyCase,
  {cheaper, present}: SurveyView,
): string | null {
  if (cheaper === null) return null;
  // A first map is too coarse between its points for one of them.
  const now =
    finished && present?.cost ? ` In the study as it is, it costs ${comparedCost(present.cost)} “${control}”.` : "";
  const where =
    cheaper === 0
      ? `Nowhere here is “${treated}” the cheaper one`
      : cheaper === 1
        ? `Everywhere here “${treated}” is the cheaper one`
        : `On ${percent(Math.min(0.99, Math.max(0.01, Math.round(cheaper * 100) / 100)))} of the map “${treated}” is the cheaper one`;
  return `${where}, by present worth.${now}`;
}

/** "2 % more than" */
function comparedCost(value: number): string {
  const difference = Math.round(100 * (value - 1)) / 100;
  if (difference === 0) return "as much as";
  return `${percent(Math.abs(difference))} ${difference > 0 ? "more" : "less"} than`;
}

function axisSentences({x, y}: SurveyCase, {alongX, alongY}: SurveyView): string[] {
  const told = (input: SurveyInput, varies: number | null): string[] => {
    if (varies === null || varies >= DOES_NOT_MATTER) return [];
    return [
      `The ratio does not depend on ${input.words} here: along it, it varies by less than ${percent(DOES_NOT_MATTER)}.`,
    ];
  };
  return [...told(x, alongX), ...told(y, alongY)];
}

function unfinished({finished}: SurveyCase): string[] {
  return finished ? [] : ["This is a first picture: not all of its points are computed, and it gets finer with them."];
}

/** What is to be said of a part of the map; a sentence. */
export function regionReason(region: Region, one: Pick<SurveyCase, "interlayer" | "treatments">): string {
  const it = one.interlayer ? "the interlayer" : `“${one.treatments[1]}”`;
  const {effect} = region;
  const [low, high] = region.ratio;
  const range = closeTo(low, high) ? ratio(low) : `${ratio(low)} to ${ratio(high)}`;
  const long = closeTo(low, high) ? times(low) : `${figures(low, 2)} to ${times(high)}`;
  switch (effect) {
    case "waste":
      return `Both last more than ${years(LIFE_CAP)}: there is nothing to gain that can be told.`;
    case "gain":
      if (high < 1 + NO_DIFFERENCE) return `${rules(region)}, and ${it} makes no practical difference (${range}).`;
      return `${rules(region)}${gains(region, it, long)}.`;
    case "harm by thinner overlay":
      if (low > 1 - NO_DIFFERENCE) return `${rules(region)}, and ${it} costs about what it brings (${range}).`;
      return `${rules(region)}, and the overlay lost to ${it} costs more than it brings (${range}).`;
    case "harm":
      return `${rules(region)}, and with ${it} it comes sooner than without (${range}).`;
  }
}

/** What ends the treated section, as the start of a sentence. */
function rules({cause, mechanisms}: Region): string {
  switch (cause) {
    case "traffic":
      return "Traffic rules";
    case "temperature":
      return "Temperature rules";
    case "both":
      return "Traffic and temperature share in the damage";
    case "reflection":
      return "Reflection rules";
    case "ordinary":
      return `Fatigue away from the joint ends the treated section (${mechanisms[0]})`;
    case "nothing":
      return `The treated section outlasts ${years(LIFE_CAP)}`;
  }
}

function gains({cause}: Region, it: string, long: string): string {
  switch (cause) {
    case "ordinary":
      return `: what ${it} holds back longer still does not show; the section lasts ${long}`;
    case "nothing":
      return `, which the control does not: at least ${long}`;
    default:
      return `, and ${it} holds the crack back ${long}`;
  }
}

const CLOSE = 0.03; // told as one number

function closeTo(low: number, high: number): boolean {
  return high / low - 1 < CLOSE;
}

/** How the points in between are known. */
export function interpolationSentence({missed, computed, survey, accuracy, finished}: SurveyCase): string {
  const total = survey.x.values.length * survey.y.values.length;
  const how = `${computed} of ${total} points were computed, at an accuracy of ${percent(accuracy)} in tip strain`;
  if (computed >= total)
    return `${how}; between them the logarithm of each mechanism’s life is interpolated by cubics.`;
  const checked = missed
    ? ` The last ${missed.all.count} points were foretold from those before them: lives missed by at most ${percent(rounded(missed.all.life))}, ratios by at most ${percent(rounded(missed.all.ratio))} (root mean square ${percent(rounded(missed.all.typical))})${finished ? "; now that they are nodes themselves, less is missed" : ""}.`
    : "";
  return `${how}; the others are interpolated by cubics in the logarithm of each mechanism’s life.${checked}`;
}

/** Of a miss no more than two figures say anything. */
function rounded(value: number): number {
  return Number(value.toPrecision(2));
}

/** A cell of a table of lives. */
export function lifeCell(value: number): string {
  return value > LIFE_CAP ? `> ${LIFE_CAP}` : yearsNumber(value);
}
