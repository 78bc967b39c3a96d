/**
 * How quantities are shown, metric or in US customary units. Metric text is that of format.ts; US customary factors are here.
 *
 * @source NIST Special Publication 811 (2008), appendix B (from memory): 1 in = 25.4 mm, 1 lb = 0.45359237 kg and
 *         1 lbf = 4.4482216152605 N are exact, 1 Btu (IT) = 1055.05585262 J; the others follow from these
 */

import {
  celsius,
  figures,
  kilometresPerHour,
  kilonewtons,
  megapascals,
  megapascalsPerMillimetre,
  metres,
  microstrain,
  millimetres,
} from "./format.ts";

export type UnitSystem = "metric" | "us";

const INCH = 0.0254; // [m]
const FOOT = 12 * INCH; // [m]
const MILE = 5280 * FOOT; // [m]
const POUND = 0.45359237; // [kg]
const POUND_FORCE = 4.4482216152605; // [N]
const KIP = 1000 * POUND_FORCE; // [N]
const PSI = POUND_FORCE / INCH ** 2; // [Pa]
const KSI = 1000 * PSI; // [Pa]
const BTU = 1055.05585262; // international table [J]
const FAHRENHEIT_STEP = 5 / 9; // [K]

/** What is measured; the engine has all of it in SI, temperatures in °C. */
export type QuantityKind =
  | "length" // of layers and cracks [m]
  | "distance" // of metres rather than of layers [m]
  | "deflection" // [m]
  | "temperature" // [°C]
  | "temperature difference" // [K]
  | "modulus" // [Pa]
  | "large modulus" // [Pa]; GPa rather than MPa
  | "stress" // [Pa]
  | "interface stiffness" // [Pa/m]
  | "foundation stiffness" // [Pa/m]; MPa/m rather than MPa/mm
  | "force" // [N]
  | "speed" // [m/s]
  | "strain" // [–]
  | "growth"; // of a crack [m/cycle]

interface Shown {
  readonly unit: string;
  readonly of: (si: number) => number;
}

/** SI to the units of reports, by the same operations as ever so that no digit moves. */
const METRIC: Readonly<Record<QuantityKind, Shown & {readonly text?: (si: number) => string}>> = {
  length: {unit: "mm", of: v => v * 1e3, text: millimetres},
  distance: {unit: "m", of: v => v, text: metres},
  deflection: {unit: "µm", of: v => v * 1e6},
  temperature: {unit: "°C", of: v => v, text: celsius},
  "temperature difference": {unit: "K", of: v => v},
  modulus: {unit: "MPa", of: v => v / 1e6, text: megapascals},
  "large modulus": {unit: "GPa", of: v => v / 1e6 / 1e3},
  stress: {unit: "MPa", of: v => v / 1e6, text: megapascals},
  "interface stiffness": {unit: "MPa/mm", of: v => v / 1e9, text: megapascalsPerMillimetre},
  "foundation stiffness": {unit: "MPa/m", of: v => v / 1e6},
  force: {unit: "kN", of: v => v / 1e3, text: kilonewtons},
  speed: {unit: "km/h", of: v => v * 3.6, text: kilometresPerHour},
  strain: {unit: "µε", of: v => v * 1e6, text: microstrain},
  growth: {unit: "mm", of: v => v * 1e3},
};

const US: Readonly<Record<QuantityKind, Shown>> = {
  length: {unit: "in", of: v => v / INCH},
  distance: {unit: "ft", of: v => v / FOOT},
  deflection: {unit: "mil", of: v => (v / INCH) * 1e3},
  temperature: {unit: "°F", of: v => v * 1.8 + 32},
  "temperature difference": {unit: "°F", of: v => v * 1.8},
  modulus: {unit: "ksi", of: v => v / KSI},
  "large modulus": {unit: "ksi", of: v => v / KSI},
  stress: {unit: "psi", of: v => v / PSI},
  "interface stiffness": {unit: "ksi/in", of: v => (v * INCH) / KSI},
  "foundation stiffness": {unit: "psi/in", of: v => (v * INCH) / PSI},
  force: {unit: "kip", of: v => v / KIP},
  speed: {unit: "mph", of: v => (v * 3600) / MILE},
  strain: METRIC.strain,
  growth: {unit: "in", of: v => v / INCH},
};

/** One kind of quantity as it is shown. */
export interface Measure {
  readonly unit: string;
  readonly of: (si: number) => number; // in that unit
  readonly fromMetric: (value: number) => number; // of a number that is in the metric unit already
  readonly text: (si: number) => string; // with its unit, for people
}

export function measure(kind: QuantityKind, system: UnitSystem = "metric"): Measure {
  const {unit, of} = system === "us" ? US[kind] : METRIC[kind];
  const own = system === "us" && kind !== "strain" ? undefined : METRIC[kind].text;
  const plain = (si: number): string => `${figures(of(si))}\u00a0${unit}`;
  const degrees = (si: number): string => celsius(of(si)).replace("°C", unit); // one decimal at most
  const one = METRIC[kind].of(1);
  const fromMetric = (value: number): number => (system === "us" ? of(value / one) : value);
  return {unit, of, fromMetric, text: own ?? (kind === "temperature" ? degrees : plain)};
}

/** A quantity with its unit: "80 mm" or "3.15 in". */
export function quantityText(si: number, kind: QuantityKind, system: UnitSystem): string {
  return measure(kind, system).text(si);
}

/** How the number of a document's field is shown and taken back. */
export interface DisplayUnit {
  readonly unit: string;
  /** The shortest number that `fromDisplay` takes back to the document's: what was typed is shown again. */
  readonly toDisplay: (document: number) => number;
  /** Rounded to 12 digits, so that no noise of a conversion is stored. */
  readonly fromDisplay: (shown: number) => number;
}

/** 1 of the US unit in the document's unit, and the document's value at 0 of the US unit. */
type Conversion = readonly [unit: string, size: number, zero?: number];

const TO_US: Readonly<Record<string, Conversion>> = {
  mm: ["in", INCH * 1e3],
  m: ["ft", FOOT],
  µm: ["mil", INCH * 1e3],
  "0.1 mm": ["in", INCH * 1e4],
  MPa: ["ksi", KSI / 1e6],
  GPa: ["ksi", KSI / 1e9],
  kPa: ["psi", PSI / 1e3],
  "MPa/mm": ["ksi/in", KSI / INCH / 1e9],
  "MPa/m": ["psi/in", PSI / INCH / 1e6],
  kN: ["kip", KIP / 1e3],
  "kN/m": ["lbf/in", POUND_FORCE / INCH / 1e3],
  "kN/mm": ["kip/in", KIP / INCH / 1e6],
  "°C": ["°F", FAHRENHEIT_STEP, -32 * FAHRENHEIT_STEP],
  K: ["°F", FAHRENHEIT_STEP], // a difference
  "1/K": ["1/°F", 1 / FAHRENHEIT_STEP],
  "1/°C": ["1/°F", 1 / FAHRENHEIT_STEP],
  "km/h": ["mph", MILE / 1e3],
  "m/s": ["ft/s", FOOT],
  "kg/m³": ["lb/ft³", POUND / FOOT ** 3],
  "W/(m·K)": ["Btu/(h·ft·°F)", BTU / 3600 / FOOT / FAHRENHEIT_STEP],
  "W/(m²·K)": ["Btu/(h·ft²·°F)", BTU / 3600 / FOOT ** 2 / FAHRENHEIT_STEP],
  "J/(kg·K)": ["Btu/(lb·°F)", BTU / POUND / FAHRENHEIT_STEP],
  "mm/cycle, ε in µε": ["in/cycle, ε in µε", INCH * 1e3],
};

const STORED_DIGITS = 12;
const MOST_DIGITS = 17; // tell any double from its neighbours

/** For a unit as documents write it ("mm", "MPa/mm", …). Units without a customary counterpart, and prices, stay as they are. */
export function displayUnit(unit: string, system: UnitSystem): DisplayUnit {
  const conversion = system === "us" ? TO_US[unit] : undefined;
  if (!conversion) return {unit, toDisplay: v => v, fromDisplay: v => v};
  const [name, size, zero = 0] = conversion;
  const fromDisplay = (shown: number): number => Number((shown * size + zero).toPrecision(STORED_DIGITS));
  const toDisplay = (value: number): number => {
    const exact = (value - zero) / size;
    for (let digits = 1; digits < MOST_DIGITS; digits++) {
      // Where the zeros differ, digits are counted from the point: a value near the other zero has few of its own.
      const shorter = Number(zero === 0 ? exact.toPrecision(digits) : exact.toFixed(digits - 1)) + 0; // no −0
      if (fromDisplay(shorter) === value) return shorter;
    }
    return exact;
  };
  return {unit: name, toDisplay, fromDisplay};
}
