/** What the traffic is worth on this section: spectrum, damage, equivalence, as figures and a table. */

import type {ClassEquivalence, LifeResult, TrafficEquivalence, TreatmentLife} from "../engine/life/types.ts";
import {equivalenceChart, loadGroups, spectrumChart} from "./charts/index.ts";
import {FITTED, type FigureFrame, HALF, legend} from "./figureFrame.ts";
import {count, figures, percent} from "./format.ts";
import {type Html, html} from "./html.ts";
import {type Measure, measure} from "./units.ts";

/** Nothing without traffic. */
export function trafficPart(result: LifeResult, frame: FigureFrame): Html | null {
  const told = result.treatments.flatMap(t => (t.equivalence ? [{t, traffic: t.equivalence}] : []));
  if (told.length === 0) return null;
  const {t: control, traffic} = told[0];
  return html`<section><h2>Traffic and what it does</h2>${spectrumFigure(traffic, control, frame)}${equivalenceFigure(told, frame)}${equivalenceTable(told, measure("force", frame.units))}</section>`;
}

interface Told {
  readonly t: TreatmentLife;
  readonly traffic: TrafficEquivalence;
}

function spectrumFigure(traffic: TrafficEquivalence, control: TreatmentLife, frame: FigureFrame): Html | null {
  if (traffic.classes.length < 2) return null;
  const {figure, panel, panels, canvas} = frame;
  const bodies = [
    panel("How often each load passes", spectrumChart(traffic, "passes", canvas(HALF))),
    panel("What it does", spectrumChart(traffic, "damage", canvas(HALF))),
  ];
  const heaviest = [...traffic.classes].sort((p, q) => q.share - p.share)[0];
  const passes = traffic.classes.reduce((sum, c) => sum + c.passesPerYear, 0);
  return figure(
    html`${legend(loadGroups(traffic))}${panels(bodies)}`,
    `Loads of the first year on “${control.treatment.name}”. Most is done by ${heaviest.loadClass}: ${percent(heaviest.passesPerYear / passes)} of the passes and ${percent(heaviest.share)} of the damage by reflection under traffic.`,
  );
}

function equivalenceFigure(told: readonly Told[], {figure, panel, panels, canvas}: FigureFrame): Html | null {
  const width = told.length === 1 ? FITTED : HALF;
  const bodies = told.flatMap(({t, traffic}) => {
    const picture = equivalenceChart(traffic, canvas(width));
    return picture ? [panel(t.treatment.name, picture)] : [];
  });
  if (bodies.length === 0) return null;
  const {traffic} = told[0];
  return figure(
    html`${legend(loadGroups(traffic))}${panels(bodies)}`,
    `How many passes of the ${traffic.reference} one pass is worth, for this section and for reflection by traffic; dotted: the fourth-power law. Both agree only where the exponent is four and the geometry does not matter.`,
  );
}

/** By treatment one row an axle group: the classes of a spectrum together. */
function equivalenceTable(told: readonly Told[], load: Measure): Html {
  const {reference} = told[0].traffic;
  return html`
  <div class="scroll"><table>
    <caption>Equivalence by axle group, in passes of the ${reference}. The exponent is the slope of the factor over the load within a group: it holds for this section and reflection by traffic only. Passes per coverage tell how channelised the traffic is; damage is computed from the wander itself.</caption>
    <thead><tr><th scope="col">Group</th><th scope="col" class="n">Load<br><small>${load.unit}</small></th><th scope="col" class="n">Passes<br><small>first year</small></th>
      <th scope="col" class="n">Passes per<br>coverage</th><th scope="col" class="n">Damage<br><small>%</small></th><th scope="col" class="n">Factor</th>
      <th scope="col" class="n">Exponent</th><th scope="col" class="n">Factor by<br>fourth power</th></tr></thead>
    <tbody>${told.map(
      ({t, traffic}) => html`
      <tr class="group"><th colspan="8" scope="rowgroup">${t.treatment.name}</th></tr>${loadGroups(traffic).map(group => groupRow(traffic, group, load))}`,
    )}</tbody>
  </table></div>`;
}

function groupRow(traffic: TrafficEquivalence, group: string, load: Measure): Html {
  const own = traffic.classes.filter(c => (c.group ?? c.loadClass) === group);
  const sum = (key: "passesPerYear" | "share"): number => own.reduce((total, c) => total + c[key], 0);
  const exponent = traffic.exponents.find(e => e.group === group)?.exponent;
  return html`
      <tr><th scope="row">${group}</th><td class="n">${span(own, c => load.of(c.load))}</td><td class="n">${count(sum("passesPerYear"))}</td>
        <td class="n">${figures(own[0].passesPerCoverage)}</td><td class="n">${figures(100 * sum("share"))}</td><td class="n">${span(own, c => c.factor)}</td>
        <td class="n">${exponent === undefined ? "–" : figures(exponent)}</td><td class="n">${span(own, c => c.fourthPower)}</td></tr>`;
}

/** Least and largest of a value over the classes. */
function span(classes: readonly ClassEquivalence[], value: (c: ClassEquivalence) => number): string {
  const values = classes.map(value);
  const [low, high] = [Math.min(...values), Math.max(...values)].map(v => figures(v, 2));
  return low === high ? low : `${low} to ${high}`;
}
