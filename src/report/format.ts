/** Numbers and units for people. SI in, text out; the only place of the report where units are converted. */

import type {Life} from "../engine/life/types.ts";
import type {GrowthLaw} from "../engine/section/types.ts";
import {LIFE_CAP} from "../engine/survey/index.ts";

export {LIFE_CAP};

/** Between a number and its unit: does not break over lines. */
const NARROW = "\u00a0";

/** Groups digits by thousands with commas and writes a true minus. */
function grouped(text: string): string {
  const negative = text.startsWith("-");
  const [whole, fraction] = text.replace("-", "").split(".");
  const digits = whole!.replace(/\B(?=(\d{3})+$)/g, ",");
  const body = fraction === undefined ? digits : `${digits}.${fraction}`;
  return negative && /[1-9]/.test(body) ? `−${body}` : body;
}

/**
 * A number to so many significant figures, without trailing zeros after the point. Whole digits are never dropped below
 * 100,000, so 3,512 stays 3,512 at three figures; very small and very large numbers are written as 1.2×10⁻⁹.
 */
export function figures(value: number, significant = 3): string {
  if (Number.isNaN(value)) return "not a number";
  if (!Number.isFinite(value)) return value > 0 ? "∞" : "−∞";
  if (value === 0) return "0";
  const size = Math.abs(value);
  if (size >= 1e9 || size < 1e-4) return powerOfTen(value, significant);
  const order = Math.floor(Math.log10(size));
  const decimals = Math.max(0, significant - 1 - order);
  const rounded = size >= 1e5 ? Number(value.toPrecision(significant)) : value;
  const text = rounded.toFixed(Math.min(decimals, 20));
  return grouped(decimals > 0 ? text.replace(/\.?0+$/, "") : text);
}

const BUILT = 3; // decimals that a thickness may have: an eighth of an inch has three
const SIZE = 2; // decimals of one that has more
const EXACT = 1e-6;

/** A thickness that is built: all its figures, where it has no more than an eighth of an inch has. */
export function thicknessFigures(value: number): string {
  const built = Number(value.toFixed(BUILT));
  const told = Math.abs(built - value) < EXACT ? built : Number(value.toFixed(SIZE));
  return figures(told, 7);
}

export function intervalText({low, high}: {readonly low: number; readonly high: number}): string {
  return `${figures(low)} to ${figures(high)}`;
}

/** 1.2×10⁻⁹ */
export function powerOfTen(value: number, significant = 3): string {
  if (value === 0) return "0";
  const [mantissa, exponent] = value.toExponential(significant - 1).split("e") as [string, string];
  const raised = exponent.replace("+", "").replace(/./g, c => (c === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(c)]!));
  return `${mantissa.replace("-", "−")}×10${raised}`;
}

/** 10 to a whole power, as a label: 0.01, 1, 100, 10⁶. */
export function powerTick(lg: number): string {
  if (Math.abs(lg) <= 3) return figures(10 ** lg);
  return `10${String(lg).replace(/./g, c => (c === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(c)]!))}`;
}

export function hertz(frequency: number): string {
  return `${figures(frequency)}${NARROW}Hz`;
}

export function degrees(angle: number): string {
  return `${figures((angle * 180) / Math.PI)}°`;
}

/** A loading time in hours, and in days where these say more. */
export function hours(seconds: number): string {
  const value = seconds / 3600;
  const days = value >= 48 ? ` (${figures(value / 24, 2)}${NARROW}days)` : "";
  return `${figures(value)}${NARROW}h${days}`;
}

export function kilometresPerHour(speed: number): string {
  return `${figures(speed * 3.6)}${NARROW}km/h`;
}

export function millimetres(metres: number): string {
  return `${figures(metres * 1e3)}${NARROW}mm`;
}

/** Lengths of metres rather than of layers. */
export function metres(value: number): string {
  return `${figures(value)}${NARROW}m`;
}

export function megapascals(pascals: number): string {
  return `${figures(pascals / 1e6)}${NARROW}MPa`;
}

/** Stiffness per unit area of an interface or a joint: Pa/m → MPa/mm. */
export function megapascalsPerMillimetre(pascalsPerMetre: number): string {
  return `${figures(pascalsPerMetre / 1e9)}${NARROW}MPa/mm`;
}

export function kilonewtons(newtons: number): string {
  return `${figures(newtons / 1e3)}${NARROW}kN`;
}

export function microstrain(strain: number): string {
  return `${figures(strain * 1e6)}${NARROW}µε`;
}

export function celsius(temperature: number): string {
  return `${grouped((Math.round(temperature * 10) / 10).toFixed(1)).replace(/\.0$/, "")}${NARROW}°C`;
}

export function percent(fraction: number): string {
  return `${figures(fraction * 100)}${NARROW}%`;
}

/** A number of years without its unit: one decimal below 20 (two figures below 1), whole years from there. */
export function yearsNumber(years: number): string {
  if (years < 1) return figures(years, 2);
  return years < 19.95 ? figures(Math.round(years * 10) / 10, 3) : figures(Math.round(years), 4);
}

export function years(value: number): string {
  const text = yearsNumber(value);
  return `${text}${NARROW}${text === "1" ? "year" : "years"}`;
}

/** Passes and axles: 845, 12,300, 845,000, 3.2 million, 1.4 billion. */
export function count(value: number): string {
  if (!Number.isFinite(value)) return figures(value);
  if (value >= 9.995e8) return `${figures(value / 1e9, 2)}${NARROW}billion`;
  if (value >= 9.995e5) return `${figures(value / 1e6, value >= 9.95e6 ? 3 : 2)}${NARROW}million`;
  return grouped(Number(value.toPrecision(3)).toFixed(0));
}

/** A sum of money without its currency: 0.85, 23.45, 1,234. */
export function money(value: number): string {
  if (!Number.isFinite(value)) return figures(value);
  return Math.abs(value) >= 1e5 ? figures(value, 4) : grouped(value.toFixed(Math.abs(value) < 999.995 ? 2 : 0));
}

/** ×2.5 */
export function ratio(value: number): string {
  return `×${figures(value, value >= 9.95 ? 3 : 2)}`;
}

/**
 * Coefficient of the growth law for crack length in mm and strain in µε: dc/dN = A·ε^n, so
 * A[mm, µε] = A[m, –]·10³·10^(−6n).
 */
export function growthCoefficient(law: GrowthLaw): string {
  return powerOfTen(law.coefficient * 10 ** (3 - 6 * law.exponent));
}

/** True when the computed number of years is no longer a prediction. */
export function beyondCap(life: Life): boolean {
  return life.years > LIFE_CAP || (life.censored && life.years >= LIFE_CAP);
}

export interface LifeText {
  readonly short: string; // for a table cell or a bar: "6.2", "> 100", "> 40"
  readonly long: string; // for a sentence: "6.2 years", "> 100 years by this mechanism"
  readonly note: string | null; // the computed number, when it is not the one shown
}

/** How a life is told. */
export function lifeText(life: Life): LifeText {
  if (beyondCap(life)) {
    const note = life.censored
      ? `no failure within the ${yearsSpan(life.years)} integrated`
      : `computed ${years(life.years)}; read it as “not by this mechanism”`;
    return {short: `> ${LIFE_CAP}`, long: `> ${LIFE_CAP}${NARROW}years by this mechanism`, note};
  }
  if (life.censored) {
    return {
      short: `> ${yearsNumber(life.years)}`,
      long: `> ${years(life.years)}`,
      note: `the integration stopped at ${years(life.years)} without failure`,
    };
  }
  return {short: yearsNumber(life.years), long: years(life.years), note: null};
}

function yearsSpan(value: number): string {
  return Number.isFinite(value) ? years(value) : "whole time";
}
