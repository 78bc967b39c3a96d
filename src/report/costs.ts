/** What each treatment costs over the period: table, break-even price, course over time, carbon. */

import {type BreakEven, type CostItem, type CostResult, studyCosts, type TreatmentCosts} from "../engine/cost/index.ts";
import type {LifeResult} from "../engine/life/types.ts";
import {PRICES} from "./cautions.ts";
import {costsChart} from "./charts/index.ts";
import {FITTED, type FigureFrame, legend} from "./figureFrame.ts";
import {figures, money, percent, years, yearsNumber} from "./format.ts";
import {type Html, html} from "./html.ts";

/** Nothing where the study has no prices. */
export function costsPart(result: LifeResult, frame: FigureFrame): Html | null {
  const told = studyCosts(result);
  if (told === null) return null;
  return html`<section><h2>What it costs</h2>${costTable(told)}${breakEvenText(told)}${costFigure(told, frame)}${itemTable(told)}${carbonTable(told)}
<div class="caution" role="note"><p><b>Prices: ${told.costs.priceDate.replace(/\.?$/, ".")}</b> ${PRICES}</p>${told.warnings.map(w => html`<p>${w}</p>`)}</div></section>`;
}

/** One treatment in a sentence, for a terminal. Null without prices. */
export function costLine(told: CostResult | null, k: number): string | null {
  if (told === null) return null;
  const {currency, period} = told.costs;
  const {first, renewals, presentWorth, annual, breakEven, capped, life} = told.treatments[k];
  const often = renewals === 0 ? "no renewal" : renewals === 1 ? "one renewal" : `${renewals} renewals`;
  const counted = capped ? ` (life counted as ${years(life)})` : "";
  const level = breakEven === null ? "" : `; ${breakEven.subject} ${worthText(breakEven, currency)}`;
  return `Costs: ${money(first.total)} ${currency}/m² at first, ${often} in ${years(period)}${counted}; present worth ${money(presentWorth)}, ${money(annual)} a year${level}.`;
}

/** By volume where it has one. */
function worthText({perVolume, perArea}: BreakEven, currency: string): string {
  if (perArea <= 0) return "not worth having even as a gift";
  return `worth up to ${perVolume === null ? `${money(perArea)} ${currency}/m²` : `${figures(perVolume)} ${currency}/m³`}`;
}

function costTable({costs, treatments}: CostResult): Html {
  const {currency, period, discountRate, longestLife} = costs;
  const cheapest = Math.min(...treatments.map(t => t.presentWorth));
  const capped = treatments.some(t => t.capped);
  return html`
  <div class="scroll keep"><table>
    <caption>Costs of a square metre over ${years(period)}, in ${currency}, discounted at ${percent(discountRate)} a year.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">First<br>construction</th><th scope="col" class="n">Life<br><small>years</small></th>
      <th scope="col" class="n">Renewals<br><small>in the period</small></th><th scope="col" class="n">Each<br>renewal</th>
      <th scope="col" class="n">Present<br>worth</th><th scope="col" class="n">Annual<br>cost</th></tr></thead>
    <tbody>${treatments.map(
      t => html`
      <tr${html.unsafe(t.presentWorth === cheapest ? ' class="governs"' : "")}><th scope="row">${t.name}${t.presentWorth === cheapest && treatments.length > 1 && html` <span class="mark">◂ cheapest</span>`}</th>
        <td class="n">${money(t.first.total)}</td><td class="n">${lifeOf(t)}</td><td class="n">${figures(t.renewals)}</td>
        <td class="n">${money(t.renewal.total)}</td><td class="n">${money(t.presentWorth)}</td><td class="n">${money(t.annual)}</td></tr>`,
    )}</tbody>
  </table></div>
  <p class="notes">${capped && html`<sup>a</sup> The computed life is longer; other causes are taken to end it by then. `}A renewal comes at the end of each life within the period. What is left of the last one at the end counts
  by straight line, and is taken off. The annual cost is the present worth spread evenly over the period.${Number.isFinite(longestLife) && html` No life counts as more than ${years(longestLife)}.`}</p>`;
}

function lifeOf({life, capped}: TreatmentCosts): Html {
  return html`${yearsNumber(life)}${capped && html`<sup>a</sup>`}`;
}

/** Up to what price an interlayer or a reinforcement is worth having. */
function breakEvenText({costs, treatments}: CostResult): Html {
  const {currency} = costs;
  return html`${treatments.map(({name, breakEven, presentWorth}) => {
    if (breakEven === null) return null;
    const {subject, perArea, perVolume, paid} = breakEven;
    const difference = treatments[0].presentWorth - presentWorth;
    const verdict =
      difference >= 0
        ? `saves ${money(difference)} ${currency}/m² against the control`
        : `costs ${money(-difference)} ${currency}/m² more than the control`;
    if (perArea <= 0)
      return html`<p><b>${name}</b> ${verdict}, and would be dearer even if the ${subject} were free.</p>`;
    const volume = perVolume === null ? "" : ` (${figures(perVolume)} ${currency}/m³)`;
    return html`<p><b>${name}</b> ${verdict}. Its ${subject} costs ${money(paid)} ${currency}/m², material without laying; up to <b>${money(perArea)} ${currency}/m²</b>${volume} it is worth having.</p>`;
  })}`;
}

function costFigure(told: CostResult, {figure, canvas}: FigureFrame): Html | null {
  if (told.treatments.every(t => t.flows.length === 0)) return null;
  const body = html`${legend(told.treatments.map(t => t.name))}<div class="fit">${costsChart(told, canvas(FITTED))}</div>`;
  return figure(
    body,
    "Present cost added up over the years: each step is a construction or a renewal, the smaller the later it comes. The fall at the end is what is left of the last one.",
  );
}

/** In the order in which things are done. */
const ITEM_TEXT: Readonly<Record<CostItem["what"], string>> = {
  planing: "planing",
  cracking: "cracking and seating",
  material: "material",
  reinforcement: "reinforcement",
  laying: "laying",
  fixed: "other work on the road",
  "traffic management": "traffic management",
};

/** What an operation consists of, first construction beside renewal. */
function itemTable({costs, treatments}: CostResult): Html {
  const key = ({what, name}: CostItem) => `${ITEM_TEXT[what]}${name && `, ${name}`}`;
  const rows = ({first, renewal}: TreatmentCosts) => {
    const place = ({what}: CostItem) => Object.keys(ITEM_TEXT).indexOf(what);
    const all = [...first.items, ...renewal.items].toSorted((a, b) => place(a) - place(b));
    const names = [...new Set(all.map(key))];
    const sum = (items: readonly CostItem[], name: string): string => {
      const own = items.filter(item => key(item) === name);
      return own.length === 0 ? "–" : money(own.reduce((total, {amount}) => total + amount, 0));
    };
    return html`${names.map(
      name => html`
      <tr><th scope="row">${name}</th><td class="n">${sum(first.items, name)}</td><td class="n">${sum(renewal.items, name)}</td></tr>`,
    )}
      <tr><th scope="row"><b>together</b></th><td class="n"><b>${money(first.total)}</b></td><td class="n"><b>${money(renewal.total)}</b></td></tr>`;
  };
  return html`
  <div class="scroll"><table>
    <caption>What a square metre consists of, in ${costs.currency}.</caption>
    <thead><tr><th scope="col">Item</th><th scope="col" class="n">First construction</th><th scope="col" class="n">Each renewal</th></tr></thead>
    <tbody>${treatments.map(t => html`<tr class="group"><th colspan="3" scope="rowgroup">${t.name}</th></tr>${rows(t)}`)}</tbody>
  </table></div>`;
}

function carbonTable({costs, treatments}: CostResult): Html | null {
  if (costs.carbon === null) return null;
  const cell = (value: number | undefined) => html`<td class="n">${value === undefined ? "–" : figures(value)}</td>`;
  return html`
  <h3>Embodied carbon</h3>
  <div class="scroll keep"><table>
    <caption>By the factors of the study, in kg of CO₂ equivalent a square metre, undiscounted; what is left of the last renewal is taken off.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">First<br>construction</th><th scope="col" class="n">Each<br>renewal</th>
      <th scope="col" class="n">Over<br>${years(costs.period)}</th><th scope="col" class="n">A year</th></tr></thead>
    <tbody>${treatments.map(
      ({name, carbon}) => html`
      <tr><th scope="row">${name}</th>${cell(carbon?.first)}${cell(carbon?.renewal)}${cell(carbon?.total)}${cell(carbon?.annual)}</tr>`,
    )}</tbody>
  </table></div>`;
}
