/** The report of a programme of wheel-tracked beams. */

import {type Calibration, type FatigueResult, REFERENCE_STRAIN} from "../engine/laboratory/index.ts";
import {
  AT_STRAIN,
  beamRows,
  calibrationAnswer,
  choiceText,
  coefficientText,
  levelText,
  originText,
  otherMaterials,
  rateText,
  warningTexts,
} from "./calibration.ts";
import {beamChart, lawChart, predictionChart, profileChart, residualChart} from "./charts/index.ts";
import {fatigueParts} from "./fatigueReport.ts";
import {FITTED, type FigureFrame, FULL, figureFrame, HALF, legend} from "./figureFrame.ts";
import {count, figures, intervalText, megapascals, megapascalsPerMillimetre, millimetres, percent} from "./format.ts";
import {type Html, html} from "./html.ts";
import {listPart, page, type ReportContext, sourcesPart} from "./page.ts";

/** @param name of the programme */
export function beamsReport(
  name: string,
  calibration: Calibration,
  fatigue: FatigueResult | null,
  context: ReportContext,
): string {
  const frame = figureFrame(context.document);
  return page({
    name,
    title: `${name}: crack growth laws`,
    kicker: "Crack growth laws from wheel-tracked beams",
    context,
    answer: calibrationAnswer(calibration),
    parts: [
      html`<section>${lawTable(calibration)}${caution()}</section>`,
      lawsPart(calibration, frame),
      predictionPart(calibration, frame),
      html`<section><h2>Beams</h2>${beamFigures(calibration, frame)}${beamsTable(calibration)}</section>`,
      fitPart(calibration, frame),
      fatigue && fatigueParts(fatigue, frame),
      choicesPart(calibration),
      listPart("Warnings", [...context.warnings, ...warningTexts(calibration)]),
      methodPart(calibration),
      sourcesPart(context),
    ],
  });
}

function caution(): Html {
  return html`<div class="caution" role="note"><p><b>Before you use these numbers.</b> A and n belong together, with their process zone: never use one without the others. They hold for this
  temperature, speed and range of strain. They support, and never replace, the judgement of a qualified pavement engineer and local specifications.</p></div>`;
}

function lawTable(calibration: Calibration): Html {
  const {estimates, request} = calibration;
  return html`
  <div class="scroll"><table>
    <caption>dc/dN = A·ε<sup>n</sup>, c in mm, ε the tip strain in µε; intervals of ${levelText(calibration)}.</caption>
    <thead><tr><th scope="col">Material</th><th scope="col" class="n">Growth at ${AT_STRAIN}<br><small>mm per cycle</small></th><th scope="col" class="n">n<br><small>–</small></th>
      <th scope="col" class="n">A<br><small>mm, µε</small></th><th scope="col" class="n">Process zone<br><small>mm</small></th><th scope="col">Law</th></tr></thead>
    <tbody>${estimates.map(e => {
      const rate = rateText(e.rate);
      return html`
      <tr><th scope="row">${e.material}</th><td class="n">${rate.value}<br><small>${rate.interval}</small></td>
        <td class="n">${figures(e.exponent.value)}<br><small>${intervalText(e.exponent)}</small></td><td class="n">${coefficientText(e)}</td>
        <td class="n">${figures(request.choices.zoneLength[e.material] * 1e3)}</td><td>${originText(calibration, e.material)}</td></tr>`;
    })}${otherMaterials(calibration).map(
      name => html`
      <tr><th scope="row">${name}</th><td class="n">–</td><td class="n">–</td><td class="n">–</td><td class="n">${figures(request.choices.zoneLength[name] * 1e3)}</td><td>${originText(calibration, name)}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function lawsPart({estimates}: Calibration, {figure, canvas}: FigureFrame): Html {
  const curves = estimates.map(e => ({...e.curve, met: e.met}));
  return html`<section><h2>Growth laws</h2>${figure(
    html`${legend(estimates.map(e => e.material))}<div class="fit">${lawChart(curves, canvas(FITTED))}</div>`,
    "Growth per cycle against tip strain. Thick, with their band: over the strains that cracks in the beams went through. Thin: beyond them, where nothing was measured.",
  )}</section>`;
}

function predictionPart(calibration: Calibration, {figure, canvas}: FigureFrame): Html {
  const {predictions} = calibration;
  const held = predictions.filter(p => p.within).length;
  const rows = beamRows(calibration);
  return html`<section><h2>Each beam predicted without it</h2>
  ${
    predictions.length > 0 &&
    figure(
      html`<div class="fit">${predictionChart(predictions, canvas(FITTED))}</div>`,
      `Passes to breaking, predicted by laws fitted to the other beams, against those observed: ${held} of ${predictions.length} within the ${levelText(calibration)} interval (bars). Solid line: equal; broken lines: a factor of two. Open circles with an arrow had not broken when the test was stopped.`,
    )
  }
  <div class="scroll"><table>
    <caption>Passes to breaking. The beam’s own factor says how much faster its cracks grew than the laws say.</caption>
    <thead><tr><th scope="col">Beam</th><th scope="col" class="n">Observed</th><th scope="col" class="n">Predicted</th><th scope="col" class="n">${levelText(calibration)} interval</th><th scope="col">Within</th><th scope="col" class="n">Own factor</th></tr></thead>
    <tbody>${rows.map(
      r => html`
      <tr><th scope="row">${r.name}</th><td class="n">${r.observed}</td><td class="n">${r.predicted}</td><td class="n">${r.interval}</td><td>${r.within === null ? "–" : r.within ? "yes" : html`<b>no</b>`}</td><td class="n">${r.factor}</td></tr>`,
    )}</tbody>
  </table></div></section>`;
}

function beamFigures(calibration: Calibration, {figure, panel, panels, canvas}: FigureFrame): Html {
  const {request, reduced, cases, fronts, predictions} = calibration;
  const bodies = request.tests.map((test, k) => {
    const at = cases.findIndex(c => c.test.name === test.name);
    const picture = {
      test,
      reduced: reduced[k],
      fitted: at < 0 ? null : fronts[at],
      prediction: predictions.find(p => p.name === test.name) ?? null,
    };
    return panel(test.setAside === null ? test.name : `${test.name}, set aside`, beamChart(picture, canvas(HALF)));
  });
  return figure(
    panels(bodies),
    "Crack fronts in each beam as it stands: filled, from below; open, from above; the bar joins the two faces. Thin grey: the readings smoothed so that no crack goes back. Lines: the fit with the beam’s own factors. Bands: what laws fitted without this beam foretold, 90 % of the draws. Cross with its bar: where a straight line through the last readings would have the fronts meet, extrapolated; no law rests on it. Tinted: overlay, and interlayer below it.",
  );
}

function beamsTable({request, cases, lifts, reduced}: Calibration): Html {
  const rows = request.tests.map((test, k) => ({
    test,
    at: cases.findIndex(c => c.test.name === test.name),
    meeting: reduced[k].meeting,
  }));
  return html`
  <div class="scroll"><table>
    <caption>Beams as they were computed. Lift: of the ends over the settlement at the gap. Meeting: passes at which the fronts would meet by a straight line through the last readings, its interval in the figure.</caption>
    <thead><tr><th scope="col">Beam</th><th scope="col">Overlay</th><th scope="col">Interlayer</th><th scope="col" class="n">Wheel<br><small>kN</small></th><th scope="col" class="n">Travel<br><small>mm</small></th>
      <th scope="col" class="n">Foundation<br><small>MPa/mm</small></th><th scope="col" class="n">Lift<br><small>%</small></th><th scope="col" class="n">Meeting<br><small>extrapolated</small></th></tr></thead>
    <tbody>${rows.map(
      ({test: b, at, meeting}) => html`
      <tr><th scope="row">${b.name}${b.setAside !== null && html`<br><small>set aside: ${b.setAside}</small>`}</th><td>${b.overlay.material}, ${millimetres(b.overlay.thickness)}, ${megapascals(b.overlay.modulus)}</td>
        <td>${b.interlayer ? `${b.interlayer.material}, ${millimetres(b.interlayer.thickness)}, ${megapascals(b.interlayer.modulus)}` : "none"}</td><td class="n">${figures(b.wheel.load / 1e3)}</td>
        <td class="n">${figures(b.travel.from * 1e3)} to ${figures(b.travel.to * 1e3)}</td><td class="n">${at < 0 ? "–" : figures(cases[at].solution.foundation / 1e9)}</td>
        <td class="n">${at < 0 ? "–" : figures(lifts[at] * 100, 2)}</td><td class="n">${meeting ? count(meeting.passes) : "–"}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function fitPart(calibration: Calibration, {figure, panel, panels, canvas}: FigureFrame): Html {
  const {fit, profiles, fronts, estimates} = calibration;
  const {scatter} = fit;
  const bodies = profiles.map((p, k) => {
    const {material} = estimates[k >> 1];
    const exponent = k % 2 === 1;
    // Rates are shown as powers of ten in mm.
    const shown = (v: number): number => (exponent ? v : (v + Math.log(1e3)) / Math.LN10);
    return panel(
      material,
      profileChart(
        {
          label: exponent ? "n" : `lg of growth at ${AT_STRAIN}, mm per cycle`,
          values: p.values.map(shown),
          fall: p.fall,
          cut: p.cut,
          estimate: shown(fit.parameters[k]),
        },
        canvas(HALF),
      ),
    );
  });
  return html`<section><h2>The fit</h2>
  <div class="scroll keep"><table><tbody>
  <tr><th scope="row">Growth from beam to beam, standard deviation of its logarithm</th><td class="n">${figures(scatter.beam, 2)}</td></tr>
  <tr><th scope="row">The same of growth from above against growth from below</th><td class="n">${figures(scatter.upper, 2)}</td></tr>
  <tr><th scope="row">Exponents from beam to beam, standard deviation</th><td class="n">${figures(scatter.exponent, 2)}</td></tr>
  <tr><th scope="row">Lengths about the fitted front, reading error apart: from below; from above</th><td class="n">${millimetres(scatter.lower)}; ${millimetres(scatter.surface)}</td></tr>
  <tr><th scope="row">Reading of one face about the crack</th><td class="n">${millimetres(fit.faceDeviation)}</td></tr>
  <tr><th scope="row">Correlation of ln growth at ${AT_STRAIN} and n: ${fit.materials.join("; ")}</th><td class="n">${estimates.map(e => figures(e.correlation, 2)).join("; ")}</td></tr>
  <tr><th scope="row">Turns of the fit; settled</th><td class="n">${fit.iterations}; ${fit.converged ? "yes" : html`<b>no</b>`}</td></tr>
  <tr><th scope="row">Degrees of freedom of the intervals</th><td class="n">${fit.degrees}</td></tr>
  </tbody></table></div>
  ${figure(panels(bodies), `How ln likelihood falls when one number is moved and all others follow. The ${levelText(calibration)} interval is where the curve is above the broken line; dotted: the estimate.`)}
  ${figure(residualChart(fronts, canvas(FULL)), "Every length that was read, less the fitted front, over its standard deviation. Filled: from below; open: from above. No trend should show; 95 in 100 belong between the broken lines.")}</section>`;
}

function choicesPart(calibration: Calibration): Html {
  return html`<section><h2>How shear counts</h2>
  <div class="scroll"><table>
    <caption>Fall of ln likelihood from the best of the values tried. A fall of less than ${figures(-calibration.choices[0].cut, 2)} is no evidence (${levelText(calibration)}).</caption>
    <thead><tr><th scope="col">Choice</th><th scope="col">Value: fall</th><th scope="col">Used</th><th scope="col">Allowed by the readings</th></tr></thead>
    <tbody>${calibration.choices.map(
      c => html`
      <tr><th scope="row">${c.choice === "shear weight" ? "Weight of shear in the tip strain" : "Interlock of crack faces"}</th>
        <td>${c.values.map((v, k) => `${choiceText(c.choice, v)}: ${figures(c.fall[k], 2)}`).join("; ")}</td><td>${choiceText(c.choice, c.used)}</td>
        <td>${c.known ? c.allowed.map(v => choiceText(c.choice, v)).join(", ") : "every value tried: not known from these beams"}</td></tr>`,
    )}</tbody>
  </table></div>
  <p>On a stiff slab, where wheels drive a crack by shear, these two decide whether an interlayer helps: with the default weight of 1 and no interlock it seems to, with interlocked faces it does not.
  Where the readings do not tell them, compute the road with other values too.</p></section>`;
}

function methodPart({request}: Calibration): Html {
  const {choices, shearWeight, level, exponentPrior} = request;
  return html`<section><h2>Method</h2>
  <p>Each beam is solved in plane ${choices.plane} by finite elements and, on the line above the gap, for every pair of crack lengths, with the wheel at many places of its travel. The tip strain is the mean
  traction over the process zone ahead of a tip over the plane-strain modulus E/(1 − ν²); its cycles in a pass are counted by rainflow (ASTM E1049). Fronts follow from dc/dN = A·ε<sup>n</sup>. All laws are fitted
  to all readings of all beams at once: lengths with their error, cracks not visible, beams broken and tests stopped as bounds; beams differ by a log-normal factor, growth from above by another, and by a normal addition to their exponents. Scatter is
  estimated by restricted maximum likelihood (Lindstrom &amp; Bates 1990). Intervals: ${percent(level)}, by Student’s t.</p>
  <div class="scroll keep"><table><tbody>
  <tr><th scope="row">Accuracy asked for, in tip strain</th><td>${percent(choices.accuracy)}</td></tr>
  <tr><th scope="row">Weight of shear; interlock</th><td>${figures(shearWeight)}; ${megapascalsPerMillimetre(choices.interlock)}</td></tr>
  <tr><th scope="row">Believed of n beforehand</th><td>${exponentPrior ? `${figures(exponentPrior.mean)} ± ${figures(exponentPrior.deviation)}` : "nothing"}</td></tr>
  <tr><th scope="row">Strain at which rates are compared</th><td>${figures(REFERENCE_STRAIN * 1e6)} µε</td></tr>
  <tr><th scope="row">Seed of the draws behind predictions</th><td>${request.seed}</td></tr>
  </tbody></table></div></section>`;
}
