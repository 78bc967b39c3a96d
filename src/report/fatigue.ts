/** The words and numbers of bending tests, for page and terminal alike. */

import type {FatigueResult, LifeComparison, MaterialFatigue} from "../engine/laboratory/index.ts";
import {figures, intervalText, microstrain, percent, ratio} from "./format.ts";

/** The result in a sentence, and what qualifies it. */
export function fatigueAnswer({materials, comparisons, probability}: FatigueResult): {
  headline: string;
  details: string[];
} {
  const lines = materials.flatMap(m => {
    const line = m.likelihood ?? m.standard;
    return line?.strainAtMillion ? [`${m.material} ${microstrain(line.strainAtMillion)}`] : [];
  });
  const headline = lines.length
    ? `Strain for a million cycles, ε₆: ${lines.join(", ")}.`
    : "No fatigue line could be drawn; see the findings.";
  const details = comparisons.map(c => {
    if (!c.common) return `${c.material} and ${c.reference} were never tested at equal strain.`;
    const {strain, ratio, interval} = comparedAt(c, Math.sqrt(c.common.low * c.common.high));
    return `At ${strain} ${c.material} bears ${ratio} the cycles of ${c.reference} (${percent(probability)}: ${interval}).`;
  });
  return {headline, details};
}

/** Lives compared at the strain nearest to the one asked for. */
export function comparedAt({strains, ratio: values, low, high}: LifeComparison, wanted: number) {
  const k = strains.reduce((best, v, i) => (Math.abs(v - wanted) < Math.abs(strains[best] - wanted) ? i : best), 0);
  return {
    strain: microstrain(strains[k]),
    ratio: ratio(values[k]),
    interval: `${ratio(low[k])} to ${ratio(high[k])}`,
  };
}

/** The line of one material; "–" where there is none. */
export function lineTexts({likelihood, standard, line, points}: MaterialFatigue, probability: number) {
  const law = likelihood ?? standard;
  const own = likelihood?.intervals.find(i => i.probability === probability);
  const used = points.filter(p => p.setAside === null);
  const range = own?.strainAtMillion;
  return {
    strain: strainText(law?.strainAtMillion), // µε
    strainInterval: range ? intervalText({low: range.low * 1e6, high: range.high * 1e6}) : "–",
    k: law ? figures(law.k) : "–",
    kInterval: own ? intervalText(own.k) : "–",
    scatter: line ? figures(line.sigma, 2) : "–",
    specimens: used.length,
    runOuts: used.filter(p => p.runOut).length,
  };
}

/** In µε. */
export function strainText(strain: number | null | undefined): string {
  return strain ? figures(strain * 1e6) : "–";
}

export function findingTexts({materials, comparisons}: FatigueResult): string[] {
  return [
    ...materials.flatMap(m => m.findings.map(f => `${m.material}: ${f.text}`)),
    ...comparisons.flatMap(c => c.findings.map(f => f.text)),
  ];
}
