import type {EstimatedMix, ViscosityLine} from "./estimate.ts";
import {KELVIN, lgViscosity} from "./shift.ts";

/** Dense asphalt as it is commonly made (common practice, no source): the ranges of the fitted mixtures are not at hand. */
const USUAL = [
  {key: "retained19", name: "retained on 19 mm", range: [0, 0.3]},
  {key: "retained9_5", name: "retained on 9.5 mm", range: [0, 0.6]},
  {key: "retained4_75", name: "retained on 4.75 mm", range: [0.2, 0.75]},
  {key: "passing0_075", name: "passing 0.075 mm", range: [0.02, 0.09]},
  {key: "airVoids", name: "air voids", range: [0.01, 0.12]},
  {key: "effectiveBinder", name: "effective binder", range: [0.06, 0.16]},
] as const;
const PENETRATION = [10e-4, 300e-4] as const; // [m]
const INDEX = [-2, 1] as const; // penetration index of plain bitumen [–], from memory
const LG_VISCOSITY = [5, 11] as const; // plausible at 25 °C [lg cP]
/** Highest viscosity that the equation was used with, 2.7e10 poise [lg cP]; NCHRP 1-37A 2004 (from memory). */
export const HIGHEST_VISCOSITY = Math.log10(2.7e12);

/** Where the equation is used outside of what it was made from. */
export function estimateWarnings(mix: EstimatedMix, line: ViscosityLine): string[] {
  const percent = (value: number): string => `${Number((100 * value).toPrecision(3))} %`;
  const unusual = USUAL.flatMap(({key, name, range: [low, high]}) =>
    mix[key] >= low && mix[key] <= high
      ? []
      : [`${percent(mix[key])} ${name}: usual for dense asphalt are ${percent(low)} to ${percent(high)}.`],
  );
  return [...unusual, ...binderWarnings(mix, line), frostWarning(line)];
}

function binderWarnings({binder}: EstimatedMix, line: ViscosityLine): string[] {
  if (binder.kind === "line") {
    const lg = lgViscosity(line, 25);
    if (lg >= LG_VISCOSITY[0] && lg <= LG_VISCOSITY[1]) return [];
    return [`A and VTS give a viscosity of 10^${(lg - 2).toFixed(1)} poise at 25 °C: bitumen has 10^3 to 10^9.`];
  }
  const {penetration, softeningPoint} = binder;
  const warnings: string[] = [];
  const tenths = penetration / 1e-4;
  if (penetration < PENETRATION[0] || penetration > PENETRATION[1])
    warnings.push(
      `Penetration ${Number(tenths.toPrecision(3))} × 0.1 mm: the equation for viscosity is meant for 10 to 300.`,
    );
  const index = penetrationIndex(tenths, softeningPoint);
  if (index < INDEX[0] || index > INDEX[1])
    warnings.push(
      `Penetration index ${index.toFixed(1)}: plain bitumen has ${INDEX[0]} to ${INDEX[1]}. The viscosity of 13,000 poise at the ` +
        "softening point does not hold for polymer-modified or blown binders.",
    );
  return warnings;
}

/**
 * (1952 − 500·lg Pen − 20·T)/(50·lg Pen − T − 120), Pen in 0.1 mm, T the softening point in °C.
 *
 * @source EN 12591, annex A (from memory)
 */
function penetrationIndex(tenths: number, softeningPoint: number): number {
  const lg = Math.log10(tenths);
  return (1952 - 500 * lg - 20 * softeningPoint) / (50 * lg - softeningPoint - 120);
}

/** The line has no end in the cold, the viscosity of the source has. */
function frostWarning({intercept, susceptibility}: ViscosityLine): string {
  const rankine = 10 ** ((Math.log10(HIGHEST_VISCOSITY) - intercept) / susceptibility);
  const limit = rankine / 1.8 - KELVIN;
  return (
    `Below ${limit.toFixed(0)} °C the binder's viscosity is held at 2.7e10 poise, as the source does: ` +
    "there the estimate gets no stiffer."
  );
}
