/** From a life result to what a survey keeps of it. */
import {studyCosts} from "../cost/index.ts";
import type {LifeResult, Scenario, TreatmentLife} from "../life/types.ts";
import {thicknessOf} from "../section/index.ts";
import type {PointLife, PointLives, TreatmentPoint} from "./types.ts";

/** Names under which reflection is kept; ordinary mechanisms are kept as "mechanism, layer". */
export const REFLECTION: Readonly<Record<Scenario, string>> = {
  traffic: "reflection by traffic",
  thermal: "reflection by temperature",
  together: "reflection, both together",
};

export function recordLives(result: LifeResult): PointLives {
  const costs = studyCosts(result);
  return {
    treatments: result.treatments.map((t, k) => recordTreatment(t, costs?.treatments[k].presentWorth ?? null)),
    warnings: [...new Set(result.treatments.flatMap(t => t.warnings))],
  };
}

function recordTreatment({treatment, histories, ordinary}: TreatmentLife, presentWorth: number | null): TreatmentPoint {
  const lives: Record<string, PointLife> = {};
  for (const {scenario, life} of histories) lives[REFLECTION[scenario]] = kept(life);
  for (const {mechanism, layer, life} of ordinary) {
    const name = `${mechanism}, ${layer}`;
    // Layers may share a name; the shorter life counts.
    if (!(lives[name]?.years <= life.years)) lives[name] = kept(life);
  }
  return {name: treatment.name, overlay: thicknessOf(treatment.section.layers, "overlay"), lives, presentWorth};
}

function kept({years, censored}: PointLife): PointLife {
  return {years, censored};
}

export interface Governing extends PointLife {
  readonly mechanism: string; // as kept
}

/** The shortest of all lives. */
export function governingOf({lives}: Pick<TreatmentPoint, "lives">): Governing {
  const all = Object.entries(lives).map(([mechanism, life]) => ({mechanism, ...life}));
  return all.reduce((best, life) => (life.years < best.years ? life : best));
}
