/** Everything the result was computed from, with its source. */

import type {LifeResult} from "../engine/life/types.ts";
import {type Layer, type LoadTransfer, type Material, modulusAt, type Section} from "../engine/section/index.ts";
import type {LoadClass, Wander} from "../engine/traffic/types.ts";
import {
  celsius,
  count,
  figures,
  growthCoefficient,
  hertz,
  kilonewtons,
  megapascals,
  megapascalsPerMillimetre,
  metres,
  millimetres,
  percent,
  years,
} from "./format.ts";
import {type Html, html} from "./html.ts";
import {TOLD_TEMPERATURES} from "./stiffness.ts";
import {originWord} from "./stiffnessWords.ts";
import {binsText} from "./tables.ts";

/** Materials in the order they first appear; equal descriptions count once, moduli left out: they have a table of their own. */
function materials(result: LifeResult): Material[] {
  const seen = new Map<string, Material>();
  for (const {material} of result.treatments.flatMap(t => t.treatment.section.layers)) {
    const {modulus, relaxationModulus, seasonalRelaxationModulus, masterCurve, ...other} = material;
    const own = masterCurve ? [other, masterCurve.curve] : material;
    if (!seen.has(JSON.stringify(own))) seen.set(JSON.stringify(own), material);
  }
  return [...seen.values()];
}

const MOST_COLUMNS = 7;

/** A material in a row; of one with a master curve the layer too, as its modulus depends on depth. */
interface ModulusRow {
  readonly material: Material;
  readonly where: string | null;
}

function modulusRows(result: LifeResult): ModulusRow[] {
  const rows = new Map<string, ModulusRow>();
  for (const {name, material, thickness} of result.treatments.flatMap(t => t.treatment.section.layers)) {
    const {masterCurve} = material;
    const where = masterCurve ? `${name}, ${millimetres(thickness)}, ${hertz(masterCurve.loadingFrequency)}` : null;
    rows.set(JSON.stringify([where, material]), {material, where});
  }
  return [...rows.values()];
}

/** Temperatures of the tables, and a few where there are master curves. */
function modulusTemperatures(rows: readonly ModulusRow[]): number[] {
  const given = rows.flatMap(({material: m}) =>
    m.masterCurve ? TOLD_TEMPERATURES : m.modulus.length > 1 ? m.modulus.map(p => p.temperature) : [],
  );
  return [...new Set(given)].sort((a, b) => a - b);
}

function modulusTable(result: LifeResult): Html {
  const rows = modulusRows(result);
  const temperatures = modulusTemperatures(rows);
  const wide = temperatures.length <= MOST_COLUMNS;
  const columns = wide ? temperatures : [];
  const at = (m: Material, t: number): string | null => {
    if (m.masterCurve) return figures(modulusAt(m, t) / 1e6);
    const point = m.modulus.find(p => p.temperature === t);
    return point ? figures(point.modulus / 1e6) : null;
  };
  const cells = (m: Material) => {
    if (m.modulus.length === 1)
      return html`<td class="n"${html.unsafe(wide && columns.length > 1 ? ` colspan="${columns.length}"` : "")}>${figures(m.modulus[0]!.modulus / 1e6)}${m.estimated ? ", estimated," : ""} at any temperature</td>`;
    if (wide) return columns.map(t => html`<td class="n">${at(m, t) ?? "–"}</td>`);
    const told = m.masterCurve ? TOLD_TEMPERATURES : m.modulus.map(p => p.temperature);
    return html`<td>${told.map(t => `${celsius(t)}: ${at(m, t)}`).join("; ")}</td>`;
  };
  const split = rows.some(({material: m}) => m.seasonalRelaxationModulus !== m.relaxationModulus);
  const relaxed = (m: Material) =>
    html`<td class="n">${figures(m.relaxationModulus / 1e6)}</td>${split && html`<td class="n">${figures(m.seasonalRelaxationModulus / 1e6)}</td>`}`;
  return html`
  <div class="scroll"><table>
    <caption>Modulus at wheel loading time, MPa, by temperature; and at the loading time of a daily temperature cycle (relaxed)${split ? " and of the seasons" : ""}.</caption>
    <thead><tr><th scope="col">Material</th>${wide ? columns.map(t => html`<th scope="col" class="n">${celsius(t)}</th>`) : html`<th scope="col">by temperature</th>`}
      ${wide && columns.length === 0 && html`<th scope="col" class="n">Modulus</th>`}<th scope="col" class="n">Relaxed</th>${split && html`<th scope="col" class="n">Seasons</th>`}</tr></thead>
    <tbody>${rows.map(({material: m, where}) => html`<tr><th scope="row">${m.name}${where !== null && html` <small>${where}</small>`}</th>${cells(m)}${relaxed(m)}</tr>`)}</tbody>
  </table></div>`;
}

function physicalTable(all: readonly Material[]): Html {
  return html`
  <div class="scroll"><table>
    <caption>Other properties and where the numbers of each material come from.</caption>
    <thead><tr><th scope="col">Material</th><th scope="col" class="n">ν<br><small>–</small></th><th scope="col" class="n">Expansion<br><small>10⁻⁶/K</small></th>
      <th scope="col" class="n">Conductivity<br><small>W/(m·K)</small></th><th scope="col" class="n">Density<br><small>kg/m³</small></th>
      <th scope="col" class="n">Heat<br><small>J/(kg·K)</small></th><th scope="col">Source</th></tr></thead>
    <tbody>${all.map(
      m => html`
      <tr><th scope="row">${m.name}</th><td class="n">${figures(m.poisson)}</td><td class="n">${figures(m.expansion * 1e6)}</td>
        <td class="n">${figures(m.conductivity)}</td><td class="n">${figures(m.density)}</td><td class="n">${figures(m.heatCapacity)}</td>
        <td>${m.source}${m.masterCurve && `; stiffness: ${originWord(m.masterCurve)}`}</td></tr>`,
    )}</tbody>
  </table></div>`;
}

function lawTable(all: readonly Material[]): Html | null {
  const rows = all.filter(m => m.growth !== null || m.fatigue !== null);
  if (rows.length === 0) return null;
  return html`
  <div class="scroll"><table>
    <caption>Crack growth dc/dN = A·ε<sup>n</sup> with c in mm and ε in µε (equation 4), its process zone d and stiffness shift; and the fatigue line N = 10⁶·(ε₆/ε)<sup>k</sup> with ε₆ shifted by (E₀/E)<sup>s</sup> (equation 9).</caption>
    <thead><tr><th scope="col">Material</th><th scope="col" class="n">A<br><small>mm per cycle, µε</small></th><th scope="col" class="n">n<br><small>–</small></th>
      <th scope="col" class="n">d<br><small>mm</small></th><th scope="col" class="n">E₀; m<br><small>MPa; –</small></th>
      <th scope="col" class="n">ε₆<br><small>µε</small></th><th scope="col" class="n">k<br><small>–</small></th><th scope="col" class="n">E₀; s<br><small>MPa; –</small></th></tr></thead>
    <tbody>${rows.map(({name, growth: g, fatigue: f}) => {
      return html`
      <tr><th scope="row">${name}</th>
        <td class="n">${g ? growthCoefficient(g) : "–"}</td><td class="n">${g ? figures(g.exponent) : "–"}</td>
        <td class="n">${g ? figures(g.zoneLength * 1e3) : "–"}</td><td class="n">${g ? shiftText(g) : "–"}</td>
        <td class="n">${f ? figures(f.strainAtMillion * 1e6) : "–"}</td><td class="n">${f ? figures(f.exponent) : "–"}</td><td class="n">${f ? shiftText(f) : "–"}</td></tr>`;
    })}</tbody>
  </table></div>`;
}

function shiftText(law: {readonly referenceModulus: number | null; readonly stiffnessExponent: number}): string {
  if (law.referenceModulus === null || law.stiffnessExponent === 0) return "none";
  return `${figures(law.referenceModulus / 1e6)}; ${figures(law.stiffnessExponent)}`;
}

/** Name and value, one row an input, one column a treatment; and what is not worth a row when no treatment has anything else. */
type SectionRow = readonly [name: string, value: (s: Section) => string, usual?: string];

function layerText(l: Layer): string {
  return `${l.name}, ${millimetres(l.thickness)} of ${l.material.name}`;
}

const JOINT_ROWS: readonly SectionRow[] = [
  ["Layers, from the surface", s => s.layers.map(layerText).join("; ")],
  ["Joint spacing", s => metres(s.joint.spacing)],
  ["Joint width", s => millimetres(s.joint.width)],
  ["Strip without bond, each side", s => millimetres(s.joint.unbondedStrip)],
  ["Load transfer, as given", s => transferText(s.joint.transfer)],
  ["Joint faces touch", s => (s.joint.facesTouch ? "yes" : "no")],
  ["Discontinuity into the foundation", s => millimetres(s.joint.cutDepth)],
  ["Friction under the jointed layer", s => bondText(s.slabFriction)],
  ["Bond of the layers above", bondsText, "full bond"],
  ["Reinforcement", reinforcementText, "none"],
  ["Base", s => (s.base.kind === "rigid" ? "rough, rigid" : `springs, ${figures(s.base.stiffness / 1e6)} MPa/m`)],
  ["Interlock of crack faces", s => (s.crackInterlock === 0 ? "none" : megapascalsPerMillimetre(s.crackInterlock))],
  ["Weight of shear in the tip strain", s => figures(s.shearWeight)],
];

function transferText(transfer: LoadTransfer): string {
  switch (transfer.kind) {
    case "spring":
      return `spring, ${megapascalsPerMillimetre(transfer.stiffness)}`;
    case "efficiency":
      return `${percent(transfer.efficiency)} of deflection`;
    case "test": {
      const {plate, positions} = transfer.test;
      const load = kilonewtons(plate.pressure * plate.side ** 2);
      const ratios = positions.map(p => `${percent(p.unloaded / p.loaded)} (${p.name})`);
      return `deflection test, ${load} at ${millimetres(plate.centre)} from the joint: ${ratios.join(", ")}`;
    }
  }
}

function bondsText({layers}: Section): string {
  const told = layers.flatMap(({name, bondBelow}) =>
    bondBelow === undefined || bondBelow === Infinity ? [] : [`under ${name} ${bondText(bondBelow)}`],
  );
  return told.length ? `${told.join("; ")}; elsewhere full bond` : "full bond";
}

function reinforcementText({reinforcement: r}: Section): string {
  if (!r) return "none";
  const stiffness = `EA ${figures(r.stiffness / 1e3)} kN/m, let go over ${millimetres(r.bondLength)} on each side`;
  return `${r.name}, ${millimetres(r.depth)} deep; ${stiffness}; pull spread over ${millimetres(r.height)}`;
}

function bondText(stiffness: number): string {
  if (stiffness === Infinity) return "full bond";
  return stiffness === 0 ? "free slip" : megapascalsPerMillimetre(stiffness);
}

function sectionTable(result: LifeResult): Html {
  const treatments = result.treatments.map(t => t.treatment);
  return html`
  <div class="scroll"><table>
    <caption>Section and joint of each treatment; a value that is the same for all is given once.</caption>
    <thead><tr><th scope="col">Input</th>${treatments.map(t => html`<th scope="col">${t.name}</th>`)}</tr></thead>
    <tbody>${JOINT_ROWS.map(([name, value, usual]) => {
      const texts = treatments.map(t => value(t.section));
      if (texts.every(t => t === usual)) return null;
      const same = texts.every(t => t === texts[0]) && texts.length > 1;
      const cells = same ? html`<td colspan="${texts.length}">${texts[0]!}</td>` : texts.map(t => html`<td>${t}</td>`);
      return html`<tr><th scope="row">${name}</th>${cells}</tr>`;
    })}</tbody>
  </table></div>`;
}

/** Wheels of a group in words: count, load, pressure and the span of their positions. */
function wheelsText(c: LoadClass): string {
  const loads = [...new Set(c.wheels.map(w => kilonewtons(w.load)))];
  const pressures = [...new Set(c.wheels.map(w => megapascals(w.load / (w.length * w.width))))];
  const patches = [...new Set(c.wheels.map(w => `${figures(w.length * 1e3)} × ${millimetres(w.width)}`))];
  const span = (key: "x" | "y") => Math.max(...c.wheels.map(w => w[key])) - Math.min(...c.wheels.map(w => w[key]));
  const reach = (["x", "y"] as const).flatMap(key =>
    span(key) > 0 ? [`${metres(span(key))} ${key === "x" ? "along" : "across"}`] : [],
  );
  const size = reach.length > 0 ? `, over ${reach.join(" and ")}` : "";
  return `${c.wheels.length} wheel${c.wheels.length > 1 ? "s" : ""} of ${loads.join(" / ")} at ${pressures.join(" / ")} on ${patches.join(" / ")}${size}`;
}

function wanderText(wander: Wander): string {
  switch (wander.kind) {
    case "normal":
      return millimetres(wander.deviation);
    case "uniform":
      return `even over ${millimetres(wander.width)}`;
    case "histogram": {
      const {edges} = wander;
      return `measured, ${millimetres(edges[0])} to ${millimetres(edges[edges.length - 1])}`;
    }
  }
}

function trafficTable(result: LifeResult): Html {
  const {classes, standardAxle} = result.study.traffic;
  return html`
  <div class="scroll"><table>
    <caption>Traffic. Contact patches are length × width; wander is the standard deviation of the lateral position.</caption>
    <thead><tr><th scope="col">Class</th><th scope="col">Wheels</th><th scope="col" class="n">Passes<br><small>first year</small></th>
      <th scope="col" class="n">Growth<br><small>a year</small></th><th scope="col" class="n">Wander</th></tr></thead>
    <tbody>${classes.map(
      c => html`
      <tr><th scope="row">${c.name}</th><td>${wheelsText(c)}</td><td class="n">${count(c.passesPerYear)}</td>
        <td class="n">${percent(c.growth)}</td><td class="n">${wanderText(c.wander)}</td></tr>`,
    )}
      <tr><th scope="row">${standardAxle.name} <small>standard axle</small></th><td>${wheelsText(standardAxle)}</td><td class="n">–</td><td class="n">–</td><td class="n">–</td></tr></tbody>
  </table></div>`;
}

function climateText(result: LifeResult): Html {
  const {weather, exchange, neutralTemperature, bins} = result.study;
  const derived = "kind" in bins ? `derived from the record, ${bins.count} of equal weight asked for` : "given";
  const base = result.treatments[0]!;
  const record = weather
    ? html`<p>Record: ${weather.label}; hourly ${weather.kind} temperature, ${count(weather.temperature.length / 24)} days, sun
      ${weather.solar ? "recorded" : "not recorded"}, wind ${weather.wind ? "recorded" : `not recorded (film coefficient ${figures(exchange.filmCoefficient)} W/(m²·K) used)`}${weather.dewPoint ? ", dew point recorded" : ""}${weather.cloud ? ", sky cover recorded" : ""}.
      Surface: absorptivity ${figures(exchange.absorptivity)}, emissivity ${figures(exchange.emissivity)}.
      Tip free of strain at ${neutralTemperature === null ? "the mean of the record" : celsius(neutralTemperature)}.</p>`
    : html`<p>No temperature record was given, so no reflection by temperature was computed.</p>`;
  return html`${record}<p>Temperature bins of the overlay (${derived}), with their share of the passes: ${binsText(base)}.</p>`;
}

/** The inputs, section by section. */
export function inputsPart(result: LifeResult): Html {
  const all = materials(result);
  return html`
  <h3>Section and joint</h3>${sectionTable(result)}
  <h3>Materials</h3>${modulusTable(result)}<br>${lawTable(all)}<br>${physicalTable(all)}
  <h3>Traffic</h3>${trafficTable(result)}
  <h3>Climate</h3>${climateText(result)}
  <p>Analysis period ${years(result.study.analysisPeriod)}.</p>`;
}
