/** A life result read as rows: one for each mechanism of each treatment. Shared by tables, bars and the answer. */

import type {
  CrackHistory,
  Life,
  LifeResult,
  Mechanism,
  OrdinaryMechanism,
  Scenario,
  TreatmentLife,
} from "../engine/life/types.ts";
import {beyondCap, LIFE_CAP, ratio} from "./format.ts";

export const SCENARIO_MECHANISM: Readonly<Record<Scenario, Mechanism>> = {
  traffic: "reflection by traffic",
  thermal: "reflection by temperature",
  together: "reflection, both together",
};

/** Mechanisms as a sentence names them. */
export const MECHANISM_TEXT: Readonly<Record<Mechanism, string>> = {
  "reflection by traffic": "reflective cracking by traffic",
  "reflection by temperature": "reflective cracking by temperature",
  "reflection, both together": "reflective cracking by traffic and temperature together",
  "underside fatigue": "ordinary fatigue at the underside of the asphalt",
  "near-surface fatigue": "ordinary near-surface fatigue beside the wheel",
};

const ORDER: readonly Scenario[] = ["traffic", "thermal", "together"];

export interface MechanismRow {
  readonly mechanism: Mechanism;
  readonly where: string; // layer of an ordinary mechanism; empty for reflection
  readonly life: Life;
  readonly governs: boolean;
  readonly ratio: RatioText;
}

export interface RatioText {
  readonly text: string; // "×2.8", "> ×8", "–"
  readonly note: string | null;
}

/** The ratio as it may honestly be told: a bound when the treated life is beyond what is shown, nothing when the control's is. */
function ratioText(life: Life, control: Life | undefined, computed: number | undefined): RatioText {
  if (control === undefined || beyondCap(control) || control.censored) return {text: "–", note: null};
  const shown = beyondCap(life) ? LIFE_CAP : life.years;
  if (beyondCap(life) || life.censored) {
    const note = computed === undefined ? null : `computed ratio ${ratio(computed)}`;
    return {text: `> ${ratio(shown / control.years)}`, note};
  }
  return {text: ratio(computed ?? life.years / control.years), note: null};
}

export function isOrdinary(mechanism: Mechanism): mechanism is OrdinaryMechanism {
  return mechanism === "underside fatigue" || mechanism === "near-surface fatigue";
}

/** Rows of one treatment in a fixed order: traffic, temperature, together, then the ordinary mechanisms. */
export function mechanismRows(t: TreatmentLife, control: TreatmentLife): MechanismRow[] {
  const same = t === control;
  const ends = !beyondCap(t.governing.life) && !t.governing.life.censored; // otherwise nothing computed ends its life
  const none: RatioText = {text: "×1", note: null};
  const reflection = ORDER.flatMap(scenario =>
    t.histories
      .filter(h => h.scenario === scenario)
      .map(h => {
        const mechanism = SCENARIO_MECHANISM[scenario];
        const other = control.histories.find(c => c.scenario === scenario)?.life;
        const told = same ? none : ratioText(h.life, other, t.ratioToControl[scenario] ?? undefined);
        return {mechanism, where: "", life: h.life, governs: ends && mechanism === t.governing.mechanism, ratio: told};
      }),
  );
  const ordinary = t.ordinary.map(o => {
    const other = control.ordinary.find(c => c.mechanism === o.mechanism && c.layer === o.layer)?.life;
    const governs = ends && o.mechanism === t.governing.mechanism && o.life.years === t.governing.life.years;
    const told = same ? none : ratioText(o.life, other, undefined);
    return {mechanism: o.mechanism, where: o.layer, life: o.life, governs, ratio: told};
  });
  return [...reflection, ...ordinary];
}

/** A mechanism with the layer it acts in, where that is said. */
export function rowName(r: {readonly mechanism: string; readonly where: string}): string {
  return r.where ? `${r.mechanism}, ${r.where}` : r.mechanism;
}

/** Governing life over the control's. */
export function governingRatio(t: TreatmentLife, control: TreatmentLife): RatioText {
  return ratioText(t.governing.life, control.governing.life, t.ratioToControl.governing ?? undefined);
}

/** Reflection as the pavement sees it: both causes together where both were computed, else the only one. */
export function reflection(t: TreatmentLife): CrackHistory | undefined {
  return (["together", "traffic", "thermal"] as const)
    .map(s => t.histories.find(h => h.scenario === s))
    .find(h => h !== undefined);
}

/** What drives reflection: the cause whose own life is less than half of the other's; null when that is not known. */
export function driver(t: TreatmentLife): "traffic" | "temperature" | "both" | null {
  const traffic = t.histories.find(h => h.scenario === "traffic")?.life;
  const thermal = t.histories.find(h => h.scenario === "thermal")?.life;
  if (traffic === undefined || thermal === undefined) return null;
  if (!traffic.censored && traffic.years < thermal.years / 2) return "traffic";
  if (!thermal.censored && thermal.years < traffic.years / 2) return "temperature";
  return traffic.censored || thermal.censored ? null : "both";
}

/** The control is the first treatment. */
export function control(result: LifeResult): TreatmentLife {
  return result.treatments[0]!;
}

/** Growth exponent of the layer in which the thermal cycles were counted. */
export function frontExponent(t: TreatmentLife): number {
  const {layers} = t.treatment.section;
  const front = t.thermalCycles?.front;
  const layer =
    front === "interlayer"
      ? layers.find(l => l.role === "interlayer")
      : front === "surface"
        ? layers[0]
        : layers.findLast(l => l.role === "overlay");
  return layer?.material.growth?.exponent ?? 1;
}
