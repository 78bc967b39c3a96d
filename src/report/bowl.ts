/** The words and numbers of a deflection bowl, for page and terminal alike. */

import type {BowlResult, BowlWarning, Combination, Sensor, Solution} from "../engine/backanalysis/types.ts";
import {figures, kilonewtons, megapascals, metres, millimetres, percent} from "./format.ts";

/** A result with what its document says beside the numbers. */
export interface BowlCase {
  readonly name: string;
  readonly source: string | null;
  readonly temperatures: readonly (number | null)[]; // in the layers during the test, a note [°C]
  readonly result: BowlResult;
}

/** A modulus to three figures: a bowl knows no more. */
const mpa = (modulus: number): string => figures(Number((modulus / 1e6).toPrecision(3)));
const roughly = (share: number): string => percent(Number(share.toPrecision(2)));
const micrometres = (length: number): string => figures(length * 1e6);

/** The result in a sentence, and what qualifies it. */
export function bowlAnswer({result}: BowlCase): {headline: string; details: string[]} {
  const {layers, rms, scatter, sensors, test, warnings} = result;
  const found = layers.filter(l => !l.fixed).map(l => `${l.name} ${mpa(l.modulus)}\u00a0MPa`);
  const unfit = warnings.some(w => w.code === "misfit");
  const drops = test.drops.length;
  const fit = `The fitted bowl is off by ${roughly(rms)} (root mean square of ${sensors.length} sensors, ${drops} drop${drops > 1 ? "s" : ""})`;
  const share =
    scatter === null
      ? "; with as many unknowns as sensors that says nothing."
      : `, ${figures(scatter, 2)} times the stated accuracy of the sensors.`;
  return {
    headline: `${unfit ? "Moduli, though the layers do not fit the bowl" : "Moduli"}: ${found.join(", ")}.`,
    details: [fit + share, tradeText(result)],
  };
}

/** Moduli that differ by less than this between the two ends are not spoken of [–]. */
const ALIKE = 1.05;
const NARROW = 1.25; // a modulus known to this ratio of ends is called determined [–]

/** What the bowl does not tell apart. */
function tradeText({alternatives, layers, test}: BowlResult): string {
  if (!alternatives) return "There is one unknown modulus.";
  const {low, high, layer} = alternatives;
  const ratio = high.moduli[layer] / low.moduli[layer];
  if (ratio < NARROW) return `The bowl determines every modulus to within ±${roughly((ratio - 1) / 2)}.`;
  const moved = layers.flatMap(({fixed}, j) => {
    const own = high.moduli[j] / low.moduli[j];
    return !fixed && Math.max(own, 1 / own) > ALIKE ? [j] : [];
  });
  const set = ({moduli}: Solution): string => moved.map(j => `${layers[j].name} ${mpa(moduli[j])}\u00a0MPa`).join(", ");
  const opposite = moved.filter(j => high.moduli[j] < low.moduli[j]).map(j => layers[j].name);
  const against = opposite.length ? `${layers[layer].name} against ${opposite.join(" and ")}` : layers[layer].name;
  const interval = percent(test.probability);
  return `Known worst: ${against}. Within the noise (${interval}) the bowl takes these for equal: ${set(low)}; and ${set(high)} (off by ${roughly(low.rms)} and ${roughly(high.rms)}).`;
}

export interface LayerRow {
  readonly name: string;
  readonly thickness: string;
  readonly poisson: string;
  readonly modulus: string; // MPa
  readonly interval: string; // MPa
  readonly remark: string;
}

export function layerRows({result, temperatures}: BowlCase): LayerRow[] {
  return result.layers.map((layer, j) => {
    const {thickness, poisson, modulus} = result.test.layers[j];
    const temperature = temperatures[j] ?? null;
    const bound = layer.atBound && `at the ${layer.atBound === "low" ? "lower" : "upper"} end of its range`;
    const range = modulus.kind === "unknown" ? modulus : null;
    return {
      name: layer.name,
      thickness: thickness === Infinity ? "–" : figures(thickness * 1e3),
      poisson: figures(poisson),
      modulus: mpa(layer.modulus),
      interval: layer.interval
        ? `${endText(layer.interval.low, range?.low, "<")} to ${endText(layer.interval.high, range?.high, ">")}`
        : "given",
      remark: [bound, temperature !== null && `at ${figures(temperature)} °C`].filter(Boolean).join("; "),
    };
  });
}

/** An end of an interval; where there is none within the range searched, the range's. */
function endText(end: number | null, bound: number | undefined, sign: "<" | ">"): string {
  return end === null ? `${sign} ${mpa(bound ?? Number.NaN)}` : mpa(end);
}

export interface SensorRow {
  readonly offset: string; // mm
  readonly measured: string; // µm
  readonly deviation: string; // µm
  readonly fitted: string; // µm
  readonly difference: string; // %
  readonly scaled: string; // in deviations
  readonly surfaceModulus: string; // MPa
}

export function sensorRows({sensors}: BowlResult): SensorRow[] {
  return sensors.map(s => ({
    offset: figures(s.offset * 1e3),
    measured: micrometres(s.measured),
    deviation: figures(s.deviation * 1e6, 2),
    fitted: micrometres(s.fitted),
    difference: figures((s.fitted / s.measured - 1) * 100, 2),
    scaled: figures(residualOf(s), 2),
    surfaceModulus: mpa(s.surfaceModulus),
  }));
}

/** Residual in the deviations by which the sensor is weighed [–]. */
export function residualOf({fitted, measured, deviation}: Sensor): number {
  return (fitted - measured) / deviation;
}

const SHOWN = 0.15; // of the largest weight: smaller ones are left out of a product

export interface Factor {
  readonly name: string; // of the layer
  readonly power: string; // empty for 1
}

/** Products of powers of moduli with how well each is known, the best first. */
export function combinationRows(result: BowlResult): {readonly factors: readonly Factor[]; readonly known: string}[] {
  return result.combinations.map(c => ({factors: factorsOf(c, result), known: knownText(c.factor)}));
}

function factorsOf({weights}: Combination, {unknowns, layers}: BowlResult): Factor[] {
  const largest = weights.reduce((most, w) => (Math.abs(w) > Math.abs(most) ? w : most), 0);
  return weights
    .map((w, i) => ({power: w / largest, name: layers[unknowns[i]].name}))
    .filter(({power}) => Math.abs(power) >= SHOWN)
    .sort((a, b) => Math.abs(b.power) - Math.abs(a.power))
    .map(({power, name}) => ({name, power: Math.abs(power - 1) < 0.005 ? "" : figures(power, 2)}));
}

/** ±4.5 %, or a factor where that is clearer. */
function knownText(factor: number): string {
  if (factor < 1.4) return `±${roughly(factor - 1)}`;
  return factor < 1000 ? `a factor of ${figures(factor, 2)}` : "not at all";
}

export interface SolutionRow {
  readonly name: string;
  readonly moduli: readonly string[]; // MPa, by layer
  readonly rms: string; // %
}

/** The best fit, what fits as well, and other minima. */
export function solutionRows({layers, rms, alternatives, others}: BowlResult): SolutionRow[] {
  const row = (name: string, {moduli, rms: own}: Solution): SolutionRow => ({
    name,
    moduli: moduli.map(mpa),
    rms: figures(own * 100, 2),
  });
  return [
    row("best fit", {moduli: layers.map(l => l.modulus), rms}),
    ...(alternatives
      ? [
          row(`least ${layers[alternatives.layer].name}`, alternatives.low),
          row(`most ${layers[alternatives.layer].name}`, alternatives.high),
        ]
      : []),
    ...others.map((s, i) => row(`other minimum${others.length > 1 ? ` ${i + 1}` : ""}`, s)),
  ];
}

export function bowlWarningTexts(result: BowlResult): string[] {
  return result.warnings.map(w => warningText(w, result));
}

function warningText(warning: BowlWarning, {layers, sensors, test}: BowlResult): string {
  switch (warning.code) {
    case "thin-layer":
      return `${layers[warning.layer].name} is ${millimetres(warning.thickness)} thick, less than half the plate’s radius: the bowl hardly feels it. Give its modulus from a test of the material instead.`;
    case "at-bound":
      return `The best modulus of ${layers[warning.layer].name} lies at the ${warning.side === "low" ? "lower" : "upper"} end of its range or beyond: either the range is wrong, or a thickness or another modulus is.`;
    case "wide-interval":
      return warning.ratio === Infinity
        ? `The interval of ${layers[warning.layer].name} has no end within its range: this bowl does not determine it.`
        : `The interval of ${layers[warning.layer].name} spans a factor of ${figures(warning.ratio, 2)}: this bowl hardly determines it.`;
    case "other-solutions":
      return `${warning.count === 1 ? "Another set" : `${warning.count} other sets`} of moduli, a minimum of its own, fits within the noise.`;
    case "no-scatter":
      return "There are as many unknown moduli as sensors: the fit cannot show whether the layers are right, and intervals rest on the stated accuracy alone.";
    case "misfit": {
      const {offset} = sensors[warning.worst];
      const cause = warning.systematic
        ? "in long runs of one sign: the layers as described do not bend like this"
        : "without a pattern: look at the sensors";
      return `Residuals are ${figures(warning.scatter, 2)} times the stated accuracy, ${cause}. The largest is that of the sensor at ${millimetres(offset)}.`;
    }
    case "stiff-bottom":
      return `Beyond ${millimetres(warning.from)} the surface modulus rises outward, ×${figures(warning.rise, 2)} at the last sensor: a rigid bottom or water table at depth, or soil that is stiffer where it is stressed less. Taken for a half-space, the soil comes out too stiff and the layers above it too soft.`;
    case "load-dependent": {
      const area = Math.PI * test.radius ** 2;
      const [low, high] = [kilonewtons(warning.low * area), kilonewtons(warning.high * area)];
      return `Deflection for each kN is ×${figures(warning.ratio)} at ${high} of that at ${low}: the section is not linear, and the moduli are those of the mean load.`;
    }
  }
}

/** How the test was made, in a line. */
export function testText({result: {test, pressure}}: BowlCase): string {
  const load = kilonewtons(pressure * Math.PI * test.radius ** 2);
  const last = test.layers[test.layers.length - 1].thickness;
  const above = test.layers.slice(0, -1).reduce((sum, l) => sum + l.thickness, 0);
  const base = test.base === "half-space" ? "half-space" : `rigid bottom at ${metres(above + last)}`;
  return `${load} on a plate ${millimetres(2 * test.radius)} across, ${megapascals(pressure)}; ${base}`;
}

export const BOWL_JUDGEMENT =
  "A modulus found from a bowl holds for its load, its temperature and its day, and for the thicknesses given. It supports, and never replaces, the judgement of a qualified pavement engineer.";
