/** Axes of master curves: decades drawn as their logarithms, and moduli. */

import * as Plot from "@observablehq/plot";
import {figures, powerTick} from "../format.ts";
import {RULE} from "./frame.ts";
import type {TakenScale} from "./scales.ts";

const MOST_TICKS = 9; // of an axis in decades

/** Whole decades within a range of lg, few enough to be labelled. */
export function decades([low, high]: readonly [number, number]): number[] {
  const step = Math.max(1, Math.ceil((high - low) / MOST_TICKS));
  const first = Math.ceil(low / step) * step;
  return Array.from({length: Math.floor((high - first) / step + 1e-9) + 1}, (_, k) => first + k * step);
}

/** An axis along lg of a quantity, labelled with the quantity itself. */
export function lgAxisX(ticks: readonly number[], label: string): Plot.Markish {
  return Plot.axisX([...ticks], {text: ticks.map(powerTick), label, labelAnchor: "center", labelArrow: "none"});
}

/** Such an axis as it is to be read: of the quantity, logarithmic. */
export function toldDecades(
  [low, high]: readonly [number, number],
  label: string,
  range: readonly [number, number],
): TakenScale {
  return {type: "log", domain: [10 ** low, 10 ** high], range, label};
}

const modulusTicks = ([low, high]: readonly [number, number]): number[] => {
  const steps = Math.log10(high / low) > 3 ? [1] : [1, 2, 5];
  const ticks: number[] = [];
  for (let k = Math.floor(Math.log10(low)); k <= Math.ceil(Math.log10(high)); k++)
    for (const s of steps) ticks.push(Number((s * 10 ** k).toPrecision(1)));
  return ticks.filter(t => t >= low * 0.999 && t <= high * 1.001);
};

/** Logarithmic axis of moduli with its rules. */
export function modulusAxis(values: readonly number[], label: string) {
  const [low, high] = [Math.min(...values) / 1.25, Math.max(...values) * 1.25];
  const ticks = modulusTicks([low, high]);
  return {
    y: {type: "log" as const, domain: [low, high], axis: null, label},
    marks: [
      Plot.ruleY(ticks, RULE),
      Plot.axisY(ticks, {text: ticks.map(t => figures(t)), label, labelAnchor: "top", labelArrow: "none"}),
    ],
  };
}
