/** What a risk run says, in words and numbers shared by report and terminal. */

import type {Bounded} from "../engine/risk/types.ts";
import {
  LONGEST_COUNTED,
  type RiskResult,
  riskCosts,
  type Swing,
  swingSentence,
  swingsOf,
  type TreatmentRisk,
} from "../engine/uncertainty/index.ts";
import {figures, LIFE_CAP, money, percent, ratio, years, yearsNumber} from "./format.ts";
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

function counted({years: life}: {readonly years: number}): number {
  return Math.min(life, LONGEST_COUNTED);
}

/** Swings of the life of each treatment, and of the ratio of the others to the control. */
export function swingsOfLife(result: RiskResult, treatment: number): Swing[] {
  return swingsOf(result.swings, lives => counted(lives[treatment]));
}

export function swingsOfRatio(result: RiskResult, treatment: number): Swing[] {
  return swingsOf(result.swings, lives => counted(lives[treatment]) / counted(lives[0]));
}

/** Sentences that say what the answer depends on. */
export function dependence(result: RiskResult): string[] {
  if (!result.finished)
    return ["This is a first picture: not all samples are computed, and what the answer depends on comes last."];
  const names = result.treatments.map(t => t.name);
  const ends = result.swings.flatMap(({low, high}) => [...low, ...high]);
  const cut = ends.some(life => life.years > LONGEST_COUNTED);
  return [
    ...names.flatMap((name, k) => [
      swingSentence(`The life of “${name}”`, swingsOfLife(result, k)),
      ...(k > 0 ? [swingSentence(`Its ratio to “${names[0]}”`, swingsOfRatio(result, k))] : []),
    ]),
    ...(cut ? [`Lives of more than ${years(LONGEST_COUNTED)} count as so long in these shares.`] : []),
  ];
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

/** Where the study's own values, without any spread, lie among the samples; they need not be the middle. */
export function estimateText(result: RiskResult): string {
  const parts = result.treatments.map(({name}, k) => {
    const {years: life} = result.base[k];
    const told = Math.min(life, LIFE_CAP);
    const longer =
      result.samples.filter(({lives: {[k]: sample}}) => sample.years > told).length / result.samples.length;
    const text = life > LIFE_CAP ? `more than ${years(LIFE_CAP)}` : years(life);
    return `${text} for “${name}” (${percent(Math.round(100 * longer) / 100)})`;
  });
  return `With the study’s values as they are, lives are ${parts.join(", ")}; in brackets, the share of the samples that outlives them.`;
}

/** Which treatment is cheapest over the samples, and why. Null without prices. */
export function cheapestText(result: RiskResult): string | null {
  const found = riskCosts(result);
  if (!found || found.treatments.length < 2) return null;
  const {costs, treatments, cheapest} = found;
  const worth = (k: number): number => treatments[k].sampled.summary.presentWorth.mean;
  const {name, cheaper} = treatments[cheapest];
  const second = [...treatments.keys()].filter(k => k !== cheapest).sort((a, b) => worth(a) - worth(b))[0];
  const saved = `${money(worth(cheapest))} against ${money(worth(second))} ${costs.currency}/m² of “${treatments[second].name}” over ${years(costs.period)}, in the mean`;
  const surely =
    cheapest === 0
      ? ""
      : `; it is cheaper than the control in ${percent(Math.round(100 * cheaper!.cheaper) / 100)} of the samples`;
  const renewals = (k: number): string => {
    const often = figures(meanOf(treatments[k].sampled.renewals), 2);
    return often === "1" ? "once" : `${often} times`;
  };
  return `Cheapest is “${name}”: ${saved}${surely}. It is renewed ${renewals(cheapest)} in the period, the other ${renewals(second)}.`;
}

const meanOf = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** How the numbers were come by, and what they are worth. */
export function samplingText(result: RiskResult): string {
  const {samples, solutions, refused, trace, reached, plan} = result;
  const errors = trace.at(-1)?.errors.map(e => (e === null ? "unknown" : percent(Math.round(1000 * e) / 1000))) ?? [];
  const asked = percent(plan.error);
  const isSmall = trace.at(-1)?.errors.every(e => e !== null && e <= plan.error);
  const missed = isSmall
    ? `; ${asked} was asked for: too few samples to be sure of it`
    : `; ${asked} was asked for and not reached for all`;
  const parts = [
    `${samples.length.toLocaleString("en")} samples, sections solved ${solutions === 1 ? "once" : `${solutions} times`}, seed ${plan.seed}.`,
    `Standard error of the life at ${percent(plan.reliability)}: ${errors.join(", ")}${reached ? "" : missed}.`,
  ];
  if (refused.count > 0)
    parts.push(
      `${refused.count.toLocaleString("en")} of ${(refused.count + samples.length).toLocaleString("en")} samples were no possible study (${refused.first}) and are left out.`,
    );
  return parts.join(" ");
}
