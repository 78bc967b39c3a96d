/** What a risk run says, in words and numbers shared by report and terminal. */

import type {Bounded} from "../engine/risk/types.ts";
import {type RiskResult, type Swing, swingSentence, swingsOf, type TreatmentRisk} from "../engine/uncertainty/index.ts";
import {LIFE_CAP, percent, ratio, yearsNumber} from "./format.ts";
import {MECHANISM_TEXT} from "./lives.ts";

/** A life that is known, or from where it is only known to be longer. */
export function lifeBoundText({low, high}: Bounded): string {
  if (low >= LIFE_CAP) return `> ${LIFE_CAP}`;
  if (low <= 0 && high > LIFE_CAP) return "not known";
  return high > low * (1 + 1e-9) && high > LIFE_CAP ? `> ${yearsNumber(low)}` : yearsNumber(low);
}

export function ratioBoundText({low, high}: Bounded): string {
  if (low === high) return ratio(low);
  if (!Number.isFinite(high)) return low > 0 ? `> ${ratio(low)}` : "not known";
  return low > 0 ? `${ratio(low)} to ${ratio(high)}` : `< ${ratio(high)}`;
}

export function lifeAt(t: TreatmentRisk, reliability: number): string {
  const found = t.reliabilities.find(r => Math.abs(r.reliability - reliability) < 1e-9);
  return found ? lifeBoundText(found.life) : "–";
}

/** The first number that is worth telling: the life at the plan's reliability, with its interval. */
export function intervalAt(t: TreatmentRisk, reliability: number): string {
  const found = t.reliabilities.find(r => Math.abs(r.reliability - reliability) < 1e-9);
  if (!found) return "–";
  const {low, high} = found.interval;
  return `${lifeBoundText({low, high: low})} to ${high > LIFE_CAP ? `> ${LIFE_CAP}` : yearsNumber(high)}`;
}

export function survivalText(t: TreatmentRisk): string {
  return t.survival ? `${percent(Math.round(1000 * t.survival.probability) / 1000)}` : "–";
}

export function mechanismText(t: TreatmentRisk): string {
  return t.mechanisms
    .filter(m => m.share >= 0.05)
    .map(m => `${MECHANISM_TEXT[m.mechanism]} ${percent(Math.round(100 * m.share) / 100)}`)
    .join(", ");
}

/** Swings of the life of each treatment, and of the ratio of the others to the control. */
export function swingsOfLife(result: RiskResult, treatment: number): Swing[] {
  return swingsOf(result.swings, lives => lives[treatment].years);
}

export function swingsOfRatio(result: RiskResult, treatment: number): Swing[] {
  return swingsOf(result.swings, lives => lives[treatment].years / lives[0].years);
}

/** Sentences that say what the answer depends on. */
export function dependence(result: RiskResult): string[] {
  const names = result.treatments.map(t => t.name);
  return names.flatMap((name, k) => [
    swingSentence(`The life of “${name}”`, swingsOfLife(result, k)),
    ...(k > 0 ? [swingSentence(`Its ratio to “${names[0]}”`, swingsOfRatio(result, k))] : []),
  ]);
}

/** One sentence for each treatment beside the control. */
export function riskHeadlines(result: RiskResult): string[] {
  const {reliability} = result.plan;
  const [control, ...others] = result.treatments;
  const at = (t: TreatmentRisk): string => `${lifeAt(t, reliability)} years`;
  const first = `At ${percent(reliability)} reliability “${control.name}” lasts ${at(control)} (median ${lifeAt(control, 0.5)}).`;
  return [
    first,
    ...others.map(t => {
      const [low, middle, high] = t.ratio!.quantiles;
      return `“${t.name}” lasts ${at(t)} (median ${lifeAt(t, 0.5)}): ${ratioBoundText(middle.ratio)} as long, with 90 % of the samples between ${ratioBoundText(low.ratio)} and ${ratioBoundText(high.ratio)}; longer in ${percent(Math.round(100 * t.ratio!.longer.low) / 100)} of them.`;
    }),
  ];
}

/** How the numbers were come by, and what they are worth. */
export function samplingText(result: RiskResult): string {
  const {samples, solutions, refused, trace, reached, plan} = result;
  const errors = trace.at(-1)?.errors.map(e => (e === null ? "unknown" : percent(Math.round(1000 * e) / 1000))) ?? [];
  const parts = [
    `${samples.length.toLocaleString("en")} samples, sections solved ${solutions === 1 ? "once" : `${solutions} times`}, seed ${plan.seed}.`,
    `Standard error of the life at ${percent(plan.reliability)}: ${errors.join(", ")}${reached ? "" : `; ${percent(plan.error)} was asked for and not reached for all`}.`,
  ];
  if (refused.count > 0)
    parts.push(`${refused.count} samples were no possible study (${refused.first}) and are left out.`);
  return parts.join(" ");
}
