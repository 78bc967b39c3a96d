/** What a reader must know before using the numbers. The same words in the report and in the terminal. */

import type {LifeResult} from "../engine/life/types.ts";
import {figures, megapascalsPerMillimetre} from "./format.ts";
import {type Html, html} from "./html.ts";

const JUDGEMENT =
  "These results support, and never replace, the judgement of a qualified pavement engineer, local specifications and site investigation.";
const RELATIVE = "The gain of one treatment over another is more reliable than either life.";

/** Of every cost. */
export const PRICES =
  "Prices come from the study and were not checked; costs follow from them, from the single computed lives and from the discount rate.";

/** One line, for a terminal. */
export const CAUTION_LINE = `${RELATIVE} ${JUDGEMENT}`;

/** Materials whose stiffness nobody measured; null when there is none. */
function estimatedText({treatments}: LifeResult): string | null {
  const materials = treatments.flatMap(t => t.treatment.section.layers.map(l => l.material));
  const names = [...new Set(materials.filter(m => m.masterCurve?.origin === "estimate").map(m => m.name))];
  if (names.length === 0) return null;
  return `The stiffness of ${names.join(" and ")} was estimated from the mix and not measured: it may be off by a factor of two, and with it every life.`;
}

/** Beside the result table. */
export function cautionBox(result: LifeResult): Html {
  const estimated = estimatedText(result);
  return html`<div class="caution" role="note"><p><b>Before you use these numbers.</b> ${estimated && html`<b>${estimated}</b> `}${RELATIVE} A life of more than 100 years means “not by this
  mechanism”, not a promise. How much shear counts, and how far rough crack faces lock, is unsettled and can change the gain (see “Limits of this result”). ${JUDGEMENT}</p></div>`;
}

/** Beside results of samples. */
export function riskCautionBox(): Html {
  return html`<div class="caution" role="note"><p><b>Before you use these numbers.</b> They are no surer than the spreads that were given: what is not among the inputs is taken as known. ${RELATIVE} A life of more than 100
  years means “not by this mechanism”, not a promise. ${JUDGEMENT}</p></div>`;
}

/** The full list, at the end of the report. */
export function limitsPart(result: LifeResult): Html {
  const {crackInterlock, shearWeight} = result.treatments[0]!.treatment.section;
  return html`<ul>
  <li><b>Relative before absolute.</b> ${RELATIVE} Both treatments share the same foundation, traffic and growth laws, so most of the error is common to them.</li>
  <li><b>Centuries mean “not by this mechanism”.</b> A computed life far beyond 100 years only says that something else will end the pavement’s life first.</li>
  <li><b>Shear and interlock are an open question.</b> Under wheels the crack is driven mostly by shear. Rough crack faces pass shear, which slows the crack; the weight of shear in the
  growth law is not settled either. Here the weight is ${figures(shearWeight)} and the interlock ${crackInterlock === 0 ? "none" : megapascalsPerMillimetre(crackInterlock)}. On a stiff slab the gain of an interlayer under traffic depends on
  both: run the study with other values before relying on it.</li>
  <li><b>The relaxed modulus of the interlayer decides the thermal gain.</b> It must be measured at the loading time of a daily cycle, hours, and not at that of a wheel.</li>
  ${result.study.costs && html`<li><b>Costs are as good as the prices.</b> ${PRICES} Every renewal is taken to last as long as the one before, although traffic has grown by then.</li>`}
  <li><b>Not in the model:</b> ageing, moisture, healing, loss of bond in service, voids under slabs, construction defects.</li>
  <li><b>Judgement.</b> ${JUDGEMENT}</li>
  </ul>`;
}
