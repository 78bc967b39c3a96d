/** The words and numbers of a calibration from wheel-tracked beams, for page and terminal alike. */

import {type Calibration, type Interval, type LawEstimate, REFERENCE_STRAIN} from "../engine/laboratory/index.ts";
import {count, figures, megapascalsPerMillimetre, microstrain, percent, powerOfTen} from "./format.ts";

/** Of every interval in words: "90 %". */
export function levelText({request}: Calibration): string {
  return percent(request.level);
}

/** Where rates are compared: "500 µε". */
export const AT_STRAIN = microstrain(REFERENCE_STRAIN);

/** A of dc/dN = A·ε^n with c in mm and ε in µε. */
export function coefficientText({logCoefficient, exponent}: LawEstimate): string {
  return powerOfTen(Math.exp(logCoefficient) * 10 ** (3 - 6 * exponent.value));
}

/** Advance per cycle in mm, with its interval. */
export function rateText({value, low, high}: Interval): {readonly value: string; readonly interval: string} {
  return {value: powerOfTen(value * 1e3, 2), interval: `${powerOfTen(low * 1e3, 2)} to ${powerOfTen(high * 1e3, 2)}`};
}

/** Where a law comes from. */
export function originText({origins}: Calibration, material: string): string {
  const origin = origins[material];
  if (!origin) return "";
  switch (origin.kind) {
    case "fitted":
      return "fitted to its cracks";
    case "relative":
      return `from fatigue lines, relative to ${origin.to}`;
    case "whole":
      return "did not crack; no law";
  }
}

/** Materials of the beams to which no law was fitted. */
export function otherMaterials({origins, estimates}: Calibration): string[] {
  return Object.keys(origins).filter(material => !estimates.some(e => e.material === material));
}

/** Warnings with the beams or materials they are about. */
export function warningTexts({warnings}: Calibration): string[] {
  return warnings.map(w => (w.subjects.length ? `${w.text} (${w.subjects.join(", ")})` : w.text));
}

/** What one beam did, and what the others foretold. */
export interface BeamRow {
  readonly name: string;
  readonly observed: string;
  readonly predicted: string;
  readonly interval: string;
  readonly within: boolean | null; // null: not predicted
  readonly factor: string; // of the beam's own growth
}

export function beamRows({cases, predictions, unpredicted, fit}: Calibration): BeamRow[] {
  return cases.map(({test}, k) => {
    const prediction = predictions.find(p => p.name === test.name);
    const factor = figures(Math.exp(fit.effects[k].clock), 2);
    if (!prediction) {
      const reason = unpredicted.find(u => u.name === test.name)?.reason ?? "";
      return {name: test.name, observed: "", predicted: "–", interval: reason, within: null, factor};
    }
    const {after, before} = prediction.observed;
    return {
      name: test.name,
      observed: before === null ? `> ${count(after)}` : `${count(after)} to ${count(before)}`,
      predicted: passesText(prediction.median),
      interval: `${passesText(prediction.life.low)} to ${passesText(prediction.life.high)}`,
      within: prediction.within,
      factor,
    };
  });
}

function passesText(passes: number): string {
  return Number.isFinite(passes) ? count(passes) : "beyond";
}

const FEWEST_TO_DIFFER = 3;

/** The result in a sentence, and what qualifies it. */
export function calibrationAnswer(calibration: Calibration): {headline: string; details: string[]} {
  const {estimates, predictions, fit, cases} = calibration;
  const laws = estimates.map(
    e =>
      `${e.material} n = ${figures(e.exponent.value, 2)}, ${powerOfTen(e.rate.value * 1e3, 2)} mm per cycle at ${AT_STRAIN}`,
  );
  const held = predictions.filter(p => p.within).length;
  const slowest = estimates.toSorted((p, q) => p.rate.value - q.rate.value);
  const [slow, fast] = [slowest[0], slowest[slowest.length - 1]];
  const details = [
    predictions.length
      ? `Predicted by laws fitted without it, ${held} of ${predictions.length} beams lived within the ${levelText(calibration)} interval.`
      : "No beam could be predicted by the others: the programme is too small for that.",
    cases.length < FEWEST_TO_DIFFER
      ? "How much beams differ from one another cannot be told from so few."
      : `Beams of one kind differ by a factor of ${figures(Math.exp(fit.scatter.beam), 2)} in growth (one standard deviation)${
          estimates.length > 1 && slow !== fast
            ? `; at ${AT_STRAIN} a crack runs ${figures(fast.rate.value / slow.rate.value, 2)} times slower in ${slow.material} than in ${fast.material}`
            : ""
        }.`,
  ];
  const verb = fit.converged ? "Growth laws" : "Growth laws, not settled";
  return {
    headline: `${verb} from ${cases.length === 1 ? "one beam" : `${cases.length} beams`}: ${laws.join("; ")}.`,
    details,
  };
}

/** A value of a choice with its unit. */
export function choiceText(choice: "shear weight" | "crack interlock", value: number): string {
  return choice === "shear weight" ? figures(value) : megapascalsPerMillimetre(value);
}
