/** The tables of results: lives by mechanism, and how far the crack is when. */

import type {Life, LifeResult, TreatmentLife} from "../engine/life/types.ts";
import {count, figures, LIFE_CAP, lifeText, percent, yearsNumber} from "./format.ts";
import {type Html, html} from "./html.ts";
import {control, mechanismRows, reflection} from "./lives.ts";
import {measure, quantityText, type UnitSystem} from "./units.ts";

/** Collects notes below a table; the same note gets the same letter. */
function noteBook(): {mark(text: string | null): Html | null; list(): Html | null} {
  const notes: string[] = [];
  return {
    mark(text) {
      if (text === null) return null;
      let at = notes.indexOf(text);
      if (at < 0) at = notes.push(text) - 1;
      return html`<sup>${letter(at)}</sup>`;
    },
    list: () =>
      notes.length === 0
        ? null
        : html`<p class="notes">${notes.map((n, i) => html`<sup>${letter(i)}</sup> ${n}. `)}</p>`,
  };
}

function letter(index: number): string {
  return index < 26 ? String.fromCharCode(97 + index) : `${letter(Math.floor(index / 26) - 1)}${letter(index % 26)}`;
}

/** Treatments × mechanisms: years, standard axles, passes and the ratio to the control. */
export function resultTable(result: LifeResult): Html {
  const notes = noteBook();
  const base = control(result);
  const group = (t: TreatmentLife) => html`
    <tr class="group"><th colspan="5" scope="rowgroup">${t.treatment.name} <small>${t.treatment.description}</small></th></tr>
    ${mechanismRows(t, base).map(r => {
      const life = lifeText(r.life);
      const known = life.note === null || Number.isFinite(r.life.passes);
      const open = life.note !== null;
      const note = [life.note, r.ratio.note].filter(n => n !== null).join(", ");
      const number = (value: number) => (open ? "–" : count(value));
      return html`
    <tr${html.unsafe(r.governs ? ' class="governs"' : "")}>
      <th scope="row">${r.mechanism}${r.where && html` <small>${r.where}</small>`}${r.governs && html` <span class="mark">◂ governs</span>`}</th>
      <td class="n">${life.short}${notes.mark(note === "" ? null : `${note}${known ? passesNote(r.life) : ""}`)}</td>
      <td class="n">${number(r.life.standardAxles)}</td>
      <td class="n spare">${number(r.life.passes)}</td>
      <td class="n">${r.ratio.text}</td>
    </tr>`;
    })}`;
  return html`
  <div class="scroll"><table class="result">
    <thead><tr>
      <th scope="col">Mechanism</th>
      <th scope="col" class="n">Life<br><small>years</small></th>
      <th scope="col" class="n">Standard axles<br><small>by then</small></th>
      <th scope="col" class="n spare">Passes<br><small>all classes</small></th>
      <th scope="col" class="n">Ratio<br><small>to control</small></th>
    </tr></thead>
    <tbody>${result.treatments.map(group)}</tbody>
  </table></div>
  <p class="notes">The life of a treatment is the shortest of its mechanisms. “> ${LIFE_CAP}” means more than ${LIFE_CAP} years, by this mechanism: other
  causes will have ended the pavement’s life before. The control is ${base.treatment.name}.</p>
  ${notes.list()}`;
}

function passesNote(life: {readonly passes: number; readonly standardAxles: number}): string {
  return life.passes > 0 ? `, ${count(life.standardAxles)} standard axles by then` : "";
}

/** When the crack passed 25, 50 and 75 % of the overlay. */
export function milestoneTable(result: LifeResult): Html {
  const rows = result.treatments.flatMap(t => {
    const h = reflection(t);
    return h ? [{t, h}] : [];
  });
  const fractions = rows[0]?.h.milestones.map(m => m.fraction) ?? [];
  const cell = (value: number, life: Life) => {
    const end = Math.min(LIFE_CAP, life.years); // a mark that was not reached is beyond what was integrated
    return value > end ? `> ${yearsNumber(end)}` : yearsNumber(value);
  };
  return html`
  <div class="scroll keep"><table>
    <caption>Years until the cracked depth, from both faces together, passes a share of the overlay.</caption>
    <thead><tr><th scope="col">Treatment</th>${fractions.map(f => html`<th scope="col" class="n">${percent(f)}</th>`)}
      <th scope="col" class="n">through</th><th scope="col">runs mainly</th></tr></thead>
    <tbody>${rows.map(
      ({t, h}) => html`
      <tr><th scope="row">${t.treatment.name}</th>${h.milestones.map(m => html`<td class="n">${cell(m.years, h.life)}</td>`)}
        <td class="n">${lifeText(h.life).short}</td><td>${h.worstFront === "lower" ? "from the joint up" : "from the surface down"}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

/** Where ordinary fatigue was computed, and how the joint behaves. */
export function behaviourTable(result: LifeResult, units: UnitSystem = "metric"): Html {
  const [spring, length] = [measure("interface stiffness", units), measure("length", units)];
  const kelvin = measure("temperature difference", units);
  return html`
  <div class="scroll keep"><table>
    <caption>The joint as computed: load transfer on the bare jointed layer, and movement over the temperature record.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col" class="n">Load transfer<br><small>%</small></th>
      <th scope="col" class="n">Joint spring<br><small>${spring.unit}</small></th><th scope="col" class="n">Yearly range<br><small>free, ${length.unit}</small></th>
      <th scope="col" class="n">Yearly range<br><small>with friction, ${length.unit}</small></th><th scope="col" class="n">Movement<br><small>${length.unit}/${kelvin.unit}</small></th></tr></thead>
    <tbody>${result.treatments.map(
      t => html`
      <tr><th scope="row">${t.treatment.name}</th><td class="n">${shown(t.transfer?.efficiency, e => e * 100)}</td>
        <td class="n">${shown(t.transfer?.spring, spring.of)}</td>
        <td class="n">${shown(t.jointMovement?.free, length.of)}</td><td class="n">${shown(t.jointMovement?.computed, length.of)}</td>
        <td class="n">${shown(t.jointMovement?.perDegree, m => length.of(m) / kelvin.of(1))}</td></tr>`,
    )}</tbody>
  </table></div>${testTable(result, units)}`;
}

/** Deflection tests, position by position. Nothing when there was none. */
function testTable(result: LifeResult, units: UnitSystem): Html | null {
  const [spring, deflection] = [measure("interface stiffness", units), measure("deflection", units)];
  const rows = result.treatments.flatMap(t => (t.transfer?.tested ?? []).map(p => ({t, p})));
  if (rows.length === 0) return null;
  return html`
  <div class="scroll keep"><table>
    <caption>Deflection tests at the joint: the spring with which this section gives the measured ratio; the mean of the springs is used.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col">Plate</th><th scope="col" class="n">Unloaded over loaded<br><small>measured, %</small></th>
      <th scope="col" class="n">Joint spring<br><small>${spring.unit}</small></th><th scope="col" class="n">Loaded side<br><small>measured, ${deflection.unit}</small></th>
      <th scope="col" class="n">Loaded side<br><small>computed, ${deflection.unit}</small></th></tr></thead>
    <tbody>${rows.map(
      ({t, p}) => html`
      <tr><th scope="row">${t.treatment.name}</th><td>${p.name}</td><td class="n">${shown(p.efficiency, e => e * 100)}</td>
        <td class="n">${shown(p.stiffness, spring.of)}</td><td class="n">${figures(deflection.of(p.loaded))}</td>
        <td class="n">${figures(deflection.of(p.computed))}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

/** In people's units, or a dash where it was not computed. */
function shown(value: number | undefined, inUnit: (si: number) => number): string {
  return value === undefined ? "–" : figures(inUnit(value), 2);
}

/** Critical points of the ordinary mechanisms. Nothing when none was computed. */
export function ordinaryTable(result: LifeResult, units: UnitSystem = "metric"): Html | null {
  const rows = result.treatments.flatMap(t => t.ordinary.map(o => ({t, o})));
  if (rows.length === 0) return null;
  return html`
  <div class="scroll keep"><table>
    <caption>Ordinary fatigue away from the joint: the critical point and its largest strain over the temperature bins.</caption>
    <thead><tr><th scope="col">Treatment</th><th scope="col">Mechanism</th><th scope="col">Layer</th><th scope="col" class="n">Depth</th>
      <th scope="col" class="n">Strain<br><small>µε</small></th><th scope="col" class="n">Life<br><small>years</small></th></tr></thead>
    <tbody>${rows.map(
      ({t, o}) => html`
      <tr><th scope="row">${t.treatment.name}</th><td>${o.mechanism}</td><td>${o.layer}</td><td class="n">${quantityText(o.depth, "length", units)}</td>
        <td class="n">${figures(o.strain * 1e6, 3)}</td><td class="n">${lifeText(o.life).short}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

/** Bins of each treatment as one line of text. */
export function binsText(t: TreatmentLife, units: UnitSystem = "metric"): string {
  return t.bins.map(b => `${quantityText(b.temperature, "temperature", units)}: ${percent(b.share)}`).join(", ");
}
