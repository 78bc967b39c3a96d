/** The result in plain sentences, composed from the numbers and from nothing else. */

import type {LifeResult, TreatmentLife} from "../engine/life/types.ts";
import {beyondCap, LIFE_CAP, lifeText, ratio, years, yearsNumber} from "./format.ts";
import {control, driver, governingRatio, isOrdinary, MECHANISM_TEXT, reflection} from "./lives.ts";

/** Life ratios this close to 1 are told as no difference: less than the model can tell apart. */
const NO_DIFFERENCE = 0.1;

export interface Answer {
  readonly headline: string; // one sentence
  readonly details: readonly string[]; // one sentence each
}

function quoted(t: TreatmentLife): string {
  return `“${t.treatment.name}”`;
}

function lasts(t: TreatmentLife): string {
  const life = t.governing.life;
  return beyondCap(life) || life.censored ? `more than ${years(Math.min(life.years, LIFE_CAP))}` : years(life.years);
}

/** Reflective cracking of the treatment against the control's; no full stop. */
function reflectionClause(t: TreatmentLife, base: TreatmentLife): string {
  const [treated, untreated] = [reflection(t), reflection(base)];
  const name = quoted(t);
  if (!treated || !untreated) return `${name} lasts ${lasts(t)}, against ${lasts(base)} for ${quoted(base)}`;
  const [a, b] = [untreated.life, treated.life];
  const open = [a, b].map(life => beyondCap(life) || life.censored);
  const bound = (life: typeof a) => years(Math.min(life.years, LIFE_CAP));
  if (open[0] && open[1])
    return `Reflective cracking is not predicted within ${years(Math.min(a.years, b.years, LIFE_CAP))}, with ${name} or without`;
  if (open[1]) return `${name} delays reflective cracking from ${yearsNumber(a.years)} to more than ${bound(b)}`;
  if (open[0])
    return `${name} does not pay: reflective cracking comes after ${years(b.years)}, without it after more than ${bound(a)}`;
  const gain = t.ratioToControl[treated.scenario] ?? b.years / a.years;
  if (Math.abs(gain - 1) < NO_DIFFERENCE)
    return `${name} makes no practical difference to reflective cracking: ${yearsNumber(b.years)} against ${years(a.years)} (${ratio(gain)})`;
  if (gain < 1)
    return `${name} does not pay: reflective cracking comes after ${yearsNumber(b.years)} instead of ${years(a.years)} (${ratio(gain)})`;
  return `${name} delays reflective cracking from ${yearsNumber(a.years)} to ${years(b.years)} (${ratio(gain)})`;
}

/** What decides in the treated section. */
function governingClause(t: TreatmentLife, base: TreatmentLife): string {
  const {mechanism, life} = t.governing;
  if (isOrdinary(mechanism)) {
    const gain = governingRatio(t, base).text;
    const gained = t === base || gain === "–" ? "" : `, so the section as a whole gains ${gain}`;
    return `; but ${MECHANISM_TEXT[mechanism]}, away from the joint, governs there after ${lifeText(life).long}${gained}`;
  }
  const cause = driver(t);
  if (cause === null || beyondCap(life) || life.censored) return "";
  return cause === "both" ? "; traffic and temperature share in the damage" : `; ${cause} does most of the damage`;
}

function alone(t: TreatmentLife): string {
  const {mechanism, life} = t.governing;
  if (beyondCap(life) || life.censored) return `${quoted(t)} lasts ${lasts(t)} by every mechanism computed`;
  const cause = isOrdinary(mechanism) ? null : driver(t);
  const why = cause === null || cause === "both" ? "" : `, ${cause} doing most of the damage`;
  return `${quoted(t)} lasts ${years(life.years)}; ${MECHANISM_TEXT[mechanism]} governs${why}`;
}

function periodSentence(result: LifeResult): string {
  const period = result.study.analysisPeriod;
  const reaches = result.treatments.filter(t => t.governing.life.years >= period);
  const start = `Of the analysis period of ${years(period)}`;
  if (reaches.length === result.treatments.length)
    return `${start}, ${reaches.length === 1 ? "the section reaches" : "every treatment reaches"} the end.`;
  if (reaches.length === 0)
    return `${start}, ${result.treatments.length === 1 ? "the section does not reach" : "no treatment reaches"} the end.`;
  return `${start}, only ${list(reaches.map(quoted))} reach${reaches.length === 1 ? "es" : ""} the end.`;
}

function list(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** Which way the crack runs, where it is not the expected one. */
function surfaceSentence(result: LifeResult): string[] {
  const fromAbove = result.treatments.filter(t => reflection(t)?.failed && reflection(t)?.worstFront === "upper");
  if (fromAbove.length === 0) return [];
  return [
    `In ${list(fromAbove.map(quoted))} the crack runs the longer way from the surface down, not from the joint up.`,
  ];
}

function missingSentence(result: LifeResult): string[] {
  const scenarios = new Set(result.treatments.flatMap(t => t.histories.map(h => h.scenario)));
  const missing: string[] = [];
  if (!scenarios.has("thermal"))
    missing.push("Reflection by temperature was not computed: the study has no temperature record.");
  if (result.treatments.every(t => t.ordinary.length === 0))
    missing.push("Ordinary fatigue away from the joint was not computed: no fatigue line is given for the asphalt.");
  return missing;
}

function reflected(t: TreatmentLife): number {
  return reflection(t)?.life.years ?? 0;
}

/** The answer: the treatment with the largest gain in the headline, the others after it. */
export function answer(result: LifeResult): Answer {
  const base = control(result);
  const others = result.treatments.slice(1);
  const after = [periodSentence(result), ...surfaceSentence(result), ...missingSentence(result)];
  if (others.length === 0) return {headline: `${alone(base)}.`, details: after};
  const ranked = others.toSorted(
    (a, b) => b.governing.life.years - a.governing.life.years || reflected(b) - reflected(a),
  );
  const sentences = ranked.map(t => `${reflectionClause(t, base)}${governingClause(t, base)}.`);
  return {
    headline: sentences[0]!,
    details: [...sentences.slice(1), `Without treatment: ${alone(base)}.`, ...after],
  };
}

/** Why the governing mechanism governs, for a line below a table; no full stop. */
export function governingReason(t: TreatmentLife): string {
  const {mechanism, life} = t.governing;
  const text = lifeText(life).long;
  if (beyondCap(life) || life.censored) return `no mechanism ends it within what was computed (${text})`;
  const cause = isOrdinary(mechanism) ? null : driver(t);
  if (isOrdinary(mechanism)) {
    const seam = reflection(t);
    const than = seam ? `; reflection takes ${lifeText(seam.life).long}` : "";
    return `${MECHANISM_TEXT[mechanism]}, ${text}${than}`;
  }
  if (cause === null) return `${MECHANISM_TEXT[mechanism]}, ${text}`;
  return `${MECHANISM_TEXT[mechanism]}, ${text}; ${cause === "both" ? "both share in the damage" : `${cause} does most of the damage`}`;
}
