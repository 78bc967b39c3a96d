/** The report of a risk run. */

import {USUAL_PROBABILITY} from "../engine/cost/index.ts";
import type {Distribution} from "../engine/risk/types.ts";
import {type RiskCost, type RiskResult, riskCosts, type UncertainInput} from "../engine/uncertainty/index.ts";
import {riskCautionBox} from "./cautions.ts";
import {fanChart, ratioNumber, survivalChart, swingChart, yearsText} from "./charts/index.ts";
import {FITTED, type FigureFrame, figureFrame, HALF, legend} from "./figureFrame.ts";
import {count, figures, money, percent, years} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";
import {
  cheapestText,
  dependence,
  estimateText,
  intervalAt,
  lifeAt,
  mechanismText,
  ratioBoundText,
  riskHeadlines,
  samplingText,
  survivalText,
  swingsOfLife,
  swingsOfRatio,
} from "./risk.ts";

/** The whole report as text of an HTML document. */
export function riskReport(result: RiskResult, context: ReportContext): string {
  const frame = figureFrame(context.document);
  const [headline, ...details] = riskHeadlines(result);
  return page({
    name: result.study.name,
    title: `${result.study.name}: how sure the lives are`,
    kicker: "How sure the lives of an overlay are, and what they depend on",
    context,
    answer: {
      headline,
      details: [...details, estimateText(result), cheapestText(result), ...dependence(result)].filter(t => t !== null),
    },
    parts: [
      html`<section>${lifeTable(result)}${riskCautionBox()}</section>`,
      html`<section><h2>How long each lasts</h2>${survivalFigure(result, frame)}${fanFigure(result, frame)}</section>`,
      result.finished
        ? html`<section><h2>What the answer depends on</h2>${swingFigures(result, frame)}${indexTable(result)}${structuralText(result)}</section>`
        : null,
      costPart(result),
      html`<section class="inputs"><h2>What is uncertain</h2>${inputTable(result.plan.inputs)}</section>`,
      html`<section><h2>Sampling</h2><p>${samplingText(result)}</p>${traceTable(result)}</section>`,
      listPart("Warnings", context.warnings),
      sourcesPart(context),
    ],
  });
}

function lifeTable(result: RiskResult): Html {
  const {reliability} = result.plan;
  const shown = [...new Set([0.5, 0.85, 0.95, reliability])].sort((a, b) => a - b);
  return html`
  <div class="scroll"><table class="result">
    <caption>Lives in years at so much reliability: that part of the samples lasts longer. Ratio: life over that of ${result.treatments[0].name} on the same samples, median and the middle 90 %.</caption>
    <thead><tr><th scope="col">Treatment</th>${shown.map(r => html`<th scope="col" class="n">${percent(r)}</th>`)}
      <th scope="col" class="n">lasts<br>${figures(result.study.analysisPeriod)} years</th><th scope="col" class="n">Ratio</th><th scope="col">Ends by</th></tr></thead>
    <tbody>${result.treatments.map(
      t => html`
      <tr><th scope="row">${t.name}<br><small>90 % interval at ${percent(reliability)}: ${intervalAt(t, reliability)}</small></th>${shown.map(r => html`<td class="n">${lifeAt(t, r)}</td>`)}
        <td class="n">${survivalText(t)}</td><td class="n">${t.ratio ? html`${ratioBoundText(t.ratio.quantiles[1].ratio)}<br><small>${ratioBoundText(t.ratio.quantiles[0].ratio)} to ${ratioBoundText(t.ratio.quantiles[2].ratio)}</small>` : "×1"}</td>
        <td>${mechanismText(t)}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function survivalFigure({samples, treatments, study}: RiskResult, {figure, canvas}: FigureFrame): Html {
  const lives = treatments.map(({name}, k) => ({
    name,
    years: samples.map(s => (s.lives[k].censored ? Infinity : s.lives[k].years)),
  }));
  return figure(
    html`${legend(treatments.map(t => t.name))}<div class="fit">${survivalChart(lives, study.analysisPeriod, canvas(FITTED))}</div>`,
    "Part of the samples that still last, against years. The life at 85 % reliability is where a line crosses 85 %.",
  );
}

function fanFigure({treatments}: RiskResult, {figure, panel, panels, canvas}: FigureFrame): Html {
  return figure(
    panels(treatments.map(t => panel(t.name, fanChart(t, canvas(HALF))))),
    "Cracked depth over the analysis period: median, and between the 10 and the 90 % quantile of the samples.",
  );
}

function swingFigures(result: RiskResult, {figure, canvas}: FigureFrame): Html {
  const {treatments, base} = result;
  return html`${treatments.map(({name}, k) => {
    const life = swingChart(
      swingsOfLife(result, k),
      {base: base[k].years, label: "Life, years", write: yearsText},
      canvas(FITTED),
    );
    const share =
      k > 0
        ? swingChart(
            swingsOfRatio(result, k),
            {base: base[k].years / base[0].years, label: "Ratio to the control", write: ratioNumber},
            canvas(FITTED),
          )
        : null;
    return html`${figure(html`<h4>${name}</h4><div class="fit">${life}</div>`, `Life of “${name}” with one input at its 10 % and at its 90 % quantile, all others as in the study.`)}${share && figure(html`<div class="fit">${share}</div>`, `The same of its ratio to “${treatments[0].name}”: what both share moves it little.`)}`;
  })}`;
}

/** Parts of the variance, of inputs alone and with all that they do together. */
function indexTable({indices, treatments}: RiskResult): Html | null {
  if (!indices) return null;
  const columns = [
    ...treatments.map(({name}, k) => ({name, found: indices.lives[k]})),
    ...treatments.slice(1).map(({name}, k) => ({name: `${name}, ratio`, found: indices.ratios[k]})),
  ].filter(c => c.found !== null);
  if (columns.length === 0) return null;
  const share = (value: number): string => percent(Math.round(100 * Math.max(0, value)) / 100);
  return html`
  <div class="scroll keep"><table>
    <caption>Sobol indices of ln life and of ln of the ratio, of inputs that need no section solved anew, in the section of the study: part of the variance by the input alone, and with all in which it takes part.</caption>
    <thead><tr><th scope="col" rowspan="2">Input</th>${columns.map(c => html`<th scope="colgroup" class="n" colspan="2">${c.name}</th>`)}</tr>
      <tr>${columns.map(() => html`<th scope="col" class="n">alone</th><th scope="col" class="n">in all</th>`)}</tr></thead>
    <tbody>${indices.names.map(
      (name, i) => html`
      <tr><th scope="row">${name}</th>${columns.map(({found}) => {
        const {first, total} = found!.groups[i];
        return html`<td class="n">${share(first)}</td><td class="n">${share(total)}</td>`;
      })}</tr>`,
    )}</tbody>
  </table></div>`;
}

function structuralText({structural, treatments}: RiskResult): Html | null {
  const known = treatments.flatMap(({name}, k) =>
    structural[k] === null ? [] : [`${name} ${percent(Math.round(100 * structural[k]!) / 100)}`],
  );
  if (known.length === 0) return null;
  return html`<p>Part of the variance of ln life that comes from the section itself, thicknesses, moduli, joint and the choices of the model, and not from laws, traffic and temperature: ${known.join(", ")}.</p>`;
}

function costPart(result: RiskResult): Html | null {
  const found = riskCosts(result);
  if (!found) return null;
  const {costs, treatments, cheapest} = found;
  const {currency, period, discountRate} = costs;
  const at = ({sampled}: RiskCost, p: number): string =>
    money(sampled.summary.presentWorth.quantiles.find(q => q.probability === p)!.value);
  return html`<section><h2>What it costs</h2>
  <div class="scroll keep"><table>
    <caption>Present worth of a square metre over ${years(period)}, in ${currency}, discounted at ${percent(discountRate)} a year, over all samples; and the price of what is added at which it pays.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">Mean</th><th scope="col" class="n">Middle 90 %</th><th scope="col" class="n">Annual<br>cost, mean</th>
      <th scope="col" class="n">Cheaper than<br>the control</th><th scope="col" class="n">Pays up to<br><small>in the mean</small></th><th scope="col" class="n">Pays up to<br><small>surely enough</small></th></tr></thead>
    <tbody>${treatments.map(
      (t, k) => html`
      <tr${html.unsafe(k === cheapest ? ' class="governs"' : "")}><th scope="row">${t.name}${k === cheapest && html` <span class="mark">◂ cheapest</span>`}</th>
        <td class="n">${money(t.sampled.summary.presentWorth.mean)}</td><td class="n">${at(t, 0.05)} to ${at(t, 0.95)}</td>
        <td class="n">${money(t.sampled.summary.annual.mean)}</td><td class="n">${t.cheaper ? percent(Math.round(100 * t.cheaper.cheaper) / 100) : "–"}</td>
        <td class="n">${worthText(t, "perVolume", "perArea", currency)}</td><td class="n">${worthText(t, "perVolumeSure", "perAreaSure", currency)}</td></tr>`,
    )}</tbody>
  </table></div>
  <p class="notes">Surely enough: with ${percent(USUAL_PROBABILITY)} probability not dearer than the control. Prices come from the study and were not checked, and are taken as known.</p></section>`;
}

function worthText(
  {breakEven}: RiskCost,
  volume: "perVolume" | "perVolumeSure",
  area: "perArea" | "perAreaSure",
  currency: string,
): string {
  if (!breakEven) return "–";
  const perVolume = breakEven[volume];
  if (breakEven[area] <= 0) return "not even as a gift";
  return perVolume === null ? `${money(breakEven[area])} ${currency}/m²` : `${figures(perVolume)} ${currency}/m³`;
}

/** How the error of the life falls as samples come. */
function traceTable({trace, treatments, plan}: RiskResult): Html {
  return html`
  <div class="scroll keep"><table>
    <caption>Standard error of the life at ${percent(plan.reliability)} reliability as samples came; “–”: too few, or the life is beyond what was computed.</caption>
    <thead><tr><th scope="col" class="n">Samples</th>${treatments.map(t => html`<th scope="col" class="n">${t.name}</th>`)}</tr></thead>
    <tbody>${trace.map(
      ({samples, errors}) => html`
      <tr><td class="n">${count(samples)}</td>${errors.map(e => html`<td class="n">${e === null ? "–" : percent(Math.round(1000 * e) / 1000)}</td>`)}</tr>`,
    )}</tbody>
  </table></div>`;
}

function inputTable(inputs: readonly UncertainInput[]): Html {
  return html`
  <div class="scroll"><table>
    <caption>Uncertain inputs; values in the unit of the study, factors as plain numbers.</caption>
    <thead><tr><th scope="col">Input</th><th scope="col">Spread</th></tr></thead>
    <tbody>${inputs.map(input => html`<tr><th scope="row">${input.name}</th><td>${spreadText(input)}</td></tr>`)}</tbody>
  </table></div>`;
}

function spreadText(input: UncertainInput): string {
  if ("joint" in input) {
    const deviations = input.joint.covariance.map((row, i) => Math.sqrt(row[i]));
    const [a, n] = deviations;
    if (deviations.length === 1) return `ln A normal, deviation ${figures(a)}`;
    const correlation = input.joint.covariance[0][1] / (a * n);
    return `ln A and n normal together, deviations ${figures(a)} and ${figures(n)}, correlation ${figures(correlation)}`;
  }
  return distributionText(input.distribution);
}

function distributionText(d: Distribution): string {
  const cut = d.truncated ? `, between ${figures(d.truncated.low)} and ${figures(d.truncated.high)}` : "";
  switch (d.kind) {
    case "constant":
      return figures(d.value);
    case "normal":
      return `normal, mean ${figures(d.mean)}, deviation ${figures(d.deviation)}${cut}`;
    case "lognormal":
      return `log-normal, median ${figures(d.median)}, coefficient of variation ${percent(d.coefficientOfVariation)}${cut}`;
    case "uniform":
      return `even, ${figures(d.low)} to ${figures(d.high)}${cut}`;
    case "triangular":
      return `triangular, ${figures(d.low)}, ${figures(d.mode)}, ${figures(d.high)}${cut}`;
    case "discrete":
      return `${d.values.length} values with weights${cut}`;
    case "sample":
      return `${d.values.length} measured values${cut}`;
  }
}
